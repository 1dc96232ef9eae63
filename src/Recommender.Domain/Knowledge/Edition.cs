using System.Collections.Frozen;
using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>One catalogue and one set of rules, as published together; an answer is made wholly on one edition. Immutable.</summary>
public sealed class Edition
{
    private readonly FrozenDictionary<string, EventEmphasis[]> emphases;

    /// <param name="catalogue">Checked catalogue.</param>
    /// <param name="knowledge">Checked rules.</param>
    /// <param name="catalogueVersion">Content hash of vocabulary, sources, exercises and tissue-load models.</param>
    /// <param name="rulesVersion">Content hash of event profiles, rules and tests.</param>
    public Edition(ExerciseCatalogue catalogue, KnowledgeBase knowledge, string catalogueVersion, string rulesVersion)
    {
        Catalogue = catalogue;
        Knowledge = knowledge;
        CatalogueVersion = catalogueVersion;
        RulesVersion = rulesVersion;
        PeakingMasks = Masks(knowledge.Peaking.Windows.Select(w => w.Match));
        RecoveryMasks = Masks(knowledge.Peaking.Recovery.Select(w => w.Match));
        RecoveryShared = [.. knowledge.Peaking.Recovery.Select(w => knowledge.Peaking.Recovery.Select((other, i) => w.SharedWith?.Contains(other.Id, StringComparer.Ordinal) == true ? 1UL << i : 0).Aggregate(0UL, (all, bit) => all | bit))];
        WeekMasks = Masks(knowledge.Week.Protections.Select(p => p.Matches));
        SlotMasks = Masks(knowledge.Week.Slots.Select(s => s.Refuses));
        AgeMasks = Masks(knowledge.Competence.Ages.Select(a => a.Match));
        ProvocationMasks = Masks(knowledge.Provocation.Rules.Select(r => r.Match));
        LayoffMasks = Masks((knowledge.Returning.LayoffHolds ?? []).Select(h => h.Refuses));
        ClearanceMasks = Masks(knowledge.Returning.Clearances.SelectMany(c => c.Holds));
        emphases = knowledge.EventGroups
            .SelectMany(g => g.Events.Select(e => KeyValuePair.Create(e.Event, Enum.GetValues<Phase>().Select(p => EventEmphasis.Of(e, g.PhaseEmphasis, p, catalogue.Vocabulary)).ToArray())))
            .ToFrozenDictionary(StringComparer.Ordinal);
        DoseTable = new DoseTable(knowledge.Dose, catalogue);
    }

    /// <summary>Catalogue.</summary>
    public ExerciseCatalogue Catalogue { get; }

    /// <summary>Rules.</summary>
    public KnowledgeBase Knowledge { get; }

    /// <summary>Content hash of the catalogue.</summary>
    public string CatalogueVersion { get; }

    /// <summary>Content hash of the rules.</summary>
    public string RulesVersion { get; }

    /// <summary>[exercise] bit per peaking window that is about it.</summary>
    public ulong[] PeakingMasks { get; }

    /// <summary>[exercise] bit per recovery window that is about it.</summary>
    public ulong[] RecoveryMasks { get; }

    /// <summary>[recovery window] bits of the windows whose work counts as the same; 0 for the family alone.</summary>
    public ulong[] RecoveryShared { get; }

    /// <summary>[exercise] bit per protection of hard days that is about it.</summary>
    public ulong[] WeekMasks { get; }

    /// <summary>[exercise] bit per slot that refuses it.</summary>
    public ulong[] SlotMasks { get; }

    /// <summary>[exercise] bit per hold after time off that is about it.</summary>
    public ulong[] LayoffMasks { get; }

    /// <summary>[exercise] bit per age rule that is about it.</summary>
    public ulong[] AgeMasks { get; }

    /// <summary>[exercise] bit per provocation rule that is about it.</summary>
    public ulong[] ProvocationMasks { get; }

    /// <summary>[exercise] bit per kind of exercise that a clearance still leaves out, clearance after clearance.</summary>
    public ulong[] ClearanceMasks { get; }

    /// <summary>Which dose row an exercise gets.</summary>
    public DoseTable DoseTable { get; }

    /// <summary>What an event asks for in a phase.</summary>
    public EventEmphasis EmphasisOf(string eventId, Phase phase) => emphases[eventId][(int)phase];

    private ulong[] Masks(IEnumerable<ExerciseMatch> matches) => Masks(matches.Select(m => (IReadOnlyList<ExerciseMatch>)[m]));

    private ulong[] Masks(IEnumerable<IReadOnlyList<ExerciseMatch>> matches)
    {
        var masks = new ulong[Catalogue.Count];
        foreach (var (any, bit) in matches.Select((m, i) => (m, i)))
        {
            for (var e = 0; e < masks.Length; e++)
            {
                masks[e] |= any.Any(m => m.Holds(Catalogue.Exercises[e])) ? 1UL << bit : 0;
            }
        }

        return masks;
    }
}
