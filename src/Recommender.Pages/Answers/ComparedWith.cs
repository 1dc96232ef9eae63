namespace Recommender.Pages.Answers;

/// <summary>Which exercise a pick is compared with at first.</summary>
internal static class ComparedWith
{
    /// <summary>Address of the comparison: with the first pick, and the first with the second; null where there is no other.</summary>
    /// <param name="decisionId">Decision.</param>
    /// <param name="exercise">Exercise id of the pick.</param>
    /// <param name="picks">Exercise ids of all picks, in their order.</param>
    public static string? Address(string decisionId, string exercise, IEnumerable<string> picks) =>
        picks.FirstOrDefault(p => p != exercise) is { } other ? $"/decisions/{decisionId}?first={Uri.EscapeDataString(exercise)}&second={Uri.EscapeDataString(other)}#compared" : null;
}
