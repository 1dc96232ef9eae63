using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Explanations;

/// <summary>What the calendar and the day say beside an answer.</summary>
public static class WeekCautions
{
    /// <summary>Cautions, each a sentence; empty when the dates fit the phase and nothing else is on the day.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="picks">The picks.</param>
    public static IEnumerable<string> Of(Situation situation, IEnumerable<Exercise> picks)
    {
        var rules = situation.Knowledge.Week;
        var stated = situation.Calendar.Weeks is not null || situation.Request.WeeksToCompetition is not null;
        if (stated && rules.PhaseWeeks.FirstOrDefault(p => p.Phase == situation.Phase) is { } usual
            && (situation.WeeksToCompetition < usual.From || situation.WeeksToCompetition > usual.To))
        {
            yield return $"The phase is {situation.Catalogue.Vocabulary.Phases.InSentence((int)situation.Phase)}, but {situation.WeeksToCompetition:0.#} weeks are left; it is usual with {usual.From:0.#} to {usual.To:0.#}. Check the phase or the dates.";
        }

        if (situation.Calendar.Today.Count == 0)
        {
            yield break;
        }

        var bands = picks.Select(p => p.LoadBand).ToHashSet();
        foreach (var advice in rules.Advice)
        {
            if (advice.Kinds.Any(k => situation.Calendar.Today.Contains(k, StringComparer.Ordinal)) && advice.LoadBands.Any(bands.Contains))
            {
                yield return advice.Note;
            }
        }
    }
}
