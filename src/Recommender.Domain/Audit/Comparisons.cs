using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Audit;

/// <summary>Compares two exercises in a decision, ranked or left out. Pure; runs the stages again.</summary>
public static class Comparisons
{
    /// <summary>The comparison.</summary>
    /// <param name="question">What was asked.</param>
    /// <param name="edition">The edition it was answered on.</param>
    /// <param name="first">An exercise id of the catalogue.</param>
    /// <param name="second">Another one.</param>
    /// <exception cref="ArgumentException">An id is not in the catalogue, or both are the same.</exception>
    public static ComparisonAnswer Of(Question question, Edition edition, string first, string second)
    {
        var (a, b) = (Position(edition, first), Position(edition, second));
        if (a == b)
        {
            throw new ArgumentException("An exercise is not compared with itself.", nameof(second));
        }

        var trial = Trial.Of(question, edition);
        var standings = new Standings(question, trial);
        var (of1, of2) = (standings.Of(a), standings.Of(b));
        var factors = Factors(trial.Engine.Explain(a), trial.Engine.Explain(b));
        var (above, decidedBy) = Order(standings, a, b);
        var inFavour = factors.Select(f => above == a ? f.Difference.Thousandths : -f.Difference.Thousandths).ToList();
        var deciding = decidedBy == DecidedBy.Points ? DecidingFactors.Of(inFavour) : [];
        var sentence = new ComparisonSentence(edition, question).Of(above == a ? of1 : of2, above == a ? of2 : of1, decidedBy, [.. deciding.Select(i => above == a ? factors[i] : Turned(factors[i]))]);
        return new ComparisonAnswer(first, second, of1.Score - of2.Score, factors, edition.Catalogue.Exercises[above].Id, decidedBy, [.. deciding.Select(i => factors[i].Factor)], new ComparedStandings(of1, of2), sentence);
    }

    private static int Position(Edition edition, string id) =>
        edition.Catalogue.PositionOf(id) is var position and >= 0 ? position : throw new ArgumentException($"{id} is not an exercise of the catalogue.", nameof(id));

    private static List<ComparedFactor> Factors(IReadOnlyList<Contribution> first, IReadOnlyList<Contribution> second) =>
        [.. first.Zip(second, (one, other) => new ComparedFactor(one.Factor, one.Points, other.Points, one.Points - other.Points))];

    private static ComparedFactor Turned(ComparedFactor factor) => new(factor.Factor, factor.Second, factor.First, factor.Second - factor.First);

    /// <summary>Which one stands above, and what decides it: what gates refuse stands below what they let through; picks above the rest, in their order; the rest by points.</summary>
    private static (int Above, DecidedBy By) Order(Standings standings, int a, int b)
    {
        var (openA, openB) = (standings.IsOpen(a), standings.IsOpen(b));
        if (openA != openB)
        {
            return (openA ? a : b, DecidedBy.Gates);
        }

        var (placeA, placeB) = (standings.PlaceOf(a), standings.PlaceOf(b));
        var byPoints = standings.Score(a) != standings.Score(b) ? (standings.Score(a) > standings.Score(b) ? a : b) : Math.Min(a, b);
        if (placeA == 0 && placeB == 0)
        {
            return (standings.ByLikeness(a, b) ?? byPoints, standings.ByLikeness(a, b) is not null ? DecidedBy.Similarity : standings.Score(a) == standings.Score(b) ? DecidedBy.Order : DecidedBy.Points);
        }

        var above = placeB == 0 || (placeA != 0 && placeA < placeB) ? a : b;
        if (standings.IsSubstitution)
        {
            return (above, standings.ByLikeness(a, b) is { } likelier ? likelier == above ? DecidedBy.Similarity : DecidedBy.Choice : standings.Score(a) == standings.Score(b) ? DecidedBy.Order : DecidedBy.Points);
        }

        if (placeA != 0 && placeB != 0 && standings.IsSession)
        {
            return (above, DecidedBy.Order);
        }

        return (above, above != byPoints ? DecidedBy.Choice : standings.Score(a) == standings.Score(b) ? DecidedBy.Order : DecidedBy.Points);
    }
}
