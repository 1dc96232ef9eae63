using System.Buffers.Text;
using System.Globalization;
using System.Text;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Api.Hosting;

/// <summary>Reads a query strictly: what is unknown, given twice or cannot be used is told, all of it at once.</summary>
public sealed class QueryReader
{
    private readonly IQueryCollection query;
    private readonly List<Fault> faults = [];

    /// <param name="query">The query.</param>
    /// <param name="names">Every name that the call knows.</param>
    public QueryReader(IQueryCollection query, IReadOnlyCollection<string> names)
    {
        this.query = query;
        foreach (var unknown in query.Keys.Where(k => !names.Contains(k, StringComparer.Ordinal)))
        {
            Add(unknown, "unknown-parameter", names.Count == 0 ? "is not known here; this call takes no query." : $"there is no such filter; there are {string.Join(", ", names)}.");
        }
    }

    /// <summary>What is wrong so far.</summary>
    public IReadOnlyList<Fault> Faults => faults;

    /// <summary>A text; null when it is absent or empty.</summary>
    public string? One(string name)
    {
        var values = query[name];
        if (values.Count > 1)
        {
            Add(name, "given-twice", "is given more than once; give it once.");
        }

        return values.Count == 0 || string.IsNullOrEmpty(values[0]) ? null : values[0];
    }

    /// <summary>An id of a word list.</summary>
    public string? Known<T>(string name, Terms<T> terms) where T : Term
    {
        var value = One(name);
        if (value is not null && !terms.Has(value))
        {
            Add(name, "unknown-id", "is not a known id; GET /v1/vocabulary lists them.");
        }

        return value;
    }

    /// <summary>One of a few words.</summary>
    public string? Word(string name, params IReadOnlyCollection<string> words)
    {
        var value = One(name);
        if (value is not null && !words.Contains(value, StringComparer.Ordinal))
        {
            Add(name, "unknown-id", $"is not one of {string.Join(", ", words)}.");
        }

        return value;
    }

    /// <summary>A number within bounds.</summary>
    public decimal? Number(string name, decimal low, decimal high, bool whole = false)
    {
        if (One(name) is not { } text)
        {
            return null;
        }

        if (decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && value >= low && value <= high && (!whole || value == decimal.Truncate(value)))
        {
            return value;
        }

        Add(name, "out-of-range", $"is not {(whole ? "a whole number" : "a number")} from {low} to {high}.");
        return null;
    }

    /// <summary>What a cursor says; null when there is none or it is not ours.</summary>
    public T? Cursor<T>(Func<string, T?> read) where T : class
    {
        if (One("cursor") is not { } text)
        {
            return null;
        }

        if (Base64Url.IsValid(text) && read(Encoding.UTF8.GetString(Base64Url.DecodeFromChars(text))) is { } place)
        {
            return place;
        }

        Add("cursor", "unknown-id", "is not a cursor of this service; take nextCursor of the page before.");
        return null;
    }

    /// <summary>The cursor that says something.</summary>
    public static string CursorOf(string place) => Base64Url.EncodeToString(Encoding.UTF8.GetBytes(place));

    /// <summary>Adds a fault.</summary>
    public void Add(string name, string code, string message) => faults.Add(new Fault($"?{name}", code, $"{name} {message}"));
}
