using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Requests;

/// <summary>The filter of a request as masks over the vocabulary; a mask of 0 asks nothing.</summary>
public sealed class OnlyKinds
{
    private readonly ulong supports;
    private readonly ulong patterns;
    private readonly ulong rates;
    private readonly ulong qualities;
    private readonly bool any;

    /// <summary>An empty list asks for nothing and so lets nothing pass; an absent one does not count.</summary>
    public OnlyKinds(OnlyFilter filter, Vocabulary vocabulary)
    {
        supports = Mask(filter.Support, vocabulary.Supports);
        patterns = Mask(filter.Pattern, vocabulary.Patterns);
        rates = Mask(filter.LoadingRate, vocabulary.LoadingRates);
        var wanted = filter.Quality?.SelectMany(q => vocabulary.Aliases.Find(q)?.Qualities ?? [q]).ToList();
        qualities = Mask(wanted, vocabulary.Qualities);
        any = wanted is null;
    }

    /// <summary>Whether the exercise at <paramref name="position"/> is of the kinds asked for.</summary>
    public bool Holds(ExerciseCatalogue catalogue, int position) =>
        (supports & (1UL << catalogue.Supports[position])) != 0
        && (patterns & (1UL << catalogue.Patterns[position])) != 0
        && (rates & (1UL << catalogue.Rates[position])) != 0
        && (any || HasQuality(catalogue, position));

    private bool HasQuality(ExerciseCatalogue catalogue, int position)
    {
        foreach (var column in catalogue.RatingsOf(position))
        {
            if ((qualities & (1UL << column.Quality)) != 0)
            {
                return true;
            }
        }

        return false;
    }

    private static ulong Mask<T>(IReadOnlyList<string>? ids, Terms<T> terms) where T : Term => ids is null ? ulong.MaxValue : terms.Mask(ids);
}
