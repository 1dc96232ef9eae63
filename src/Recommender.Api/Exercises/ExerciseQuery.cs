using System.Buffers.Text;
using System.Globalization;
using System.Text;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Api.Exercises;

/// <summary>What of the catalogue is wanted.</summary>
public sealed class ExerciseQuery
{
    private const int MostLimit = 100;
    private const int UsualLimit = 50;
    private static readonly string[] Names = ["quality", "support", "equipment", "region", "maxLoad", "pattern", "q", "cursor", "limit"];
    private readonly IQueryCollection query;
    private readonly Domain.Catalogue.Vocabulary vocabulary;
    private readonly List<Fault> faults = [];

    private ExerciseQuery(IQueryCollection query, Domain.Catalogue.Vocabulary vocabulary)
    {
        this.query = query;
        this.vocabulary = vocabulary;
    }

    /// <summary>Reads a query.</summary>
    /// <param name="query">The query.</param>
    /// <param name="catalogue">The catalogue.</param>
    /// <param name="wholeUnlessLimited">Whether everything that fits is one page when no limit is given, as in a file.</param>
    /// <returns>The page, or what is wrong with the query.</returns>
    public static (ExercisePage? Page, IReadOnlyList<Fault> Faults) Answer(IQueryCollection query, ExerciseCatalogue catalogue, bool wholeUnlessLimited = false)
    {
        var read = new ExerciseQuery(query, catalogue.Vocabulary);
        var page = read.Page(catalogue, wholeUnlessLimited ? catalogue.Count : UsualLimit);
        return read.faults.Count == 0 ? (page, []) : (null, read.faults);
    }

    private ExercisePage Page(ExerciseCatalogue catalogue, int usualLimit)
    {
        foreach (var unknown in query.Keys.Where(k => !Names.Contains(k, StringComparer.Ordinal)))
        {
            Add(unknown, "unknown-parameter", $"there is no such filter; there are {string.Join(", ", Names)}.");
        }

        var quality = Known("quality", vocabulary.Qualities);
        var support = Known("support", vocabulary.Supports);
        var equipment = Known("equipment", vocabulary.Equipment);
        var pattern = Known("pattern", vocabulary.Patterns);
        var region = Known("region", vocabulary.Regions) is { } id ? vocabulary.Regions.Find(id) : null;
        var maxLoad = Number("maxLoad", 0, 10);
        if (maxLoad is not null && region is null && faults.Count == 0)
        {
            Add("maxLoad", "contradiction", "maxLoad needs a region.");
        }

        var limit = (int?)Number("limit", 1, MostLimit) ?? usualLimit;
        var after = Cursor();
        var text = One("q");
        var found = catalogue.Exercises
            .Where(e => after is null || string.CompareOrdinal(e.Id, after) > 0)
            .Where(e => quality is null || e.Qualities.ContainsKey(quality))
            .Where(e => support is null || vocabulary.Supports[(int)e.Support].Id == support)
            .Where(e => pattern is null || e.Pattern == pattern)
            .Where(e => equipment is null || e.Equipment.Any(set => set.Contains(equipment)))
            .Where(e => region is null || InRegion(e, region, maxLoad))
            .Where(e => text is null || e.Synonyms.Prepend(e.Name).Prepend(e.Id).Any(n => n.Contains(text, StringComparison.OrdinalIgnoreCase)))
            .Take(limit + 1)
            .ToList();
        var more = found.Count > limit;
        var items = more ? found[..limit] : found;
        return new ExercisePage(items, more ? Base64Url.EncodeToString(Encoding.UTF8.GetBytes(items[^1].Id)) : null);
    }

    /// <summary>With a limit: the upper load stays within it. Without: the region is loaded at all.</summary>
    private bool InRegion(Exercise exercise, RegionTerm region, decimal? maxLoad)
    {
        var regions = region.Covers.Count == 0 ? [region] : region.Covers.Select(r => vocabulary.Regions.Find(r)!);
        var high = regions.Max(r => ExerciseCatalogue.LoadOn(exercise, r)?.High ?? 0);
        return maxLoad is { } max ? high <= max : high > 0;
    }

    private string? One(string name)
    {
        var values = query[name];
        if (values.Count > 1)
        {
            Add(name, "given-twice", "is given more than once; give it once.");
        }

        return values.Count == 0 || string.IsNullOrEmpty(values[0]) ? null : values[0];
    }

    private string? Known<T>(string name, Terms<T> terms) where T : Term
    {
        var value = One(name);
        if (value is not null && !terms.Has(value))
        {
            Add(name, "unknown-id", "is not a known id; GET /v1/vocabulary lists them.");
        }

        return value;
    }

    private decimal? Number(string name, decimal low, decimal high)
    {
        if (One(name) is not { } text)
        {
            return null;
        }

        if (decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && value >= low && value <= high && (name != "limit" || value == decimal.Truncate(value)))
        {
            return value;
        }

        Add(name, "out-of-range", $"is not {(name == "limit" ? "a whole number" : "a number")} from {low} to {high}.");
        return null;
    }

    private string? Cursor()
    {
        if (One("cursor") is not { } text)
        {
            return null;
        }

        // A cursor is the id after which the next page begins; it need not be in the catalogue any more.
        if (Base64Url.IsValid(text) && Encoding.UTF8.GetString(Base64Url.DecodeFromChars(text)) is var id && id.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-'))
        {
            return id;
        }

        Add("cursor", "unknown-id", "is not a cursor of this service; take nextCursor of the page before.");
        return null;
    }

    private void Add(string name, string code, string message) => faults.Add(new Fault($"?{name}", code, $"{name} {message}"));
}
