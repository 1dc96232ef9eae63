using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Selection;

namespace Recommender.Testing;

/// <summary>The stages of one request, each at hand for a test.</summary>
public sealed class Stages
{
    private Stages(RecommendationRequest request, Edition edition)
    {
        Edition = edition;
        Situation = Situation.Of(request, edition);
        Profile = NeedAnalysis.Derive(Situation);
        Needs = new NeedTable(Profile, edition.Knowledge.Scoring.NeedMatch, edition.Catalogue.Vocabulary.Qualities.Count);
        Limits = TissueLimits.Of(Situation);
        GateContext = new GateContext(Situation, Limits);
        Scoring = new ScoringContext(Situation, Profile, Needs);
    }

    /// <summary>The edition.</summary>
    public Edition Edition { get; }

    /// <summary>The edition's catalogue.</summary>
    public ExerciseCatalogue Catalogue => Edition.Catalogue;

    /// <summary>The situation.</summary>
    public Situation Situation { get; }

    /// <summary>What is needed.</summary>
    public NeedProfile Profile { get; }

    /// <summary>Points of the needs.</summary>
    public NeedTable Needs { get; }

    /// <summary>Limits of the complaints.</summary>
    public TissueLimits Limits { get; }

    /// <summary>What gates are asked on.</summary>
    public GateContext GateContext { get; }

    /// <summary>What factors are asked on.</summary>
    public ScoringContext Scoring { get; }

    /// <summary>The stages of a request without faults.</summary>
    /// <param name="request">The request.</param>
    /// <param name="edition">The edition; null for that of the data folder.</param>
    public static Stages Of(RecommendationRequest request, Edition? edition = null) => new(request, edition ?? TestEdition.Current);

    /// <summary>What passes every gate.</summary>
    public EligibilityOutcome Eligibility() => EligibilityFilter.Apply(GateContext);

    /// <summary>Ids of what passes every gate.</summary>
    public IReadOnlySet<string> EligibleIds() => Eligibility().Eligible.Select(e => Catalogue.Exercises[e].Id).ToHashSet(StringComparer.Ordinal);

    /// <summary>What is eligible, by score.</summary>
    public Ranking Ranking() => new ScoringEngine(Scoring).Rank(Eligibility().Eligible);

    /// <summary>Ids of the picks.</summary>
    public IReadOnlyList<string> PickedIds()
    {
        var ranking = Ranking();
        return [.. RankingSelector.Pick(ranking, Needs, Situation).Select(rank => Catalogue.Exercises[ranking.Positions[rank]].Id)];
    }

    /// <summary>The limit in force on a region at a loading rate, 0 to 10: the strictest of the sides; 10 where none is.</summary>
    public static decimal LimitOn(IEnumerable<Limit> limits, string region, LoadingRate rate) =>
        limits.Where(l => l.Region == region && l.LoadingRate == rate).Select(l => l.MaxTissueLoad).DefaultIfEmpty(10m).Min();

    /// <summary>The answer to a request.</summary>
    public static Answer Answer(RecommendationRequest request, Edition? edition = null) => Domain.RecommendationPipeline.Answer(request, edition ?? TestEdition.Current, "");
}
