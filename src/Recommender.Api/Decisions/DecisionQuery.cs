using Recommender.Answers;
using Recommender.Api.Hosting;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Decisions;

/// <summary>Which decisions are wanted.</summary>
public sealed class DecisionQuery
{
    private const int MostLimit = 100;
    private const int UsualLimit = 50;
    private static readonly string[] Filters = ["athlete", "coach", "exercise", "kind", "status", "version", "from", "to"];
    private readonly QueryReader query;

    private DecisionQuery(IQueryCollection query, params string[] more) => this.query = new QueryReader(query, [.. Filters, .. more]);

    /// <summary>What a page of a list asks for, or what is wrong with it.</summary>
    public static (DecisionFilter Filter, DecisionPlace? After, int Limit, IReadOnlyList<Fault> Faults) Page(IQueryCollection query)
    {
        var read = new DecisionQuery(query, "cursor", "limit");
        var filter = read.Filter();
        var limit = (int?)read.query.Number("limit", 1, MostLimit, whole: true) ?? UsualLimit;
        return (filter, read.query.Cursor(Place)?.Value, limit, read.query.Faults);
    }

    /// <summary>What an export asks for, or what is wrong with it.</summary>
    public static (DecisionFilter Filter, bool Csv, IReadOnlyList<Fault> Faults) Export(IQueryCollection query)
    {
        var read = new DecisionQuery(query, "format");
        var filter = read.Filter();
        var csv = read.query.Word("format", "ndjson", "csv") == "csv";
        return (filter, csv, read.query.Faults);
    }

    /// <summary>The cursor from which the next page goes on.</summary>
    public static string Cursor(DecisionPlace place) => QueryReader.CursorOf(FindDecisions.TextOf(place));

    private DecisionFilter Filter() => new()
    {
        Athlete = query.One("athlete"),
        Coach = query.One("coach"),
        // An exercise may have left the catalogue since; so any id may be asked for.
        Exercise = query.One("exercise"),
        Kind = query.Word("kind", [.. DecisionKind.All.Select(k => k.Id)]),
        Status = query.Word("status", "answered", "referred", "nothing-eligible"),
        Version = query.One("version"),
        From = Moment("from", wholeDay: false),
        To = Moment("to", wholeDay: true),
    };

    /// <summary>A moment with its offset, or a day in UTC; a last day counts whole.</summary>
    private DateTimeOffset? Moment(string name, bool wholeDay)
    {
        if (query.One(name) is not { } text)
        {
            return null;
        }

        if (FindDecisions.MomentOf(text, wholeDay) is { } moment)
        {
            return moment;
        }

        query.Add(name, "wrong-type", "is no moment; give a day such as 2026-03-01 or a time with its offset such as 2026-03-01T09:30:00Z.");
        return null;
    }

    private static StrongPlace? Place(string text) => FindDecisions.PlaceOf(text) is { } place ? new StrongPlace(place) : null;

    private sealed record StrongPlace(DecisionPlace Value);
}
