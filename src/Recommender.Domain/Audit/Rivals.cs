using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Audit;

/// <summary>
/// Exercises that were above one, asked first whether they still are: a single one that is open, above and surely picked shows that the exercise does not come
/// first, and as many as are offered show that it is not among them. Whoever is not shown so is asked about in full, so nothing hangs on who is remembered.
/// </summary>
/// <param name="edition">The edition.</param>
/// <param name="position">Catalogue position of the exercise that wants to come first.</param>
internal sealed class Rivals(Edition edition, int position)
{
    /// <summary>Enough to hold those that win under most changes; more would cost more than they settle.</summary>
    private const int Remembered = 24;
    private readonly List<int> known = [];

    private ExerciseCatalogue Catalogue => edition.Catalogue;

    /// <summary>Remembers who came first.</summary>
    /// <param name="rival">Catalogue position; below 0 for nobody.</param>
    public void Add(int rival)
    {
        if (rival >= 0 && rival != position && !known.Contains(rival))
        {
            known.Insert(0, rival);
            if (known.Count > Remembered)
            {
                known.RemoveAt(Remembered);
            }
        }
    }

    /// <summary>Whether it is certain that the exercise does not come first, or in a substitution that it is not among those offered; it is open.</summary>
    /// <param name="pair">The changes.</param>
    /// <param name="onlyFirst">Whether only the first place counts.</param>
    public bool Bar(Pair pair, bool onlyFirst)
    {
        Func<int, bool>? isAbove = pair.Question switch
        {
            SubstitutionAsked => ByLikeness(pair),
            RecommendationAsked => ByPoints(pair),
            _ => _ => false,
        };
        if (isAbove is null)
        {
            return true;
        }

        // The spread lets in what has fewer points, so one that wants any place of a recommendation is not barred by others.
        var (above, enough) = (0, onlyFirst ? 1 : pair.Question is SubstitutionAsked ? pair.Situation.Count : int.MaxValue);
        for (var i = 0; i < known.Count && above < enough && enough <= known.Count; i++)
        {
            var rival = known[i];
            if (pair.IsOpen(rival) && isAbove(rival))
            {
                above++;
                known.RemoveAt(i);
                known.Insert(0, rival);
            }
        }

        return above >= enough;
    }

    /// <summary>Null where the exercise keeps too little to be offered at all.</summary>
    private Func<int, bool>? ByLikeness(Pair pair)
    {
        var rules = edition.Knowledge.Substitution;
        var own = pair.Alike(position);
        if (own.Kept < (int)(Math.Min(rules.OfferedFrom, rules.NearestFrom) * 1000))
        {
            return null;
        }

        // Offered whether or not anything keeps the whole purpose. Of equal ones the score decides; that is left to the whole run.
        var offered = (int)(Math.Max(rules.OfferedFrom, rules.NearestFrom) * 1000);
        var replaced = ((SubstitutionAsked)pair.Question).Request.Exercise is { } id ? Catalogue.PositionOf(id) : -1;
        return rival => rival != replaced && pair.Alike(rival) is var its && its.Kept >= offered && (its.Order > own.Order || (its.Order == own.Order && its.Likeness > own.Likeness));
    }

    /// <summary>Null where the exercise serves too little to be picked at all.</summary>
    private Func<int, bool>? ByPoints(Pair pair)
    {
        var least = Points.Of(edition.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;
        var score = pair.Score(position, out var own);
        return own < least ? null : rival => pair.Score(rival, out var its) is var points && its >= least && (points > score || (points == score && rival < position)) && IsSurelyPicked(pair.Situation, rival);
    }

    /// <summary>Whether the spread and the seats of what the coach asked for surely leave a place to it, or to one above it.</summary>
    private bool IsSurelyPicked(Situation situation, int rival)
    {
        if (situation.Asks.Count == 0)
        {
            return true;
        }

        var rules = edition.Knowledge.Scoring.Spread;
        var seats = Math.Min(situation.Asks.Count, rules.Seats(situation.Count));

        // The first ask is given to the best that answers it: to this one, or to one above.
        if (seats > 0 && Catalogue.IsStrongForAny(rival, situation.Asks[0]))
        {
            return true;
        }

        return seats < situation.Count && seats < rules.PerPattern(situation.Count) && seats < rules.PerPurpose(situation.Count) && !IsFamilySeated(situation, rival);
    }

    private bool IsFamilySeated(Situation situation, int rival)
    {
        for (var e = 0; e < Catalogue.Count; e++)
        {
            if (Catalogue.Families[e] == Catalogue.Families[rival])
            {
                foreach (var ask in situation.Asks)
                {
                    if (Catalogue.IsStrongForAny(e, ask))
                    {
                        return true;
                    }
                }
            }
        }

        return false;
    }
}
