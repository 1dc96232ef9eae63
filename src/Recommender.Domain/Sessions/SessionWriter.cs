using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Ledger;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Sessions;

/// <summary>Chooses a session from what the stages found, and arranges it into an answer.</summary>
internal sealed class SessionWriter(SessionRequest request, Situation situation, NeedProfile profile, NeedTable needs, EligibilityOutcome eligibility, ScoringEngine engine, Ranking ranking,
    AnswerWriter answers)
{
    private readonly ExerciseCatalogue catalogue = situation.Catalogue;
    private readonly SessionSet set = new(request, situation, profile, needs, eligibility, engine);

    /// <summary>The choice alone.</summary>
    public SetProblem Problem() => set.Problem.With(set.Size.Tenths, set.Size.Least, set.Size.Most);

    /// <summary>The answer.</summary>
    public SessionAnswer Write(string decisionId, EarlierPicks? earlier)
    {
        var blocks = new SessionBlocks(situation, eligibility, set.Locked);
        if (eligibility.Limits.Referral?.Scope == "all")
        {
            return Nothing(decisionId, [], earlier);
        }

        if (blocks.OfLocks() is { Count: > 0 } unsafeLocks)
        {
            return Nothing(decisionId, unsafeLocks, earlier);
        }

        var choice = set.Choose();
        return choice.Items is null ? Nothing(decisionId, blocks.OfLimits(set.Problem, set.Solver, set.Size.Least), earlier) : Chosen(decisionId, choice, earlier);
    }

    private SessionAnswer Nothing(string decisionId, IReadOnlyList<SessionBlock> blocks, EarlierPicks? earlier)
    {
        var answer = answers.Write([], decisionId, blocks.Count == 0 ? null : "No session is given, and nothing is filled in. " + string.Join(" ", blocks.Select(b => b.Text)));
        var none = new LedgerSheet(catalogue.RegionCount);
        return Frame(answer, none, earlier is null ? null : new EarlierKept(earlier.DecisionId, earlier.Exercises, [], new Points(0))) with { Blocks = blocks };
    }

    private SessionAnswer Chosen(string decisionId, SessionChoice choice, EarlierPicks? earlier)
    {
        var ordered = set.InOrder(choice, out var saved);
        var rankOf = ranking.Positions.Select((position, rank) => (position, rank)).ToDictionary(x => x.position, x => x.rank);
        var answer = answers.Write([.. ordered.Select(p => rankOf[p.Candidate.Position])], decisionId);
        var explanation = new SessionExplanation(situation, profile, set.Problem, choice);
        var ledger = new TissueLedger(catalogue, situation.Knowledge);
        var sheets = ordered.Select(p =>
        {
            var sheet = new LedgerSheet(catalogue.RegionCount);
            if (Given(p.Candidate) is { } dose)
            {
                ledger.Add(sheet, p.Candidate.Position, dose);
            }

            return sheet;
        }).ToList();
        var total = new LedgerSheet(catalogue.RegionCount);
        sheets.ForEach(total.Add);
        var told = set.Budgets.Select(b => catalogue.Vocabulary.Regions[b.Region].Id).ToHashSet(StringComparer.Ordinal);
        var picks = ordered.Select((p, i) => new SessionPick(i + 1, p.Block, p.Partner is { } partner ? catalogue.Exercises[partner.Position].Id : null, answer.Picks[i].Exercise, answer.Picks[i].Score,
            answer.Picks[i].Contributions, Given(p.Candidate), answer.Picks[i].TissueLoad, Only(sheets[i].Totals(catalogue.Vocabulary), told, answer.Picks[i].TissueLoad.Keys), explanation.Adds(p.Candidate),
            set.Locked.Contains(p.Candidate.Position), answer.Picks[i].Why, answer.Picks[i].Cautions, answer.Picks[i].Evidence)).ToList();
        var straight = set.Problem.Tenths([.. ordered.Select(p => p.Candidate)]);
        var value = choice.Problem.Value(choice.Items!);
        var solution = choice.Solution;
        var now = ordered.Select(p => catalogue.Exercises[p.Candidate.Position].Id).ToList();
        var previous = earlier is null ? null : new EarlierKept(earlier.DecisionId, earlier.Exercises, [.. earlier.Exercises.Where(e => now.Contains(e, StringComparer.Ordinal))], new Points(choice.BestValue - value));
        return Frame(answer, total, previous) with
        {
            Picks = picks,
            Minutes = situation.NoAutomaticDose ? 0 : (straight - saved) / 10m,
            MinutesSaved = situation.NoAutomaticDose ? 0 : saved / 10m,
            Points = new Points(value),
            Coverage = explanation.Coverage(ordered),
            Optimality = new Optimality(solution.Proven, solution.Proven || solution.Bound <= 0 ? 0 : decimal.Round((solution.Bound - value) / (decimal)solution.Bound, 4), solution.Nodes),
            Tight = Tight(choice),
            NotChosen = explanation.NotChosen(set.Size.Tenths, set.Size.Most),
            Cautions = choice.BalanceDropped ? [.. answer.Cautions, "Locks or the number of exercises leave no balanced session; balance was left aside."] : answer.Cautions,
        };
    }

    /// <summary>The dose, where one may be given; without it there are no minutes and no loads to tell either.</summary>
    private Dose? Given(SessionCandidate candidate) => situation.NoAutomaticDose ? null : candidate.Dose;

    private List<TightLimit> Tight(SessionChoice choice)
    {
        var rules = situation.Knowledge.Session;
        var tight = new List<TightLimit>();
        Note(SessionProblem.MinutesId, set.Solver.GainWith(choice, moreTenths: 10 * rules.Explanation.MinutesMore), $"{rules.Explanation.MinutesMore} more minute{(rules.Explanation.MinutesMore == 1 ? "" : "s")}");
        foreach (var budget in set.Budgets)
        {
            Note(SessionProblem.BudgetPrefix + catalogue.Vocabulary.Regions[budget.Region].Id, set.Solver.GainWith(choice, moreOn: budget.Region, moreShare: rules.Explanation.BudgetMoreShare),
                $"{rules.Explanation.BudgetMoreShare * 100:0.#} % more budget");
        }

        return tight;

        void Note(string id, int gain, string unit)
        {
            if (gain > 0)
            {
                tight.Add(new TightLimit(id, new Points(gain), unit));
            }
        }
    }

    /// <summary>What every answer holds, with or without picks.</summary>
    private SessionAnswer Frame(Answer answer, LedgerSheet total, EarlierKept? previous)
    {
        var (work, training) = (WeekLedger.Work(situation), WeekLedger.Training(situation));
        var all = new LedgerSheet(catalogue.RegionCount);
        all.Add(work);
        all.Add(training);
        all.Add(total);
        return new SessionAnswer
        {
            DecisionId = answer.DecisionId,
            Status = answer.Status,
            EligibleCount = answer.EligibleCount,
            Picks = [],
            Minutes = 0,
            MinutesSaved = 0,
            Points = new Points(0),
            TissueTotals = total.Totals(catalogue.Vocabulary),
            Budgets = [.. set.Budgets.Select(b => Use(b, total))],
            Coverage = [],
            Optimality = new Optimality(true, 0, 0),
            Tight = [],
            NotChosen = [],
            Blocks = [],
            Previous = previous,
            Week = new WeekLoad(situation.Knowledge.Ledger.Days, work.Totals(catalogue.Vocabulary), training.Totals(catalogue.Vocabulary), all.Totals(catalogue.Vocabulary),
                UsualWeek.Of(situation, all), RatedWeek.Of(situation.Request.SessionRatings, situation.Knowledge.Ledger.Ratings)),
            Limits = answer.Limits,
            LeftOut = answer.LeftOut,
            Needs = answer.Needs,
            Unmet = answer.Unmet,
            Assumed = [.. answer.Assumed.Where(a => a.Pointer != "/count").Select(a => a with { Pointer = "/context" + a.Pointer }), .. set.Size.Assumed,
                .. set.Budgets.Where(b => b.Assumed).Select(b => new Assumption("/budgets/" + catalogue.Vocabulary.Regions[b.Region].Id, b.Budget))],
            Referral = answer.Referral,
            Cautions = answer.Cautions,
            Versions = answer.Versions,
        };
    }

    private BudgetUse Use(TissueBudget budget, LedgerSheet total)
    {
        var carried = new SideTotal(budget.CarriedLeft / 100m, budget.CarriedRight / 100m);
        var used = new SideTotal(total.Left(budget.Region) / 100m, total.Right(budget.Region) / 100m);
        var left = budget.Budget - Math.Max(carried.Left + used.Left, carried.Right + used.Right);
        return new BudgetUse(catalogue.Vocabulary.Regions[budget.Region].Id, budget.Budget, carried, used, left, budget.Assumed);
    }

    private static OrderedDictionary<string, SideTotal> Only(OrderedDictionary<string, SideTotal> totals, HashSet<string> budgeted, IEnumerable<string> shown)
    {
        var wanted = budgeted.Concat(shown).ToHashSet(StringComparer.Ordinal);
        return new OrderedDictionary<string, SideTotal>(totals.Where(t => wanted.Contains(t.Key)), StringComparer.Ordinal);
    }
}
