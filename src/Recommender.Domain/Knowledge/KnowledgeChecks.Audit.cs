namespace Recommender.Domain.Knowledge;

/// <content>Rules of audit.</content>
public sealed partial class KnowledgeChecks
{
    /// <summary>Kinds whose changes are counted in steps, so that somebody must say where to stop.</summary>
    private static readonly string[] Stepped = ["weeks", "pain"];

    private void Audit(AuditRules rules)
    {
        const string file = "rules/audit.json";
        if (rules.Counterfactuals.OfferedBasis is { } offered)
        {
            Sourced(file, "/counterfactuals/offeredBasis", offered.Basis, offered.Source);
        }

        for (var i = 0; i < rules.Counterfactuals.Edits.Count; i++)
        {
            var edit = rules.Counterfactuals.Edits[i];
            var at = $"/counterfactuals/edits/{i}";
            if (rules.Counterfactuals.Edits.Take(i).Any(e => e.Kind == edit.Kind))
            {
                Fault(file, at + "/kind", $"{edit.Kind} stands twice; give it once.");
            }

            if (edit.Most is null == Stepped.Contains(edit.Kind, StringComparer.Ordinal))
            {
                Fault(file, at + "/most", edit.Most is null ? $"{edit.Kind} goes by steps; say how many are tried at most." : $"{edit.Kind} has no steps; leave it null.");
            }

            Sourced(file, at, edit.Basis, edit.Source);
        }

        Sourced(file, "/sensitivity", rules.Sensitivity.Basis, rules.Sensitivity.Source);
        if (rules.Coverage is { } coverage)
        {
            Coverage(file, coverage);
        }
    }

    private void Coverage(string file, CoverageRules rules)
    {
        for (var i = 0; i < rules.Places.Count; i++)
        {
            var (place, equipment) = rules.Places[i];
            Known(file, $"/coverage/places/{i}/place", place, vocabulary.Places);
            if (rules.Places.Take(i).Any(p => p.Place == place))
            {
                Fault(file, $"/coverage/places/{i}/place", $"{place} stands twice; the report tells places apart by id.");
            }

            for (var e = 0; e < (equipment?.Count ?? 0); e++)
            {
                Known(file, $"/coverage/places/{i}/equipment/{e}", equipment![e], vocabulary.Equipment);
            }
        }

        for (var i = 0; i < rules.Complaints.Count; i++)
        {
            Known(file, $"/coverage/complaints/{i}", rules.Complaints[i], vocabulary.Regions);
        }

        Sourced(file, "/coverage", rules.Basis, rules.Source);
    }
}
