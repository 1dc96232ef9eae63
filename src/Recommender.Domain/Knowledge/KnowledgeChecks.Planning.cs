namespace Recommender.Domain.Knowledge;

/// <content>What a season and a group's session are laid out from.</content>
public sealed partial class KnowledgeChecks
{
    private void Planning(PlanningRules rules, WeekRules week)
    {
        const string file = "rules/planning.json";
        var phases = rules.Season.Phases;
        for (var i = 0; i < phases.Count; i++)
        {
            var at = $"/season/phases/{i}";
            if (phases.Take(i).Any(p => p.Phase == phases[i].Phase))
            {
                Fault(file, at + "/phase", $"{phases[i].Phase} stands twice; give it once.");
            }

            // A plan whose first week of a phase draws the caution that the phase does not fit the date would argue with itself.
            var start = phases.Skip(i).Sum(p => p.Weeks);
            if (week.PhaseWeeks.FirstOrDefault(p => p.Phase == phases[i].Phase) is { } usual && (start < usual.From || start > usual.To))
            {
                Fault(file, at + "/weeks", $"the phase would begin {start} weeks before the competition; rules/week.json calls {usual.From} to {usual.To} usual.");
            }
        }

        foreach (var id in rules.Stations.Equipment.Where(e => !vocabulary.Equipment.Has(e)))
        {
            Fault(file, "/stations/equipment", $"\"{id}\" is not equipment of the vocabulary.");
        }

        Sourced(file, "/season", rules.Season.Basis, rules.Season.Source);
        Sourced(file, "/sharing", rules.Sharing.Basis, rules.Sharing.Source);
        Sourced(file, "/stations", rules.Stations.Basis, rules.Stations.Source);
    }
}
