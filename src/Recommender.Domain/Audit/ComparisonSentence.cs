using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Audit;

/// <summary>Words a comparison. It words; it never recomputes.</summary>
internal sealed class ComparisonSentence(Edition edition, Question question)
{
    private const int Named = 3;
    private readonly Terms<Term> labels = edition.Catalogue.Vocabulary.Factors;

    /// <summary>The sentence.</summary>
    /// <param name="above">The one that stands above.</param>
    /// <param name="below">The other.</param>
    /// <param name="by">What decides it.</param>
    /// <param name="deciding">Deciding factors, the one above first.</param>
    public string Of(ExerciseStanding above, ExerciseStanding below, DecidedBy by, IReadOnlyList<ComparedFactor> deciding)
    {
        if (above.Place == StandingPlace.Referred)
        {
            return $"A referral leaves nothing open; by points alone {Alone(above, below)}.";
        }

        if (by == DecidedBy.Gates)
        {
            var why = below.Refusals.Count == 0 ? "it is the exercise that is replaced" : $"it would be let in if {below.Refusals[0].WouldBeAllowedIf}{More(below.Refusals.Count - 1)}";
            return $"{above.Name} passes every gate and {below.Name} is left out: {why}. By points alone {Alone(above, below)}.";
        }

        if (above.Place == StandingPlace.LeftOut)
        {
            return $"Both {above.Name} and {below.Name} are left out; by points alone {Alone(above, below)}{Mainly(deciding, below.Name)}.";
        }

        return by switch
        {
            DecidedBy.Similarity => Similar(above, below),
            DecidedBy.Choice => $"{above.Name} is above {below.Name} although {below.Name} {(below.Score == above.Score ? "has as many points" : $"has {below.Score - above.Score} points more")}: {below.NotPickedBecause ?? "the order follows the choice"}.",
            DecidedBy.Order when question is SessionAsked && above.Rank is not null && below.Rank is not null => $"{above.Name} is done before {below.Name}; the set is chosen as a whole, and by points alone {Alone(above, below)}.",
            DecidedBy.Order => $"{above.Name} and {below.Name} have the same points, {above.Score}; the order of ids puts {above.Name} first.",
            _ => $"{above.Name} is above {below.Name} by {above.Score - below.Score} points{Mainly(deciding, below.Name)}.",
        };
    }

    private static string Similar(ExerciseStanding above, ExerciseStanding below) => above.Similarity > below.Similarity
        ? $"{above.Name} is above {below.Name} because it is more like the replaced exercise, {above.Similarity:0.###} against {below.Similarity:0.###} of 1; by points alone {Alone(above, below)}."
        : $"{above.Name} is above {below.Name}, {above.Similarity:0.###} against {below.Similarity:0.###} of 1 like the replaced exercise, because the reason of the swap weighs against {below.Name}; by points alone {Alone(above, below)}.";

    private static string Alone(ExerciseStanding a, ExerciseStanding b) => a.Score == b.Score ? "they would be even"
        : a.Score > b.Score ? $"{a.Name} would be above by {a.Score - b.Score}" : $"{b.Name} would be above by {b.Score - a.Score}";

    private static string More(int others) => others switch { <= 0 => "", 1 => ", and one gate more stands against it", _ => $", and {others} gates more stand against it" };

    private string Mainly(IReadOnlyList<ComparedFactor> deciding, string below)
    {
        if (deciding.Count == 0)
        {
            return "";
        }

        var parts = deciding.Take(Named).Select(f => f.First.Thousandths <= 0 && f.Second.Thousandths < 0
            ? $"the {labels.InSentence(f.Factor)} of {below} is {f.Difference} higher"
            : $"its {labels.InSentence(f.Factor)} is {f.Difference} better").ToList();
        var rest = deciding.Count > Named ? $" and {deciding.Count - Named} more" : "";
        return $", mainly because {(parts.Count == 1 ? parts[0] : string.Join(", ", parts.SkipLast(1)) + (rest.Length > 0 ? ", " : " and ") + parts[^1])}{rest}";
    }
}
