using Recommender.Domain.Decisions;
using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Substitutions;

/// <summary>What may stand in for an exercise: the stages of a recommendation, ordered by likeness to what the replaced one was there for. Pure.</summary>
public static class SubstitutionPipeline
{
    /// <summary>Answers a checked request.</summary>
    /// <param name="request">A request without faults.</param>
    /// <param name="edition">Catalogue and rules.</param>
    /// <param name="decisionId">Id under which the decision goes on record.</param>
    public static SubstitutionAnswer Answer(SubstitutionRequest request, Edition edition, string decisionId)
    {
        var rules = edition.Knowledge.Substitution;
        var context = request.Context! with { Count = request.Count ?? rules.Count };
        var situation = Situation.Of(context, edition);
        var profile = NeedAnalysis.Derive(situation);
        var needs = new NeedTable(profile, edition.Knowledge.Scoring.NeedMatch, edition.Catalogue.Vocabulary.Qualities.Count);
        var limits = TissueLimits.Of(situation);
        var eligibility = EligibilityFilter.Apply(new GateContext(situation, limits));
        var engine = new ScoringEngine(new ScoringContext(situation, profile, needs));
        var ranking = engine.Rank(eligibility.Eligible);

        var replaced = request.Exercise is { } id ? edition.Catalogue.Traits[edition.Catalogue.PositionOf(id)] : DescribedTraits.Of(request.Described!, edition.Catalogue.Vocabulary);
        var likeness = new Likeness(rules, edition.Knowledge.Scoring.NeedMatch.FitByRating, profile, edition.Catalogue.Vocabulary);
        var choice = SubstituteChoice.Of(request, situation, limits, ranking, likeness, replaced);
        var answer = new AnswerWriter(situation, profile, needs, eligibility, engine, ranking).Write([.. choice.Candidates.Select(c => c.Rank)], decisionId, ranking.Count == 0 ? null : choice.Caution);

        var original = request.Exercise is null || situation.NoAutomaticDose ? null : OriginalDose(situation, profile, likeness.PurposeOf(replaced), edition.Catalogue.PositionOf(request.Exercise));
        var comparison = new Comparison(situation, profile, limits, replaced);
        return new SubstitutionAnswer
        {
            DecisionId = answer.DecisionId,
            Status = answer.Status,
            Replaced = new ReplacedExercise(replaced.Id, replaced.Name, edition.Catalogue.Vocabulary.Qualities[likeness.PurposeOf(replaced)].Id, original),
            EligibleCount = answer.EligibleCount,
            Picks = [.. answer.Picks.Zip(choice.Candidates, (pick, candidate) => Substitute(pick, candidate))],
            Limits = answer.Limits,
            LeftOut = answer.LeftOut,
            Needs = answer.Needs,
            Assumed = answer.Assumed,
            Referral = answer.Referral,
            Cautions = answer.Status == AnswerStatus.Answered && choice.Caution is { } caution ? [.. answer.Cautions, caution] : answer.Cautions,
            Versions = answer.Versions,
        };

        Substitute Substitute(Pick pick, Candidate candidate)
        {
            var exercise = edition.Catalogue.Exercises[ranking.Positions[candidate.Rank]];
            var (keeps, loses, gains) = comparison.With(candidate.Traits, exercise);
            return new Substitute(pick)
            {
                Dose = pick.Dose is null ? null : CarriedOver.Of(situation, replaced, original, exercise, pick.Dose),
                Why = comparison.Matters(candidate.Traits) is { } matters ? [.. pick.Why, matters] : pick.Why,
                Keeps = keeps,
                Loses = loses,
                Gains = gains,
                Similarity = candidate.Likeness / 1000m,
            };
        }
    }

    private static Dose OriginalDose(Situation situation, NeedProfile profile, int quality, int position) =>
        new DoseCalculator(situation, profile).Next(position, quality, situation.Catalogue.Exercises[position].Equipment[0]);
}
