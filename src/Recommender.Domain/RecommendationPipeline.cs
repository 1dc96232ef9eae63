using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Selection;

namespace Recommender.Domain;

/// <summary>A request in, an answer out: one line a stage. Pure: the same request on the same edition gives the same answer.</summary>
public static class RecommendationPipeline
{
    /// <summary>Number of the arithmetic. Raise it whenever the same request on the same edition would be answered otherwise.</summary>
    public const int Engine = 5;

    /// <summary>Answers a checked request.</summary>
    /// <param name="request">A request without faults.</param>
    /// <param name="edition">Catalogue and rules.</param>
    /// <param name="decisionId">Id under which the decision goes on record.</param>
    public static Answer Answer(RecommendationRequest request, Edition edition, string decisionId)
    {
        var situation = Situation.Of(request, edition);
        var profile = NeedAnalysis.Derive(situation);
        var needs = new NeedTable(profile, edition.Knowledge.Scoring.NeedMatch, edition.Catalogue.Vocabulary.Qualities.Count);
        var limits = TissueLimits.Of(situation);
        var eligibility = EligibilityFilter.Apply(new GateContext(situation, limits));
        var engine = new ScoringEngine(new ScoringContext(situation, profile, needs));
        var ranking = engine.Rank(eligibility.Eligible);
        var picks = RankingSelector.Pick(ranking, needs, situation);
        return new AnswerWriter(situation, profile, needs, eligibility, engine, ranking).Write(picks, decisionId);
    }
}
