namespace Recommender.Pages.Hosting;

/// <summary>What was posted cannot be read as a form; nothing was done with it.</summary>
/// <param name="cause">What the reader stumbled over; null where it was no form at all.</param>
public sealed class UnreadableFormException(Exception? cause = null) : Exception("The form cannot be read.", cause);
