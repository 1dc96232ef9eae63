using System.Buffers;
using System.Globalization;
using System.Text;
using Recommender.Answers.Wire;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;
using Recommender.Pages.Words;

namespace Recommender.Pages.Squad;

/// <summary>Tables of a squad as CSV (RFC 4180): reads what spreadsheets save, writes what they open.</summary>
internal static class SquadCsv
{
    /// <summary>Most rows that are read.</summary>
    public const int MostRows = 500;

    private const int MostColumns = 60;
    private static readonly char[] Delimiters = [',', ';', '\t'];
    private static readonly SearchValues<char> MustQuote = SearchValues.Create(",;\t\"\r\n");

    /// <summary>Rows of cells, headings first; semicolons and tabs serve as commas do, whichever the first line has most of.</summary>
    /// <returns>Rows, and what stopped the reading, or null.</returns>
    public static (IReadOnlyList<IReadOnlyList<string>> Rows, string? Stopped) Read(string text)
    {
        text = text.TrimStart('\uFEFF');
        var end = text.AsSpan().IndexOfAny('\r', '\n');
        var first = end < 0 ? text : text[..end];
        var delimiter = Delimiters.MaxBy(d => first.Split(d).Length);
        var rows = new List<IReadOnlyList<string>>();
        foreach (var cells in Records(text, delimiter))
        {
            if (rows.Count > MostRows)
            {
                return (rows, $"Only the first {MostRows} rows are read.");
            }

            if (cells.Exists(c => c.Length > 0))
            {
                rows.Add([.. cells.Take(MostColumns).Select(Unescaped)]);
            }
        }

        return (rows, null);
    }

    /// <summary>Records of RFC 4180: a cell in quotation marks may hold delimiters, line ends and, doubled, quotation marks.</summary>
    private static IEnumerable<List<string>> Records(string text, char delimiter)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (quoted)
            {
                if (c != '"')
                {
                    cell.Append(c);
                }
                else if (i + 1 < text.Length && text[i + 1] == '"')
                {
                    cell.Append('"');
                    i++;
                }
                else
                {
                    quoted = false;
                }
            }
            else if (c == '"' && cell.ToString().Trim().Length == 0)
            {
                quoted = true;
                cell.Clear();
            }
            else if (c == delimiter)
            {
                End();
            }
            else if (c is '\r' or '\n')
            {
                i += c == '\r' && i + 1 < text.Length && text[i + 1] == '\n' ? 1 : 0;
                End();
                yield return cells;
                cells = [];
            }
            else
            {
                cell.Append(c);
            }
        }

        End();
        yield return cells;

        void End()
        {
            cells.Add(cell.ToString().Trim());
            cell.Clear();
        }
    }

    /// <summary>Profiles as a table that <see cref="Read"/> and a spreadsheet open; no cell is taken for a formula.</summary>
    public static string Write(IReadOnlyList<AthleteProfile> squad, Vocabulary words, DateOnly today)
    {
        var text = new StringBuilder();
        text.AppendJoin(',', SquadColumn.All.Select(c => c.Id)).Append("\r\n");
        foreach (var profile in squad)
        {
            text.AppendJoin(',', SquadColumn.All.Select(c => Quoted(Cell(profile, c.Id, words, today)))).Append("\r\n");
        }

        return text.ToString();
    }

    /// <summary>The next main competition of a profile, or null.</summary>
    public static Competition? Main(IReadOnlyList<Competition>? competitions) => (competitions ?? []).Where(c => (c.Priority ?? "main") == "main").MinBy(c => c.DaysToStart);

    /// <summary>What a column says of a profile.</summary>
    public static string Cell(AthleteProfile p, string column, Vocabulary words, DateOnly today) => column switch
    {
        "ref" => p.Ref,
        "name" => p.Name,
        "event" => p.Athlete.Event is { } e ? Say.Label(words.Events, e) : p.Athlete.EventGroup is { } g ? Say.Label(words.EventGroups, g) : "",
        "phase" => p.Phase is { } phase ? Say.Label(words.Phases, phase) : "",
        "weeks" => Text(p.WeeksToCompetition),
        "competition" => Main(p.Competitions) is { DaysToStart: { } days } ? Dates.Field(today.AddDays(days)) : "",
        "off" => Text(p.Athlete.Layoff?.Weeks),
        "offReason" => p.Athlete.Layoff?.Reason ?? "",
        "place" => p.Setting?.Place is { } place ? Say.Label(words.Places, place) : "",
        "minutes" => Text(p.Setting?.Minutes),
        "age" => Text(p.Athlete.AgeYears),
        "trainingAge" => Text(p.Athlete.TrainingAgeYears),
        "sex" => p.Athlete.Sex ?? "",
        "bodyMass" => Text(p.Athlete.BodyMassKg),
        "sore" => p.Complaints is [{ Region: { } region }, ..] ? Say.Label(words.Regions, region) : "",
        "side" => p.Complaints is [{ Side: { } side }, ..] ? side : "",
        "pain" => Text(p.Complaints is [{ } c, ..] ? c.Pain : null),
        "nextMorning" => p.Complaints is [{ NextMorning: { } morning }, ..] ? morning : "",
        _ => p.Needs is [{ Quality: { } quality }, ..] ? words.Qualities.Find(quality)?.Label ?? words.Aliases.Find(quality)?.Label ?? quality : "",
    };

    private static string Text(decimal? number) => number?.ToString("0.####", CultureInfo.InvariantCulture) ?? "";

    /// <summary>A cell that neither breaks the row nor is run as a formula.</summary>
    private static string Quoted(string cell)
    {
        var safe = cell is ['=' or '+' or '-' or '@', ..] ? "'" + cell : cell;
        return safe.AsSpan().ContainsAny(MustQuote) ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }

    private static string Unescaped(string cell) => cell is ['\'', '=' or '+' or '-' or '@', ..] ? cell[1..] : cell;
}
