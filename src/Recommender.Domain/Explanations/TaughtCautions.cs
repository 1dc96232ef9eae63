using Recommender.Domain.Requests;

namespace Recommender.Domain.Explanations;

/// <summary>Asks where a competence looks forgotten: nothing is let in that was not named, but a coach should not lose half the gym to an empty tick.</summary>
public static class TaughtCautions
{
    /// <summary>Cautions, each a sentence; empty when what is named agrees with itself.</summary>
    /// <param name="situation">The situation.</param>
    public static IEnumerable<string> Of(Situation situation)
    {
        var competences = situation.Catalogue.Vocabulary.Competences;
        var athlete = situation.Request.Athlete!;
        if (athlete.Competence is not null)
        {
            foreach (var order in situation.Knowledge.Competence.LearnedAfter ?? [])
            {
                if (Has(order.Competence) && !Has(order.After))
                {
                    var earlier = competences.InSentence(order.After);
                    yield return $"The athlete was taught {competences.InSentence(order.Competence)} but, as it was sent, not {earlier}, which usually comes before: what asks for {earlier} is left out. Add it to the competences if it was taught.";
                }
            }
        }

        foreach (var lift in (athlete.OneRepMaxKg ?? new Dictionary<string, decimal>()).Keys.Order(StringComparer.Ordinal))
        {
            var exercise = situation.Catalogue.Exercises[situation.Catalogue.PositionOf(lift)];
            if (exercise.Competences.Where(c => !Has(c)).Select(competences.InSentence).ToList() is { Count: > 0 } missing)
            {
                yield return $"A one-repetition maximum is given for {exercise.Name}, which is left out because it asks for {string.Join(" and ", missing)}. Add that to the competences if it was taught.";
            }
        }

        bool Has(string id) => (situation.CompetenceMask & (1UL << competences.IndexOf(id))) != 0;
    }
}
