using Recommender.Answers;

namespace Recommender.Pages.Versions;

/// <summary>What a trial has found so far.</summary>
/// <param name="Tried">Decisions tried.</param>
/// <param name="Refused">Of them, those whose request cannot be answered on what is in force any more.</param>
/// <param name="Changed">Of them, those whose answers differ.</param>
/// <param name="TopMoved">Of them, those whose first pick differs.</param>
public sealed record ImpactSum(int Tried, int Refused, int Changed, int TopMoved)
{
    /// <summary>Before the first.</summary>
    public static ImpactSum Nothing { get; } = new(0, 0, 0, 0);

    /// <summary>With another stretch.</summary>
    public ImpactSum With(ImpactStretch stretch) => new(stretch.Done, stretch.Refused, Changed + stretch.Lines.Count, TopMoved + stretch.Lines.Count(l => l.TopWas != l.TopIs));
}
