using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Ledger;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>Turns candidates and the session's limits into a <see cref="SetProblem"/>.</summary>
internal sealed class SessionProblem
{
    /// <summary>Id of the limit on minutes.</summary>
    public const string MinutesId = "minutes";

    /// <summary>Id of the limit on how many there are.</summary>
    public const string SlotsId = "slots";

    /// <summary>Start of the ids of budgets.</summary>
    public const string BudgetPrefix = "budget:";

    /// <summary>Start of the ids of balance rules.</summary>
    public const string BalancePrefix = "balance:";

    /// <summary>Start of the ids of locks.</summary>
    public const string LockPrefix = "locked:";

    /// <summary>Start of the ids of landings.</summary>
    public const string ContactsPrefix = "contacts";

    private const int Thousand = 1000;
    private readonly Situation situation;
    private readonly SessionRules rules;
    private readonly ExerciseCatalogue catalogue;
    private readonly IReadOnlyList<TissueBudget> budgets;
    private readonly IReadOnlySet<int> locked;
    private readonly int[][] layers;
    private readonly int[][] gains;
    private readonly int changeOverTenths;
    private readonly List<SetRow> fixedRows = [];
    private readonly Dictionary<int, (int[] Left, int[] Right)> tissue = [];

    /// <param name="situation">The situation.</param>
    /// <param name="needs">Points of the needs.</param>
    /// <param name="candidates">What may be chosen.</param>
    /// <param name="budgets">Tissue budgets.</param>
    /// <param name="locked">Positions that stay.</param>
    public SessionProblem(Situation situation, NeedTable needs, IReadOnlyList<SessionCandidate> candidates, IReadOnlyList<TissueBudget> budgets, IReadOnlySet<int> locked)
    {
        this.situation = situation;
        this.budgets = budgets;
        this.locked = locked;
        Candidates = candidates;
        rules = situation.Knowledge.Session;
        catalogue = situation.Catalogue;
        changeOverTenths = (int)decimal.Ceiling(rules.ChangeOverSeconds.Value / 6);
        Coverage = new CoverageLayers(needs, catalogue.Vocabulary.Qualities.Count, rules.Objective.NthShare);
        gains = Coverage.Gains;
        layers = [.. candidates.Select(c => Coverage.Of(catalogue, c.Position))];
        Tissue();
        Contacts();
        Balance();
        foreach (var position in locked)
        {
            Row($"{LockPrefix}{catalogue.Exercises[position].Id}", c => c.Position == position ? -1 : 0, -1);
        }
    }

    /// <summary>What may be chosen.</summary>
    public IReadOnlyList<SessionCandidate> Candidates { get; }

    /// <summary>What each quality's further picks bring.</summary>
    public CoverageLayers Coverage { get; }

    /// <summary>The problem.</summary>
    /// <param name="tenths">Tenths of a minute there are.</param>
    /// <param name="least">At least so many exercises.</param>
    /// <param name="most">At most so many.</param>
    /// <param name="moreOn">Region whose budget is asked again larger, or -1.</param>
    /// <param name="moreShare">By which share.</param>
    /// <param name="without">Ids of limits to leave out; null for none.</param>
    /// <param name="further">A further limit, or null.</param>
    public SetProblem With(int tenths, int least, int most, int moreOn = -1, decimal moreShare = 0, Func<string, bool>? without = null, SetRow? further = null)
    {
        var rows = new List<SetRow>
        {
            // Between n exercises lie n - 1 changes, so each takes one and one is given back.
            new(MinutesId, [.. Candidates.Select(c => c.NeedsTenths > tenths && without?.Invoke(MinutesId) != true ? tenths + changeOverTenths + 1 : c.Tenths + changeOverTenths)], tenths + changeOverTenths),
        };
        foreach (var budget in budgets)
        {
            var (left, right) = tissue[budget.Region];
            var amount = budget.Region == moreOn ? budget.Budget * (1 + moreShare) : budget.Budget;
            var id = BudgetPrefix + catalogue.Vocabulary.Regions[budget.Region].Id;
            rows.Add(new SetRow(id, left, TissueBudget.Left(amount, budget.CarriedLeft)));
            if (budget.CarriedLeft != budget.CarriedRight || !left.AsSpan().SequenceEqual(right))
            {
                rows.Add(new SetRow(id, right, TissueBudget.Left(amount, budget.CarriedRight)));
            }
        }

        rows.AddRange(fixedRows);
        if (further is not null)
        {
            rows.Add(further);
        }

        return new SetProblem([.. Candidates.Select(c => c.Own)], layers, gains, [.. Candidates.Select(c => catalogue.Families[c.Position])],
            without is null ? rows : [.. rows.Where(r => !without(r.Id))], least, most);
    }

    /// <summary>A limit: at least so many of these positions.</summary>
    public SetRow AtLeast(string id, IReadOnlySet<int> positions, int count) => new(id, [.. Candidates.Select(c => positions.Contains(c.Position) ? -1 : 0)], -count);

    /// <summary>Straight minutes of a set, in tenths: doses and the changes between them.</summary>
    public int Tenths(IReadOnlyCollection<SessionCandidate> set) => set.Sum(c => c.Tenths) + (changeOverTenths * Math.Max(0, set.Count - 1));

