namespace Recommender.Domain.Knowledge;

/// <content>Rules of the calendar: peaking, recovery, and the rest of the week.</content>
public sealed partial class KnowledgeChecks
{
    private void Peaking(PeakingRules rules)
    {
        const string file = "rules/peaking.json";
        foreach (var window in rules.Windows)
        {
            Match(file, $"/windows/{window.Id}", window.Match);
            Sourced(file, $"/windows/{window.Id}", window.Basis, window.Source);
            foreach (var group in window.EventGroups ?? [])
            {
                Known(file, $"/windows/{window.Id}/eventGroups", group, vocabulary.EventGroups);
            }
        }

        foreach (var window in rules.Recovery)
        {
            Match(file, $"/recovery/{window.Id}", window.Match);
            foreach (var other in (window.SharedWith ?? []).Where(id => rules.Recovery.All(w => w.Id != id)))
            {
                Fault(file, $"/recovery/{window.Id}/sharedWith", $"\"{other}\" is not one of these windows.");
            }

            Sourced(file, $"/recovery/{window.Id}", window.Basis, window.Source);
        }

        if (rules.Windows.Count > 64 || rules.Recovery.Count > 64)
        {
            Fault(file, "", "at most 64 windows of a kind.");
        }
    }

    private void Week(WeekRules rules)
    {
        const string file = "rules/week.json";
        if (rules.Kinds.All(k => k.Id != TrainingKind.Competition))
        {
            Fault(file, "/kinds", $"{TrainingKind.Competition} is missing; competitions are days of this kind.");
        }

        foreach (var rule in rules.Protections)
        {
            var at = $"/protections/{rule.Id}";
            Sourced(file, at, rule.Basis, rule.Source);
            foreach (var group in rule.EventGroups ?? [])
            {
                Known(file, $"{at}/eventGroups", group, vocabulary.EventGroups);
            }

            foreach (var match in rule.Matches)
            {
                Match(file, $"{at}/matches", match);
            }
        }

        foreach (var kind in rules.Protections.SelectMany(p => p.Kinds).Concat(rules.Advice.SelectMany(a => a.Kinds)).Distinct(StringComparer.Ordinal).Where(k => rules.Kinds.All(r => r.Id != k)))
        {
            Fault(file, "/kinds", $"\"{kind}\" is used by a rule, but is not one of the kinds.");
        }

        foreach (var slot in rules.Slots)
        {
            Sourced(file, $"/slots/{slot.Id}", slot.Basis, slot.Source);
            foreach (var match in slot.Refuses)
            {
                Match(file, $"/slots/{slot.Id}/refuses", match);
            }
        }

        foreach (var slot in rules.DoneBefore.Slots.Where(s => rules.Slots.All(r => r.Id != s)))
        {
            Fault(file, "/doneBefore/slots", $"\"{slot}\" is not one of the slots.");
        }

        if (rules.OnTheDay is { } day)
        {
            Sourced(file, "/onTheDay", day.Basis, day.Source);
            foreach (var slot in day.Slots.Where(s => rules.Slots.All(r => r.Id != s)))
            {
                Fault(file, "/onTheDay/slots", $"\"{slot}\" is not one of the slots.");
            }
        }

        if (rules.InTheTaper is { } taper)
        {
            Sourced(file, "/inTheTaper", taper.Basis, taper.Source);
        }

        foreach (var rule in rules.Taper)
        {
            Sourced(file, $"/taper/{rule.Id}", rule.Basis, rule.Source);
            foreach (var group in rule.EventGroups ?? [])
            {
                Known(file, $"/taper/{rule.Id}/eventGroups", group, vocabulary.EventGroups);
            }
        }

        foreach (var weeks in rules.PhaseWeeks.Where(p => p.From > p.To))
        {
            Fault(file, "/phaseWeeks", $"{weeks.Phase} runs from {weeks.From} to {weeks.To}; from is at most to.");
        }

        foreach (var (at, basis, source) in rules.Advice.Select(a => ($"/advice/{a.Id}", a.Basis, a.Source)).Concat(rules.WeekKinds.Select(w => ($"/weekKinds/{w.Id}", w.Basis, w.Source)))
            .Append(("/kindsBasis", rules.KindsBasis.Basis, rules.KindsBasis.Source)).Append(("/competitions", rules.Competitions.Basis, rules.Competitions.Source)))
        {
            Sourced(file, at, basis, source);
        }

        if (rules.Protections.Count > 64 || rules.Slots.Count > 64)
        {
            Fault(file, "", "at most 64 protections and 64 slots.");
        }
    }
}
