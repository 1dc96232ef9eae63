using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Explanations;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Decisions;

/// <summary>Doses and explains the picks, and arranges everything that the stages found into an answer.</summary>
/// <param name="situation">The situation.</param>
/// <param name="profile">What is needed.</param>
/// <param name="needs">Points of the needs.</param>
/// <param name="eligibility">What the gates said.</param>
/// <param name="engine">Takes scores apart.</param>
/// <param name="ranking">Eligible exercises by score.</param>
public sealed class AnswerWriter(Situation situation, NeedProfile profile, NeedTable needs, EligibilityOutcome eligibility, ScoringEngine engine, Ranking ranking)
{
    private readonly ExerciseCatalogue catalogue = situation.Catalogue;
    private readonly Vocabulary vocabulary = situation.Catalogue.Vocabulary;

    /// <summary>The answer with the picks at these ranks.</summary>
    /// <param name="picks">Ranks, in the order they are to stand.</param>
    /// <param name="decisionId">Id under which the decision goes on record.</param>
    /// <param name="whyNothing">What stands in the way when there are no picks; null to say it by the gates.</param>
    public Answer Write(IReadOnlyList<int> picks, string decisionId, string? whyNothing = null)
    {
        var referred = eligibility.Limits.Referral?.Scope == "all";
        var leftOut = referred ? new LeftOut(0, [], []) : LeftOut();
        var status = referred ? AnswerStatus.Referred : picks.Count == 0 ? AnswerStatus.NothingEligible : AnswerStatus.Answered;
        return new Answer
        {
            DecisionId = decisionId,
            Status = status,
            EligibleCount = eligibility.Eligible.Length,
            Picks = Picks(picks),
            Limits = eligibility.Limits.Limits,
            LeftOut = leftOut,
            Needs = NeedLine.Of(profile),
            Unmet = referred ? [] : new UnmetNeeds(catalogue, eligibility, ranking).Of(profile, picks),
            Assumed = situation.Assumed,
            Referral = eligibility.Limits.Referral,
            Cautions = Cautions(status, leftOut, picks, whyNothing),
            Versions = new VersionStamp(RecommendationPipeline.Engine, situation.Edition.CatalogueVersion, situation.Edition.RulesVersion, situation.Preference?.Version),
        };
    }

    private List<Pick> Picks(IReadOnlyList<int> ranks)
    {
        var doses = new DoseCalculator(situation, profile);
        var picks = new List<Pick>(ranks.Count);
        for (var i = 0; i < ranks.Count; i++)
        {
            picks.Add(Pick(ranks[i], i + 1, doses));
        }

        return picks;
    }

    private Pick Pick(int rank, int place, DoseCalculator doses)
    {
        var position = ranking.Positions[rank];
        var exercise = catalogue.Exercises[position];
        var contributions = engine.Explain(position);
        var equipment = situation.EquipmentUsed(position);
        return new Pick(
            place,
            new ExerciseBrief(exercise.Id, exercise.Name, exercise.Synonyms, exercise.Family, exercise.Pattern, exercise.Support, exercise.LoadingRate, equipment),
            new Points(ranking.Scores[rank]),
            contributions,
            situation.NoAutomaticDose ? null : doses.Next(position, needs.PurposeOf(catalogue, position), equipment),
            TissueLoads(exercise),
            Phrasebook.Why(situation, profile, eligibility.Limits, exercise, contributions),
            Phrasebook.Cautions(situation, eligibility.Limits, exercise),
            EvidenceShare.Of(contributions));
    }

    private OrderedDictionary<string, TissueLoad> TissueLoads(Exercise exercise)
    {
        var loads = new OrderedDictionary<string, TissueLoad>(StringComparer.Ordinal);
        foreach (var (region, _) in eligibility.Limits.Rows)
        {
            Note(vocabulary.Regions[region]);
        }

        foreach (var risk in situation.Profile.RegionsAtRisk)
        {
            Note(vocabulary.Regions.Find(risk.Region)!);
        }

        return loads;

        void Note(RegionTerm region)
        {
            if (ExerciseCatalogue.LoadOn(exercise, region) is { } load)
            {
                loads[region.Id] = load;
            }
        }
    }

    private LeftOut LeftOut()
    {
        var byReason = eligibility.CountByGate
            .Select((count, g) => new ReasonCount(EligibilityFilter.Gates[g].Reason, count))
            .Where(r => r.Count > 0)
            .OrderByDescending(r => r.Count).ThenBy(r => r.Reason, StringComparer.Ordinal);
        return new LeftOut(catalogue.Count - eligibility.Eligible.Length, [.. byReason], Nearest());
    }

    /// <summary>The best of those that a single gate refused, one a family, by the score they would have had; equal scores by position.</summary>
    private List<NearMiss> Nearest()
    {
        var most = situation.Knowledge.Defaults.NearestCount;
        var best = new List<(int Position, int Score)>(most + 1);
        for (var e = 0; e < catalogue.Count; e++)
        {
            if (EligibilityFilter.OnlyGateOf(eligibility.RefusedBy[e]) is not null)
            {
                Enter(best, most, e, engine.Score(e, out _));
            }
        }

        var nearest = new List<NearMiss>(best.Count);
        foreach (var (position, _) in best)
        {
            var refusal = EligibilityFilter.OnlyGateOf(eligibility.RefusedBy[position])!.Explain(eligibility.Context, position);
            nearest.Add(new NearMiss(catalogue.Exercises[position].Id, refusal.Reason, refusal.Limit, refusal.Value, refusal.WouldBeAllowedIf));
        }

        return nearest;
    }

    /// <summary>Puts an exercise where its score belongs, unless a better one of its family stands there or the list is full of better ones.</summary>
    private void Enter(List<(int Position, int Score)> best, int most, int position, int score)
    {
        if (best.Count == most && (most == 0 || best[^1].Score >= score))
        {
            return;
        }

        for (var i = 0; i < best.Count; i++)
        {
            if (catalogue.Families[best[i].Position] == catalogue.Families[position])
            {
                if (best[i].Score >= score)
                {
                    return;
                }

                best.RemoveAt(i);
            }
        }

        var at = best.Count;
        while (at > 0 && best[at - 1].Score < score)
        {
            at--;
        }

        best.Insert(at, (position, score));
        if (best.Count > most)
        {
            best.RemoveAt(most);
        }
    }

    private List<string> Cautions(AnswerStatus status, LeftOut leftOut, IReadOnlyList<int> picks, string? whyNothing)
    {
        var lines = new List<string> { Phrasebook.NotMedicalAdvice };
        if (eligibility.Limits.Referral is { } referral)
        {
            lines.Add(referral.Advice);
        }

        lines.AddRange(eligibility.Limits.Cautions);
        lines.AddRange(profile.Cautions);
        lines.AddRange(TaughtCautions.Of(situation));
        lines.AddRange(WeekCautions.Of(situation, picks.Select(rank => catalogue.Exercises[ranking.Positions[rank]])));
        if (status == AnswerStatus.NothingEligible)
        {
            var blocks = leftOut.ByReason.Take(3).Select(r => $"{vocabulary.Reasons.InSentence(r.Reason)} ({r.Count})");
            lines.Add(whyNothing ?? (eligibility.Eligible.Length == 0
                ? $"Nothing is eligible. What blocks most: {string.Join(", ", blocks)}."
                : "What is eligible serves none of the needs, and nothing is filled in."));
        }

        return lines;
    }
}
