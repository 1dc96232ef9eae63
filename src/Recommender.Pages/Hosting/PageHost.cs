using Recommender.Answers;
using Recommender.Domain.Knowledge;

namespace Recommender.Pages.Hosting;

/// <summary>Whose pages they are, and what they show from.</summary>
/// <param name="Organisation">The organisation that asks.</param>
/// <param name="Editions">Gives the edition in force.</param>
public sealed record PageHost(string Organisation, EditionInForce Editions)
{
    /// <summary>The edition in force; taken once a page.</summary>
    public Edition Edition => Editions.Current;
}
