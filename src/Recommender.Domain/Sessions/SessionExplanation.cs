using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Sessions;

/// <summary>Explains a set: what each member adds, how far needs are covered, what kept the others out.</summary>
internal sealed class SessionExplanation(Situation situation, NeedProfile profile, SessionProblem session, SessionChoice choice)
{
    private readonly ExerciseCatalogue catalogue = situation.Catalogue;

    /// <summary>What the set would lose for each need without one of its members, most first.</summary>
    public IReadOnlyList<AddedNeed> Adds(SessionCandidate pick)
    {
        var adds = new List<AddedNeed>();
        foreach (var need in profile.Needs.Where(n => catalogue.RatingOf(pick.Position, n.Position) > 0))
        {
            var others = Picks().Where(c => c.Position != pick.Position).Select(c => catalogue.RatingOf(c.Position, need.Position)).ToList();
            var points = session.Coverage.Points(need.Position, others.Append(catalogue.RatingOf(pick.Position, need.Position))) - session.Coverage.Points(need.Position, others);
            if (points > 0)
            {
                adds.Add(new AddedNeed(need.Quality, new Points(points), others.TrueForAll(r => r == 0)));
            }
        }

        return [.. adds.OrderByDescending(a => a.Points.Thousandths)];
    }

    /// <summary>How far each need is covered, in the order of the needs.</summary>
    /// <param name="ordered">Picks in order.</param>
    public IReadOnlyList<NeedCoverage> Coverage(IReadOnlyList<PlacedPick> ordered) =>
    [
        .. profile.Needs.Select(need =>
        {
            var by = ordered.Select(p => p.Candidate.Position).Where(p => catalogue.RatingOf(p, need.Position) > 0).ToList();
            var most = session.Coverage.Most(need.Position);
            var points = session.Coverage.Points(need.Position, by.Select(p => catalogue.RatingOf(p, need.Position)));
            return new NeedCoverage(need.Quality, need.Weight, most == 0 ? 0 : decimal.Round(points / (decimal)most, 3), [.. by.Select(p => catalogue.Exercises[p].Id)]);
        }),
    ];

    /// <summary>The best of what was not chosen, by what each would bring alone, with what kept it out.</summary>
    public IReadOnlyList<NotChosen> NotChosen(int tenths, int most)
    {
        var problem = choice.Problem;
        var picked = choice.Items!.Select(i => session.Candidates[i].Position).ToHashSet();
        return
        [
            .. Enumerable.Range(0, problem.Count)
                .Where(i => !picked.Contains(session.Candidates[i].Position) && !session.Candidates[i].Smaller && session.Candidates[i].NeedsTenths <= tenths)
                .Select(i => (Item: i, Value: problem.Value([i])))
                .OrderByDescending(x => x.Value).ThenBy(x => x.Item)
                .Take(situation.Knowledge.Session.Explanation.LeftOut)
                .Select(x => Why(x.Item, most)),
        ];
    }

    private NotChosen Why(int item, int most)
    {
        var problem = choice.Problem;
        var set = choice.Items!;
        var id = catalogue.Exercises[session.Candidates[item].Position].Id;
        var kin = set.FirstOrDefault(i => problem.Families[i] == problem.Families[item], -1);
        var value = problem.Value(set);
        if (kin >= 0)
        {
            var loses = value - problem.Value([.. set.Where(i => i != kin), item]);
            return new NotChosen(id, "family", $"A form of {Id(kin)}, which is there; one of a family{(loses > 0 ? $", and this one would leave the set {Text(loses)} points worse" : "")}.");
        }

        int[] added = [.. set, item];
        if (set.Length < most)
        {
            return Broken(added) is { } row
                ? new NotChosen(id, row.Id, $"Beside the others it would break the limit: {Said(row)}.")
                : new NotChosen(id, "points", "It would add nothing that the set has not.");
        }

        // In whose place would it cost least, and does a limit forbid that?
        var (best, bestLoss) = (-1, int.MaxValue);
        foreach (var leaving in set)
        {
            int[] other = [.. set.Where(i => i != leaving), item];
            if (problem.Value(other) is var after && value - after < bestLoss)
            {
                (best, bestLoss) = (leaving, value - after);
            }
        }

        int[] exchanged = [.. set.Where(i => i != best), item];
        return bestLoss <= 0 && Broken(exchanged) is { } broken
            ? new NotChosen(id, broken.Id, $"In place of {Id(best)} it would break the limit: {Said(broken)}.")
            : new NotChosen(id, SessionProblem.SlotsId, $"The {most} places are taken; in place of {Id(best)} the set would be {Text(Math.Max(0, bestLoss))} points worse.");
    }

    private SetRow? Broken(int[] set) => choice.Problem.Rows.FirstOrDefault(r => r.Used(set) > r.Limit);

    /// <summary>A limit in words.</summary>
    private string Said(SetRow row)
    {
        var rules = situation.Knowledge.Session.Balance;
        if (row.Id.StartsWith(SessionProblem.BudgetPrefix, StringComparison.Ordinal))
        {
            return $"the budget of the {catalogue.Vocabulary.Regions.InSentence(row.Id[SessionProblem.BudgetPrefix.Length..])}";
        }

        if (row.Id.StartsWith(SessionProblem.BalancePrefix, StringComparison.Ordinal))
        {
            var rule = row.Id[SessionProblem.BalancePrefix.Length..];
            return "balance of " + (rules.Pairs.FirstOrDefault(p => p.Id == rule)?.Label ?? rules.Kinds.FirstOrDefault(k => k.Id == rule)?.Label ?? "single and double support");
        }

        return row.Id.StartsWith(SessionProblem.ContactsPrefix, StringComparison.Ordinal) ? "landings of a session" : row.Id == SessionProblem.MinutesId ? "the minutes" : row.Id;
    }

    private IEnumerable<SessionCandidate> Picks() => choice.Items!.Select(i => session.Candidates[i]);

    private string Id(int item) => catalogue.Exercises[session.Candidates[item].Position].Id;

    private static string Text(int thousandths) => (thousandths / 1000m).ToString("0.##", CultureInfo.InvariantCulture);
}
