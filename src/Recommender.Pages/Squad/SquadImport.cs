using Recommender.Answers.Wire;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Squad;

/// <summary>A spreadsheet on its way in: its headings, what each is taken for, and every row as it would be saved.</summary>
/// <param name="Text">The spreadsheet as it was sent; it goes along in the form, since nothing is saved before it is said.</param>
/// <param name="Headings">Its headings.</param>
/// <param name="Mapping">Column id for each heading, or null where it is left out.</param>
/// <param name="Rows">Its rows.</param>
/// <param name="Problem">Why there is nothing to show, or what was cut off; null otherwise.</param>
/// <param name="Token">Form token.</param>
public sealed record SquadImport(string Text, IReadOnlyList<string> Headings, IReadOnlyList<string?> Mapping, IReadOnlyList<ImportRow> Rows, string? Problem, string Token)
{
    /// <summary>Rows that can be saved and change something.</summary>
    public IReadOnlyList<ImportRow> Ready => [.. Rows.Where(r => r.Faults.Count == 0 && (r.Before is null || r.Changes.Count > 0))];

    /// <summary>Reads a spreadsheet.</summary>
    /// <param name="text">CSV.</param>
    /// <param name="chosen">Column ids that a coach chose for the headings, in order; null at first, when they are guessed.</param>
    /// <param name="squad">Saved profiles.</param>
    /// <param name="words">Vocabulary.</param>
    /// <param name="check">Checks a profile.</param>
    /// <param name="token">Form token.</param>
    /// <param name="today">Today.</param>
    public static SquadImport Of(string text, IReadOnlyList<string>? chosen, IReadOnlyList<AthleteProfile> squad, Vocabulary words, Func<AthleteProfile, IReadOnlyList<Fault>> check, string token, DateOnly today)
    {
        var (table, stopped) = SquadCsv.Read(text);
        if (table.Count < 2)
        {
            return new SquadImport(text, [], [], [], "There is no row under the headings. Save the spreadsheet as CSV, headings in the first row, and choose it again.", token);
        }

        var headings = table[0];
        List<string?> mapping = [.. headings.Select((h, i) => chosen is null ? SquadColumn.Guess(h)?.Id : i < chosen.Count && chosen[i].Length > 0 ? chosen[i] : null)];

        // One column serves one field: a second that was guessed alike is left out.
        for (var i = 0; i < mapping.Count; i++)
        {
            mapping[i] = mapping.IndexOf(mapping[i]) < i ? null : mapping[i];
        }

        if (!mapping.Contains("name") && !mapping.Contains("ref"))
        {
            return new SquadImport(text, headings, mapping, [], "Say which column holds the name or the ref.", token);
        }

        var rows = table.Skip(1).Select((cells, r) => ImportRow.Read(r + 2,
            mapping.Select((column, i) => (column, i)).Where(m => m.column is not null).ToDictionary(m => m.column!, m => m.i < cells.Count ? cells[m.i] : "", StringComparer.Ordinal),
            squad, words, check, today)).ToList();
        var twice = rows.GroupBy(r => r.Profile.Ref, StringComparer.Ordinal).Where(g => g.Count() > 1).Select(g => g.Key).ToHashSet(StringComparer.Ordinal);
        rows = [.. rows.Select(r => twice.Contains(r.Profile.Ref) ? r with { Faults = [.. r.Faults, ("ref", "This athlete stands in more than one row; keep one.")] } : r)];
        return new SquadImport(text, headings, mapping, rows, stopped, token);
    }
}
