using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Learning.Invented;

/// <summary>A coach who was made up, with leanings that are known, for checks and for showing.</summary>
/// <param name="Id">Id.</param>
/// <param name="Leans">Points that the coach sees in an exercise beside its score.</param>
/// <param name="Shares">Factor id to the share of its points that the coach sees on top.</param>
/// <param name="Noise">Points of one unit of chance: the larger, the less the coach goes by anything.</param>
/// <param name="Exponent">How much more the coach takes what stands first because it does: the odds of a place fall as 1 / place ^ exponent.</param>
public sealed record InventedCoach(string Id, Func<Exercise, decimal> Leans, IReadOnlyDictionary<string, decimal> Shares, double Noise, double Exponent)
{
    /// <summary>What the coach does with an answer: uses the half that is liked best, with chance, and declines the rest.</summary>
    /// <param name="answer">An answer.</param>
    /// <param name="request">What was asked.</param>
    /// <param name="edition">The edition it was answered on.</param>
    /// <param name="random">Chance.</param>
    /// <returns>A report for every pick, in their order, with what is learned from it.</returns>
    public IReadOnlyList<(OutcomeReport Report, OutcomeFacts Facts)> Chooses(Answer answer, RecommendationRequest request, Edition edition, Random random)
    {
        var sore = SoreRegions.Of(Situation.Of(request, edition));
        var liked = answer.Picks.Select(p => (Pick: p, Likes: Likes(p, edition) - (Noise * Exponent * Math.Log(p.Rank)) - (Noise * Math.Log(-Math.Log(random.NextDouble()))))).OrderByDescending(x => x.Likes).Take((answer.Picks.Count + 1) / 2).Select(x => x.Pick.Exercise.Id).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. answer.Picks.Select(p => (new OutcomeReport { Exercise = p.Exercise.Id, Verdict = liked.Contains(p.Exercise.Id) ? Verdicts.Used : Verdicts.Declined },
                new OutcomeFacts("recommendation", new ChoiceFacts(p.Exercise.Id, p.Exercise.Family, p.Rank, true, sore.LoadedBy(edition.Catalogue.PositionOf(p.Exercise.Id)), [.. p.Contributions.SkipLast(1).Select(c => c.Points.Thousandths)]), null, null))),
        ];
    }

    /// <summary>Points that the coach sees in a pick: its score without what was learned, and the leanings.</summary>
    private double Likes(Pick pick, Edition edition) => (double)(pick.Contributions.SkipLast(1).Sum(c => c.Points.Value) + TrueLean(pick, edition));

    /// <summary>The leanings alone, points.</summary>
    public decimal TrueLean(Pick pick, Edition edition) =>
        Leans(edition.Catalogue.Find(pick.Exercise.Id)!) + pick.Contributions.SkipLast(1).Sum(c => Shares.GetValueOrDefault(c.Factor) * c.Points.Value);
}
