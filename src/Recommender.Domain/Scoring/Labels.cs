namespace Recommender.Domain.Scoring;

/// <summary>Labels of details, each worded at most once a request: picks share most of them, and wording costs more than scoring.</summary>
/// <param name="count">How many labels there may be.</param>
/// <param name="word">Words the label at an index; called once for each that is asked for.</param>
internal sealed class Labels(int count, Func<int, string> word)
{
    private readonly string?[] worded = new string?[count];

    /// <summary>The label at an index, 0 up to the count.</summary>
    public string this[int index] => worded[index] ??= word(index);
}
