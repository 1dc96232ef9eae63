using Recommender.Api.Hosting;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Api.Exercises;

/// <summary>What of the catalogue is wanted.</summary>
public sealed class ExerciseQuery
{
    private const int MostLimit = 100;
    private const int UsualLimit = 50;
    private static readonly string[] Names = ["quality", "support", "equipment", "region", "maxLoad", "pattern", "q", "cursor", "limit"];
    private readonly QueryReader query;
    private readonly Domain.Catalogue.Vocabulary vocabulary;

    private ExerciseQuery(IQueryCollection query, Domain.Catalogue.Vocabulary vocabulary)
    {
        this.query = new QueryReader(query, Names);
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
        return read.query.Faults.Count == 0 ? (page, []) : (null, read.query.Faults);
    }

    private ExercisePage Page(ExerciseCatalogue catalogue, int usualLimit)
    {
        var quality = query.Known("quality", vocabulary.Qualities);
        var support = query.Known("support", vocabulary.Supports);
        var equipment = query.Known("equipment", vocabulary.Equipment);
        var pattern = query.Known("pattern", vocabulary.Patterns);
        var region = query.Known("region", vocabulary.Regions);
        var maxLoad = query.Number("maxLoad", 0, 10);
        if (maxLoad is not null && region is null && query.Faults.Count == 0)
        {
            query.Add("maxLoad", "contradiction", "maxLoad needs a region.");
        }

        var limit = (int?)query.Number("limit", 1, MostLimit, whole: true) ?? usualLimit;
        // A cursor is the id after which the next page begins; it need not be in the catalogue any more.
        var after = query.Cursor(id => id.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-') ? id : null);
        var text = query.One("q");
        var filter = new ExerciseFilter { Quality = quality, Support = support, Equipment = equipment, Pattern = pattern, Region = region, MaxLoad = maxLoad, Text = text };
        var found = filter.In(catalogue)
            .Where(e => after is null || string.CompareOrdinal(e.Id, after) > 0)
            .Take(limit + 1)
            .ToList();
        var more = found.Count > limit;
        var items = more ? found[..limit] : found;
        return new ExercisePage(items, more ? QueryReader.CursorOf(items[^1].Id) : null);
    }
}
