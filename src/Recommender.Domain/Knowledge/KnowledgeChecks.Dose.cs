using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <content>Rules of the dose.</content>
public sealed partial class KnowledgeChecks
{
    private void Dose(DoseRules rules, IReadOnlyList<Exercise> exercises)
    {
        const string file = "rules/dose.json";
        foreach (var quality in vocabulary.Qualities.Where(q => !rules.Goals.ContainsKey(q.Id)))
        {
            Fault(file, "/goals", $"{quality.Id} has no goal.");
        }

        foreach (var row in rules.Rows)
        {
            Six(file, $"/rows/{row.Id}/sets", row.Sets.Count);
            Six(file, $"/rows/{row.Id}/amount", row.Amount.Count);
            Six(file, $"/rows/{row.Id}/sessionsPerWeek", row.SessionsPerWeek.Count);
            Known(file, $"/rows/{row.Id}/intensity/kind", row.Intensity.Kind, vocabulary.IntensityKinds);
            Sourced(file, $"/rows/{row.Id}", row.Basis, row.Source);
            if (row.Match is { } match)
            {
                Match(file, $"/rows/{row.Id}/match", match);
            }

            foreach (var goal in row.Goals.Where(g => !rules.Goals.Values.Contains(g, StringComparer.Ordinal)))
            {
                Fault(file, $"/rows/{row.Id}/goals", $"no quality has the goal \"{goal}\".");
            }
        }

        foreach (var goal in rules.Goals.Values.Distinct(StringComparer.Ordinal).Where(g => !rules.Intents.ContainsKey(g)))
        {
            Fault(file, "/intents", $"{goal} has no intent.");
        }

        foreach (var (rule, i) in (rules.IntentsInstead ?? []).Select((r, i) => (r, i)))
        {
            if (!rules.Intents.ContainsKey(rule.Intent))
            {
                Fault(file, $"/intentsInstead/{i}/intent", $"\"{rule.Intent}\" is not one of the intents.");
            }

            foreach (var goal in rule.Goals.Where(g => !rules.Goals.Values.Contains(g, StringComparer.Ordinal)))
            {
                Fault(file, $"/intentsInstead/{i}/goals", $"\"{goal}\" is the goal of no quality.");
            }

            if (rule.Match is { } match)
            {
                Match(file, $"/intentsInstead/{i}/match", match);
            }
        }

        foreach (var row in rules.Rows.Where(r => r.WarmUp is { } id && rules.WarmUps.All(w => w.Id != id)))
        {
            Fault(file, $"/rows/{row.Id}/warmUp", $"\"{row.WarmUp}\" is not one of the warm-ups.");
        }

        Contacts(file, rules.Contacts);
        Sourced(file, "/kit", rules.Kit.Basis, rules.Kit.Source);
        Sourced(file, "/kit/repsSource", Basis.Published, rules.Kit.RepsSource);
        if (!rules.Kit.RepsAtPercent.OrderBy(r => r.Key).Select(r => r.Value).SequenceEqual(rules.Kit.RepsAtPercent.Values.OrderDescending()))
        {
            Fault(file, "/kit/repsAtPercent", "fewer repetitions at a lighter load; they only rise as the load falls.");
        }

        foreach (var ratio in rules.LoadRatios)
        {
            foreach (var id in new[] { ratio.Exercise, ratio.Of }.Where(id => exercises.All(e => e.Id != id)))
            {
                Fault(file, "/loadRatios", $"\"{id}\" is not in the catalogue.");
            }
        }

        // A row without conditions must stand for every goal and unit, so that every pick can be dosed.
        var net = rules.Rows.Where(r => r is { Match: null, EventGroups: null, MinAgeYears: null, MinTrainingAgeYears: null, SoreRegions: null }).ToList();
        foreach (var goal in rules.Goals.Values.Distinct(StringComparer.Ordinal))
        {
            foreach (var unit in Enum.GetValues<DoseUnit>().Where(u => !net.Exists(r => r.Goals.Contains(goal, StringComparer.Ordinal) && r.Units.Contains(u))))
            {
                Fault(file, "/rows", $"no row without conditions doses {goal} in {unit}; add one at the end.");
            }
        }
    }

    private void Contacts(string file, ContactRules rules)
    {
        if (rules.Limits[0].FromTrainingAgeYears != 0 || rules.Limits.Zip(rules.Limits.Skip(1)).Any(x => x.Second.FromTrainingAgeYears <= x.First.FromTrainingAgeYears || x.Second.Most < x.First.Most))
        {
            Fault(file, "/contacts/limits", "must start at 0 years and ascend, in years and in landings.");
        }

        Sourced(file, "/contacts", rules.Basis, rules.Source);
        Sourced(file, "/contacts/youth", rules.Youth.Basis, rules.Youth.Source);
        foreach (var match in rules.NotCounted)
        {
            Match(file, "/contacts/notCounted", match);
        }

        foreach (var kind in rules.Classes)
        {
            Sourced(file, $"/contacts/classes/{kind.Id}", kind.Basis, kind.Source);
            foreach (var match in kind.Matches)
            {
                Match(file, $"/contacts/classes/{kind.Id}/matches", match);
            }
        }
    }
}
