using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <content>Rules of the ledger and of sessions.</content>
public sealed partial class KnowledgeChecks
{
    private void Ledger(LedgerRules rules, WeekRules week, IReadOnlyList<Exercise> exercises)
    {
        const string file = "rules/ledger.json";
        Sourced(file, "/exponent", rules.Exponent.Basis, rules.Exponent.Source);
        Sourced(file, "/ratings", rules.Ratings.Basis, rules.Ratings.Source);
        if (rules.UsualWeek is { } usual)
        {
            Sourced(file, "/usualWeek", usual.Basis, usual.Source);
        }

        foreach (var unit in Enum.GetValues<DoseUnit>().Where(u => !rules.UsualWork.Amount.ContainsKey(u)))
        {
            Fault(file, "/usualWork/amount", $"{unit} is missing.");
        }

        var kinds = rules.Training.Select(t => t.Kind).ToHashSet(StringComparer.Ordinal);
        foreach (var kind in week.Kinds.Where(k => !kinds.Contains(k.Id)))
        {
            Fault(file, "/training", $"{kind.Id} is missing; every kind of training has a load.");
        }

        foreach (var load in rules.Training)
        {
            var at = $"/training/{load.Kind}";
            Sourced(file, at, load.Basis, load.Source);
            if (week.Kinds.All(k => k.Id != load.Kind))
            {
                Fault(file, at, $"\"{load.Kind}\" is not one of the kinds of rules/week.json.");
            }

            foreach (var (group, kind) in load.AsKind ?? new Dictionary<string, string>())
            {
                Known(file, $"{at}/asKind", group, vocabulary.EventGroups);
                if (!rules.Training.Any(t => t.Kind == kind && t.AsKind is null))
                {
                    Fault(file, $"{at}/asKind/{group}", $"\"{kind}\" has no measures of its own.");
                }
            }

            foreach (var missing in vocabulary.EventGroups.Where(g => load.AsKind is { } kinds && !kinds.ContainsKey(g.Id)))
            {
                Fault(file, $"{at}/asKind", $"{missing.Id} is missing.");
            }

            foreach (var measure in load.Measures)
            {
                foreach (var like in (measure.LikeByEvent?.Values ?? []).Append(measure.Like).Where(like => exercises.All(e => e.Id != like)))
                {
                    Fault(file, $"{at}/measures/{measure.Measure}", $"\"{like}\" is not an exercise.");
                }

                foreach (var region in measure.SidedRegions)
                {
                    Known(file, $"{at}/measures/{measure.Measure}/sidedRegions", region, vocabulary.Regions);
                }

                foreach (var eventId in measure.LikeByEvent?.Keys ?? [])
                {
                    Known(file, $"{at}/measures/{measure.Measure}/likeByEvent", eventId, vocabulary.Events);
                }
            }
        }
    }

    private void Session(SessionRules rules, IReadOnlyList<Exercise> exercises, ReturnRules returning)
    {
        const string file = "rules/session.json";
        if (rules.Picks.Usual > rules.Picks.Most)
        {
            Fault(file, "/picks", "usual is above most.");
        }

        if (rules.Objective.NthShare.Zip(rules.Objective.NthShare.Skip(1)).Any(x => x.Second > x.First))
        {
            Fault(file, "/objective/nthShare", "a share rises; returns only diminish.");
        }

        if (!rules.SoreBudgets.Steps.Select(s => s.PainAtMost).SequenceEqual(rules.SoreBudgets.Steps.Select(s => s.PainAtMost).Distinct().Order())
            || rules.SoreBudgets.Steps.Zip(rules.SoreBudgets.Steps.Skip(1)).Any(x => x.Second.Budget > x.First.Budget) || rules.SoreBudgets.Steps is not [.., { PainAtMost: 10 }])
        {
            Fault(file, "/soreBudgets/steps", "pain ascends to 10, budgets never rise.");
        }

        foreach (var kind in rules.Balance.Kinds.Where(k => k.Protective is { } id && returning.Protective?.Any(p => p.Id == id) != true))
        {
            Fault(file, $"/balance/kinds/{kind.Id}/protective", $"\"{kind.Protective}\" is not one of protective in rules/return.json.");
        }

        foreach (var (at, matches) in rules.Balance.Pairs.SelectMany(p => new[] { ($"/balance/pairs/{p.Id}/one", p.One), ($"/balance/pairs/{p.Id}/other", p.Other) })
            .Concat(rules.Balance.Kinds.Select(k => ($"/balance/kinds/{k.Id}", k.Matches))).Concat(rules.Blocks.Select((b, i) => ($"/blocks/{i}", b.Matches))))
        {
            foreach (var match in matches)
            {
                Match(file, at, match);
            }
        }

        foreach (var homeless in exercises.Where(e => !rules.Blocks.Any(b => b.Matches.Any(m => m.Holds(e)))))
        {
            Fault(file, "/blocks", $"{homeless.Id} belongs to no block.");
        }

        foreach (var station in rules.Supersets.Stations)
        {
            Known(file, "/supersets/stations", station, vocabulary.Equipment);
        }

        foreach (var (at, basis, source) in rules.Balance.Pairs.Select(p => ($"/balance/pairs/{p.Id}", p.Basis, p.Source)).Concat(rules.Balance.Kinds.Select(k => ($"/balance/kinds/{k.Id}", k.Basis, k.Source)))
            .Append(("/picks", rules.Picks.Basis, rules.Picks.Source)).Append(("/minutes", rules.Minutes.Basis, rules.Minutes.Source)).Append(("/changeOverSeconds", rules.ChangeOverSeconds.Basis, rules.ChangeOverSeconds.Source))
            .Append(("/objective", rules.Objective.Basis, rules.Objective.Source)).Append(("/smallerDose", rules.SmallerDose.Basis, rules.SmallerDose.Source)).Append(("/soreBudgets", rules.SoreBudgets.Basis, rules.SoreBudgets.Source))
            .Append(("/carryOver", rules.CarryOver.Basis, rules.CarryOver.Source)).Append(("/keep", rules.Keep.Basis, rules.Keep.Source)).Append(("/blocksBasis", rules.BlocksBasis.Basis, rules.BlocksBasis.Source))
            .Append(("/supersets", rules.Supersets.Basis, rules.Supersets.Source)).Append(("/balance/support", rules.Balance.Support.Basis, rules.Balance.Support.Source)))
        {
            Sourced(file, at, basis, source);
        }
    }
}
