using System.Globalization;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Finds decisions on record, newest first, and says how far the record reaches: what API and pages ask alike.</summary>
/// <param name="decisions">Reads records.</param>
public sealed class FindDecisions(DecisionReader decisions)
{
    private static readonly string[] Days = ["yyyy-MM-dd"];
    private static readonly string[] Moments = ["yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK"];

    /// <summary>A page of the record.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="filter">Which.</param>
    /// <param name="after">Where the page before ended; null for the first.</param>
    /// <param name="limit">At most so many.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<FoundDecisions> Page(string organisation, DecisionFilter filter, DecisionPlace? after, int limit)
    {
        // One more than the page holds tells whether there is a next one.
        var found = await decisions.List(organisation, filter, after, limit + 1).ConfigureAwait(false);
        var items = found.Take(limit).ToList();
        return new FoundDecisions(items, found.Count > limit ? new DecisionPlace(items[^1].CreatedAt, items[^1].Sequence) : null);
    }

    /// <summary>A place as a text that an address can carry.</summary>
    public static string TextOf(DecisionPlace place) => string.Create(CultureInfo.InvariantCulture, $"{place.CreatedAt.ToUnixTimeMilliseconds()}.{place.Sequence}");

    /// <summary>Reads a place; null when the text is none.</summary>
    public static DecisionPlace? PlaceOf(string text)
    {
        var parts = text.Split('.');
        return parts.Length == 2 && long.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var time) && time <= DateTimeOffset.MaxValue.ToUnixTimeMilliseconds()
            && long.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var sequence) ? new DecisionPlace(DateTimeOffset.FromUnixTimeMilliseconds(time), sequence) : null;
    }

    /// <summary>Reads a day in UTC, or a moment with its offset; null when the text is neither.</summary>
    /// <param name="text">Text.</param>
    /// <param name="wholeDay">Whether a day stands for its end, as the last one that counts.</param>
    public static DateTimeOffset? MomentOf(string text, bool wholeDay)
    {
        if (DateTimeOffset.TryParseExact(text, Days, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var day))
        {
            return wholeDay && day < DateTimeOffset.MaxValue.AddDays(-1) ? day.AddDays(1) : day;
        }

        return text.Length > 10 && text[10] == 'T' && text.AsSpan(10).IndexOfAny("Z+-") > 0 && DateTimeOffset.TryParseExact(text, Moments, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment)
            ? moment : null;
    }
}

/// <summary>A page of the record.</summary>
/// <param name="Items">Decisions, newest first.</param>
/// <param name="Next">Where the next page goes on; null on the last.</param>
public sealed record FoundDecisions(IReadOnlyList<DecisionSummary> Items, DecisionPlace? Next);
