namespace Recommender.Domain.Catalogue;

/// <summary>What of the catalogue is looked for; what is null is not asked. Filters narrow one another.</summary>
public sealed record ExerciseFilter
{
    /// <summary>Quality that it trains at all.</summary>
    public string? Quality { get; init; }

    /// <summary>Support id.</summary>
    public string? Support { get; init; }

    /// <summary>Movement pattern id.</summary>
    public string? Pattern { get; init; }

    /// <summary>Equipment that stands in one of its alternatives.</summary>
    public string? Equipment { get; init; }

    /// <summary>Region: with a highest load, the upper load stays within it; without, it is loaded at all.</summary>
    public string? Region { get; init; }

    /// <summary>Highest upper load on the region, 0 to 10.</summary>
    public decimal? MaxLoad { get; init; }

    /// <summary>Part of its id, name or a synonym, in any case.</summary>
    public string? Text { get; init; }

    /// <summary>Those that fit, by id.</summary>
    /// <param name="catalogue">The catalogue; every id of the filter is in its vocabulary.</param>
    public IEnumerable<Exercise> In(ExerciseCatalogue catalogue)
    {
        var vocabulary = catalogue.Vocabulary;
        var region = Region is null ? null : vocabulary.Regions.Find(Region);
        return catalogue.Exercises
            .Where(e => Quality is null || e.Qualities.ContainsKey(Quality))
            .Where(e => Support is null || vocabulary.Supports[(int)e.Support].Id == Support)
            .Where(e => Pattern is null || e.Pattern == Pattern)
            .Where(e => Equipment is null || e.Equipment.Any(set => set.Contains(Equipment)))
            .Where(e => region is null || InRegion(e, region, vocabulary))
            .Where(e => Text is null || e.Synonyms.Prepend(e.Name).Prepend(e.Id).Any(n => n.Contains(Text, StringComparison.OrdinalIgnoreCase)));
    }

    private bool InRegion(Exercise exercise, RegionTerm region, Vocabulary vocabulary)
    {
        var high = vocabulary.Regions.PartsOf(region).Max(r => ExerciseCatalogue.LoadOn(exercise, r)?.High ?? 0);
        return MaxLoad is { } max ? high <= max : high > 0;
    }
}
