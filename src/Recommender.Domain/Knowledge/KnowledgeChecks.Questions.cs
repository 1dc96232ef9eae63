namespace Recommender.Domain.Knowledge;

/// <content>Which red flags a person is asked about.</content>
public sealed partial class KnowledgeChecks
{
    private void Questions(QuestionRules rules)
    {
        const string file = "rules/questions.json";
        for (var i = 0; i < rules.Sets.Count; i++)
        {
            var set = rules.Sets[i];
            foreach (var region in set.Regions.Where(r => !vocabulary.Regions.Has(r)))
            {
                faults.Add(new KnowledgeFault(file, $"/sets/{i}/regions", $"\"{region}\" is not a region of the vocabulary."));
            }

            foreach (var flag in set.Flags.Append(set.Growing).OfType<string>().Where(f => !vocabulary.RedFlags.Has(f)))
            {
                faults.Add(new KnowledgeFault(file, $"/sets/{i}", $"\"{flag}\" is not a red flag of the vocabulary."));
            }
        }

        foreach (var flag in rules.General.Where(f => !vocabulary.RedFlags.Has(f)))
        {
            faults.Add(new KnowledgeFault(file, "/general", $"\"{flag}\" is not a red flag of the vocabulary."));
        }

        foreach (var region in vocabulary.Regions.Where(r => rules.Sets.Sum(s => s.Regions.Count(x => x == r.Id)) != 1))
        {
            faults.Add(new KnowledgeFault(file, "/sets", $"{region.Id} stands in {rules.Sets.Count(s => s.Regions.Contains(region.Id, StringComparer.Ordinal))} sets; every region that can hurt stands in exactly one."));
        }

        if (rules.Source is { } source && !sources.Contains(source))
        {
            faults.Add(new KnowledgeFault(file, "/source", $"\"{source}\" is not in sources.json."));
        }
    }
}
