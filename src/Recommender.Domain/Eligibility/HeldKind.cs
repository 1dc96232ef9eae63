using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>A kind of exercise that is held for a region.</summary>
/// <param name="Bit">Bit of its rule in the edition's provocation masks.</param>
/// <param name="Region">Position of the sore region.</param>
/// <param name="LeastHundredths">Held only from this upper load on the region on, hundredths.</param>
/// <param name="Rule">The rule.</param>
public readonly record struct HeldKind(ulong Bit, int Region, int LeastHundredths, ProvocationRule Rule)
{
    /// <summary>Adds the kinds with these rule ids that are about a region, in the order of the rules.</summary>
    internal static void Add(Situation situation, IReadOnlyList<string> ids, RegionTerm region, List<HeldKind> held)
    {
        if (ids.Count == 0)
        {
            return;
        }

        var rules = situation.Knowledge.Provocation.Rules;
        for (var i = 0; i < rules.Count; i++)
        {
            if (ids.Contains(rules[i].Id, StringComparer.Ordinal) && rules[i].IsAbout(region.Id))
            {
                held.Add(new HeldKind(1UL << i, situation.Catalogue.Vocabulary.Regions.IndexOf(region.Id), (int)decimal.Round(rules[i].SoreLoadAtLeast * 100), rules[i]));
            }
        }
    }
}
