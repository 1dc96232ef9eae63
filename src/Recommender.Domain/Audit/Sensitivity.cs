using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Audit;

/// <summary>
/// How robust the first place of a decision is: the share of seeded samples in which it stays first while every modelled, common-practice and recalled number that
/// the order rests on moves inside its interval, each for itself. Published numbers stay. Pure; whole-number arithmetic, the same on every machine.
/// </summary>
/// <remarks>
/// What is eligible does not move. Gates look at the upper end of a tissue load, which is the safe side of every value inside the interval, and no sample trades a gate
/// against points. Only the best as they stand are drawn for, as many as the rules say. Doses and what the request states do not move either.
/// </remarks>
public static class Sensitivity
{
    private const int TopThree = 3;
    private const string Kept = "What the gates let through, what the request states and published numbers are left as they are.";

    /// <summary>The share, the rivals and the numbers that matter.</summary>
    /// <param name="question">What was asked.</param>
    /// <param name="edition">The edition it was answered on.</param>
    public static SensitivityAnswer Of(Question question, Edition edition)
    {
        var rules = edition.Knowledge.Audit.Sensitivity;
        var numbers = new VariedNumbers(rules);
        var trial = Trial.Of(question, edition);
        var meaning = Meaning(question);
        if (ContestOf(question, trial, numbers, rules) is not { } contest)
        {
            return new SensitivityAnswer(null, null, null, rules.Samples, rules.Seed, new VariedCounts(0, 0, 0, 0), [], [], meaning, "Nothing was picked, so there is no first place to ask about.");
        }

        var topThree = 0;
        var wins = new int[contest.Exercises.Positions.Count];
        for (var sample = 0; sample < rules.Samples; sample++)
        {
            var (winner, _, above) = contest.In(Draws.Sample(rules.Seed, sample));
            topThree += above < TopThree ? 1 : 0;

            // A draw in which nothing serves a need enough has no winner.
            if (winner >= 0)
            {
                wins[winner]++;
            }
        }

        var share = Share(wins[contest.First], rules.Samples);
        List<Rival> rivals = [.. Enumerable.Range(0, wins.Length).Where(i => i != contest.First && wins[i] > 0).OrderByDescending(i => wins[i]).ThenBy(i => i).Take(rules.Rivals)
            .Select(i => new Rival(IdOf(edition, contest, i), Share(wins[i], rules.Samples)))];
        var counts = numbers.Counts;
        var varied = new VariedCounts(counts[(int)Basis.Modelled], counts[(int)Basis.CommonPractice], counts[(int)Basis.Recalled], numbers.Held);
        var likely = Enumerable.Range(0, wins.Length).Where(i => i != contest.First && wins[i] > 0).OrderByDescending(i => wins[i]).ThenBy(i => i).Take(rules.Rivals).Prepend(contest.First);
        var moves = Moves(contest, numbers, likely, rules, edition);
        var first = edition.Catalogue.Exercises[contest.Exercises.Positions[contest.First]];
        return new SensitivityAnswer(first.Id, share, Share(topThree, rules.Samples), rules.Samples, rules.Seed, varied, rivals, moves, meaning, Sentence(edition, question, first, share, Share(topThree, rules.Samples), rivals));
    }

    /// <summary>The contest among the best as they stand; null where nothing was picked.</summary>
    private static Contest? ContestOf(Question question, Trial trial, VariedNumbers numbers, SensitivityRules rules)
    {
        var picks = trial.Choose();
        var set = question is SessionAsked session && picks.Count > 0 ? session.Set(trial) : null;
        if (picks.Count == 0)
        {
            return null;
        }

        var wide = Of(new VariedNumbers(rules), null);
        wide.In(Draws.AsTheyAre);
        return wide.Exercises.Positions.Count <= rules.Contenders ? Of(numbers, null) : Of(numbers, wide.Best(rules.Contenders));

        Contest Of(VariedNumbers into, IReadOnlySet<int>? only) => question switch
        {
            SessionAsked => new ContestOfPlace(trial, set!.Value.Set.Problem, set.Value.Choice, picks[0], into, only),
            SubstitutionAsked substitution => new ContestOfLikeness(substitution, trial, picks[0], into, only),
            _ => new ContestOfPoints(trial, picks[0], into, only),
        };
    }

    /// <summary>One number at a time, to both ends: exact, without the noise of a sample. The rules' numbers, and those of the first and its likeliest rivals.</summary>
    private static List<NumberMove> Moves(Contest contest, VariedNumbers numbers, IEnumerable<int> likely, SensitivityRules rules, Edition edition)
    {
        var asked = numbers.All.Where(n => n.Low != n.High).Select(n => (n.Key, n.Name, n.Basis, n.Low, n.High))
            .Concat(likely.SelectMany(i => contest.Exercises.NumbersOf(i)).Select(n => (n.Key, n.Name, n.Basis, n.Low, n.High)));
        var moves = new List<(int Swing, bool Flips, NumberMove Move)>();
        foreach (var (key, name, basis, low, high) in asked)
        {
            var (atLow, atHigh) = (contest.In(Draws.OneAtAnEnd(key, high: false)), contest.In(Draws.OneAtAnEnd(key, high: true)));
            if (atLow is not { Winner: >= 0, Margin: { } aheadAtLow } || atHigh is not { Winner: >= 0, Margin: { } aheadAtHigh } || aheadAtLow == aheadAtHigh)
            {
                continue;
            }

            moves.Add((Math.Abs(aheadAtLow - aheadAtHigh), atLow.Winner != contest.First || atHigh.Winner != contest.First,
                new NumberMove(name, basis, low, high, new Points(aheadAtLow), new Points(aheadAtHigh), IdOf(edition, contest, atLow.Winner), IdOf(edition, contest, atHigh.Winner))));
        }

        return [.. moves.OrderByDescending(m => m.Flips).ThenByDescending(m => m.Swing).ThenBy(m => m.Move.Number, StringComparer.Ordinal).Take(rules.Moves).Select(m => m.Move)];
    }

    private static string IdOf(Edition edition, Contest contest, int index) => edition.Catalogue.Exercises[contest.Exercises.Positions[index]].Id;

    private static decimal Share(int count, int samples) => decimal.Round(count / (decimal)samples, 3);

    private static string Meaning(Question question) => question switch
    {
        SessionAsked => "First keeps its place while no other exercise that fits there inside every limit would make the set worth more, the rest of the set as it is. " + Kept,
        SubstitutionAsked => "First is most like the replaced exercise, less what the reason of the swap takes, among what keeps enough of its purpose. " + Kept,
        _ => "First has the most points among what may be picked; what the spread of the picks held back stays held back. " + Kept,
    };

    private static string Sentence(Edition edition, Question question, Exercise first, decimal share, decimal topThree, List<Rival> rivals)
    {
        var stays = question is SessionAsked ? "keeps its place in" : "is first in";
        var three = question is SessionAsked ? "" : $", and among the best three in {topThree * 100:0.#} %";
        var rival = rivals.Count > 0 ? $"; next comes {edition.Catalogue.Find(rivals[0].Exercise)!.Name}, in {rivals[0].Share * 100:0.#} %" : "";
        return $"{first.Name} {stays} {share * 100:0.#} % of plausible weightings{three}{rival}.";
    }
}
