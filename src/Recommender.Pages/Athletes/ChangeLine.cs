using Recommender.Domain.Audit;
using Recommender.Domain.Dosing;
using Recommender.Pages.Words;

namespace Recommender.Pages.Athletes;

/// <summary>A change in a line.</summary>
/// <param name="What">What changed.</param>
/// <param name="Why">Why; what was asked differently where the picks themselves say nothing, since the same question on the same rules has the same answer.</param>
/// <param name="HasReason">Whether there is a reason on record.</param>
public sealed record ChangeLine(string What, string Why, bool HasReason)
{
    /// <summary>The lines of changes.</summary>
    /// <param name="changes">Changes.</param>
    /// <param name="asked">What was asked differently.</param>
    public static IReadOnlyList<ChangeLine> Of(IEnumerable<PickChange> changes, IReadOnlyList<string> asked) => [.. changes.Select(c => Of(c, asked))];

    private static ChangeLine Of(PickChange change, IReadOnlyList<string> asked)
    {
        var what = change.Kind switch
        {
            PickChangeKind.Gone => $"{change.Name} goes",
            PickChangeKind.Come => $"{change.Name} comes in",
            _ => $"{change.Name}, {Short(change.Was, change.Now)} → {Short(change.Now, change.Was)}",
        };
        var reasons = change.Reasons.Count > 0 ? change.Reasons : asked;
        return new ChangeLine(what, reasons.Count == 0 ? "no reason is on record" : string.Join("; ", reasons), reasons.Count > 0 && asked.Count > 0);
    }

    /// <summary>A dose beside another: the work, and what else differs.</summary>
    private static string Short(Dose? dose, Dose? other)
    {
        if (dose is null || other is null)
        {
            return Say.BySide(dose);
        }

        var parts = new List<string>();
        if (Say.BySide(dose) != Say.BySide(other))
        {
            parts.Add(Say.BySide(dose));
        }

        if (dose.Intensity != other.Intensity)
        {
            parts.Add(Say.Intensity(dose.Intensity));
        }

        if (dose.LoadKg != other.LoadKg)
        {
            parts.Add(Say.Kilograms(dose) ?? "no load known");
        }

        if (dose.RestSeconds != other.RestSeconds)
        {
            parts.Add($"rest {Say.Rest(dose.RestSeconds)}");
        }

        if (dose.Tempo != other.Tempo)
        {
            parts.Add(dose.Tempo is { } tempo ? $"tempo {tempo}" : "no tempo");
        }

        return parts.Count == 0 ? Say.BySide(dose) : string.Join(", ", parts);
    }
}
