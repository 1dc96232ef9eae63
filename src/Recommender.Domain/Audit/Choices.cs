using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Audit;

/// <summary>How the exercises of a report stood in its decision: the stages are run again. Pure.</summary>
public static class Choices
{
    /// <summary>What a report is learned from.</summary>
    /// <param name="kind">Kind of decision.</param>
    /// <param name="question">What was asked.</param>
    /// <param name="edition">The edition it was answered on.</param>
    /// <param name="report">A report without faults.</param>
    /// <returns>Null where the edition of then lacks the pick.</returns>
    public static OutcomeFacts? Of(string kind, Question question, Edition edition, OutcomeReport report)
    {
        var catalogue = edition.Catalogue;
        var picked = catalogue.PositionOf(report.Exercise!);
        if (picked < 0)
        {
            return null;
        }

        var trial = Trial.Of(question, edition);
        var standings = new Standings(question, trial);
        var instead = report.ReplacedBy is { } id ? catalogue.PositionOf(id) : -1;
        var done = report.Verdict == Verdicts.Declined ? -1 : report.Verdict == Verdicts.Swapped ? instead : picked;
        return new OutcomeFacts(kind, Stood(trial, standings, picked), instead < 0 ? null : Stood(trial, standings, instead), done < 0 ? null : Work(trial.Situation, catalogue.Exercises[done]));
    }

    private static ChoiceFacts Stood(Trial trial, Standings standings, int position)
    {
        var exercise = trial.Situation.Catalogue.Exercises[position];
        return new ChoiceFacts(exercise.Id, exercise.Family, standings.PlaceOf(position), standings.IsOpen(position), SoreRegions.Of(trial.Situation).LoadedBy(position), [.. trial.Engine.Explain(position).SkipLast(1).Select(c => c.Points.Thousandths)]);
    }

    private static WorkFacts Work(Situation situation, Exercise exercise)
    {
        var loads = new SortedDictionary<string, decimal>(exercise.TissueLoad.ToDictionary(l => l.Key, l => l.Value.High, StringComparer.Ordinal), StringComparer.Ordinal);
        var pain = 0;
        var sore = new HashSet<string>(StringComparer.Ordinal);
        foreach (var complaint in situation.Complaints)
        {
            string[] loaded = [.. complaint.Stands.Select(s => s.Region.Id).Where(loads.ContainsKey)];
            if (loaded.Length > 0)
            {
                pain = Math.Max(pain, complaint.Pain);
                sore.UnionWith(loaded);
            }
        }

        // A report does not say where it hurt. What hurt before is meant where the work loads it notably; else it may be anything that it loads.
        if (situation.Knowledge.Outcomes?.Caution is { } rule && sore.Any(region => loads[region] >= rule.LoadedFrom))
        {
            foreach (var other in loads.Keys.Except(sore).ToList())
            {
                loads.Remove(other);
            }
        }

        return new WorkFacts(exercise.Id, pain, exercise.LoadingRate, loads);
    }
}