    /// <summary>Whether a set with other doses than the candidates' keeps to the minutes, the landings and the budgets.</summary>
    public bool Holds(IReadOnlyCollection<SessionCandidate> set, int tenths)
    {
        if (Tenths(set) > tenths)
        {
            return false;
        }

        var contacts = new ContactBudget(situation);
        int Landings(Func<Exercise, bool> counted) => set.Where(c => counted(catalogue.Exercises[c.Position])).Sum(c => contacts.Of(catalogue.Exercises[c.Position], c.Dose));
        if (Landings(_ => true) > contacts.Most || contacts.Classes.Where((kind, k) => Landings(e => contacts.Belongs(e, k)) > kind.Most).Any())
        {
            return false;
        }

        var (sheet, ledger) = (new LedgerSheet(catalogue.RegionCount), new TissueLedger(catalogue, situation.Knowledge));
        foreach (var candidate in set)
        {
            ledger.Add(sheet, candidate.Position, candidate.Dose);
        }

        return budgets.All(b => sheet.Left(b.Region) <= TissueBudget.Left(b.Budget, b.CarriedLeft) && sheet.Right(b.Region) <= TissueBudget.Left(b.Budget, b.CarriedRight));
    }

    private void Tissue()
    {
        var ledger = new TissueLedger(catalogue, situation.Knowledge);
        var sheets = budgets.Count == 0 ? [] : Candidates.Select(c =>
        {
            var sheet = new LedgerSheet(catalogue.RegionCount);
            ledger.Add(sheet, c.Position, c.Dose);
            return sheet;
        }).ToList();
        foreach (var budget in budgets)
        {
            tissue[budget.Region] = ([.. sheets.Select(s => (int)s.Left(budget.Region))], [.. sheets.Select(s => (int)s.Right(budget.Region))]);
        }
    }

    private void Contacts()
    {
        var contacts = new ContactBudget(situation);
        int[] landings = [.. Candidates.Select(c => contacts.Of(catalogue.Exercises[c.Position], c.Dose))];
        fixedRows.Add(new SetRow(ContactsPrefix, landings, contacts.Most));
        for (var k = 0; k < contacts.Classes.Count; k++)
        {
            var at = k;
            fixedRows.Add(new SetRow($"{ContactsPrefix}:{contacts.Classes[k].Id}", [.. landings.Select((n, i) => contacts.Belongs(catalogue.Exercises[Candidates[i].Position], at) ? n : 0)], contacts.Classes[k].Most));
        }
    }

    private void Balance()
    {
        foreach (var pair in rules.Balance.Pairs)
        {
            var (one, other) = (Members(pair.One), Members(pair.Other));
            if (one.Count > 0 && other.Count > 0)
            {
                Row(BalancePrefix + pair.Id, c => Sign(one, other, c.Position), pair.Difference);
                Row(BalancePrefix + pair.Id, c => Sign(other, one, c.Position), pair.Difference);
            }
        }

        foreach (var kind in rules.Balance.Kinds.Where(IsAsked))
        {
            var members = Members(kind.Matches);
            if (kind.Most is { } most)
            {
                Row(BalancePrefix + kind.Id, c => members.Contains(c.Position) ? 1 : 0, most);
            }

            if (kind.FromPicks is { } from && members.Count > 0)
            {
                // Fewer than so many, or one of them: each pick counts 1, each of the kind gives back as many as there can be.
                Row(BalancePrefix + kind.Id, c => members.Contains(c.Position) ? 1 - rules.Picks.Most : 1, from - 1);
            }
        }

        var aim = (int)decimal.Round(Thousand * (0.5m + (rules.Balance.Support.Pull * (situation.Profile.SingleSupportShare - 0.5m))));
        var tolerance = (int)(rules.Balance.Support.Tolerance * Thousand);
        if (Candidates.Any(c => Standing(c.Position) > 0) && Candidates.Any(c => Standing(c.Position) < 0))
        {
            Row(BalancePrefix + "support", c => Standing(c.Position) switch { > 0 => Thousand - aim, < 0 => -aim, _ => 0 }, tolerance);
            Row(BalancePrefix + "support", c => Standing(c.Position) switch { > 0 => aim - Thousand, < 0 => aim, _ => 0 }, tolerance);
        }
    }

    /// <summary>Whether a rule holds so near the competition, and for what is or was hurt.</summary>
    private bool IsAsked(BalanceKind kind) =>
        !(situation.WeeksToCompetition >= kind.WeeksBelow) && (kind.Protective is null || situation.Protective.Any(p => p.Id == kind.Protective));

    private HashSet<int> Members(IReadOnlyList<ExerciseMatch> matches) =>
        [.. Candidates.Select(c => c.Position).Where(p => matches.Any(m => m.Holds(catalogue.Exercises[p])))];

    private static int Sign(HashSet<int> plus, HashSet<int> minus, int position) => (plus.Contains(position) ? 1 : 0) - (minus.Contains(position) ? 1 : 0);

    /// <summary>1 for single or split support, -1 for double, 0 off the feet.</summary>
    private int Standing(int position) => (Support)catalogue.Supports[position] switch { Support.Single or Support.Split => 1, Support.Double => -1, _ => 0 };

    private void Row(string id, Func<SessionCandidate, int> coefficient, int limit) => fixedRows.Add(new SetRow(id, [.. Candidates.Select(coefficient)], limit));
}
