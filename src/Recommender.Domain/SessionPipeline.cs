using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Sessions;

namespace Recommender.Domain;

/// <summary>A request for a session in, an answer out: the stages of a recommendation, then a set chosen as a whole. Pure like it.</summary>
public static class SessionPipeline
{
    /// <summary>Answers a checked request.</summary>
    /// <param name="request">A request without faults.</param>
    /// <param name="edition">Catalogue and rules.</param>
    /// <param name="decisionId">Id under which the decision goes on record.</param>
    /// <remarks>Earlier picks are kept where the request is a <see cref="SessionRequestKeeping"/>.</remarks>
    public static SessionAnswer Answer(SessionRequest request, Edition edition, string decisionId)
    {
        var writer = Writer(request, edition);
        return writer.Write(decisionId, (request as SessionRequestKeeping)?.Earlier);
    }

    /// <summary>The choice alone, as the search is given it: for measuring and for checks by other means.</summary>
    /// <param name="request">A request without faults.</param>
    /// <param name="edition">Catalogue and rules.</param>
    public static SetProblem Problem(SessionRequest request, Edition edition) => Writer(request, edition).Problem();

    private static SessionWriter Writer(SessionRequest request, Edition edition)
    {
        var context = request.Context! with { Exclude = [.. request.Context.Exclude ?? [], .. request.Avoid ?? []] };
        var situation = Situation.Of(context, edition);
        var profile = NeedAnalysis.Derive(situation);
        var needs = new NeedTable(profile, edition.Knowledge.Scoring.NeedMatch, edition.Catalogue.Vocabulary.Qualities.Count);
        var limits = TissueLimits.Of(situation);
        var eligibility = EligibilityFilter.Apply(new GateContext(situation, limits));
        var engine = new ScoringEngine(new ScoringContext(situation, profile, needs));
        var ranking = engine.Rank(eligibility.Eligible);
        var answers = new AnswerWriter(situation, profile, needs, eligibility, engine, ranking);
        return new SessionWriter(request, situation, profile, needs, eligibility, engine, ranking, answers);
    }
}
