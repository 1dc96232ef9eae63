using Recommender.Domain.Audit;
using Recommender.Domain.Dosing;
using Recommender.Pages.Words;

namespace Recommender.Pages.Athletes;

/// <summary>Changes that have the same reasons, in a line.</summary>
/// <param name="What">What changed, a part each; at least one.</param>
/// <param name="Why">Why; what was asked differently where the picks themselves say nothing, since the same question on the same rules has the same answer.</param>
public sealed record ChangeLine(IReadOnlyList<string> What, string Why)
{
    /// <summary>What stands where nothing on record says why.</summary>
    public const string NoReason = "no reason is on record";

    /// <summary>The lines of changes, in their order.</summary>
    /// <param name="changes">Changes.</param>
    /// <param name="asked">What was asked differently; empty when the same was asked of the same rules.</param>
    public static IReadOnlyList<ChangeLine> Of(IEnumerable<PickChange> changes, IReadOnlyList<string> asked) =>
        [.. changes.GroupBy(c => Because(c, asked), StringComparer.Ordinal).Select(g => new ChangeLine([.. g.Select(Told)], g.Key))];

    private static string Because(PickChange change, IReadOnlyList<string> asked) => asked.Count == 0 ? NoReason : string.Join("; ", change.Reasons.Count > 0 ? change.Reasons : asked);

    private static string Told(PickChange change) => change.Kind switch
    {
        PickChangeKind.Gone => $"{change.Name} goes",
        PickChangeKind.Come => $"{change.Name} comes in",
        _ => $"{change.Name}, {Short(change.Was, change.Now)} → {Short(change.Now, change.Was)}",
    };

    /// <summary>A dose beside another: what differs.</summary>
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
