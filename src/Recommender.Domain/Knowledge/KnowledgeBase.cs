using System.Collections.Frozen;

namespace Recommender.Domain.Knowledge;

/// <summary>All rules on which answers are made, beside the catalogue. Immutable.</summary>
public sealed class KnowledgeBase
{
    private readonly FrozenDictionary<string, EventProfile> profiles;
    private readonly FrozenDictionary<string, EventGroupProfile> groups;
    private readonly FrozenDictionary<string, PainLimit> painLimits;
    private readonly FrozenDictionary<string, Source> sources;

    /// <summary>Gathers knowledge that passed the knowledge checks.</summary>
    public KnowledgeBase(IReadOnlyList<Source> sources, IReadOnlyList<EventGroupProfile> eventGroups, NeedRules needs, PainRules pain, PeakingRules peaking,
        CompetenceRules competence, ScoringRules scoring, DoseRules dose, DefaultRules defaults, TestBattery tests)
    {
        Sources = sources;
        EventGroups = eventGroups;
        Needs = needs;
        Pain = pain;
        Peaking = peaking;
        Competence = competence;
        Scoring = scoring;
        Dose = dose;
        Defaults = defaults;
        Tests = tests;
        this.sources = sources.ToFrozenDictionary(s => s.Id, StringComparer.Ordinal);
        groups = eventGroups.ToFrozenDictionary(g => g.EventGroup, StringComparer.Ordinal);
        profiles = eventGroups.SelectMany(g => g.Events).ToFrozenDictionary(e => e.Event, StringComparer.Ordinal);
        painLimits = pain.Limits.SelectMany(l => l.Regions.Select(r => KeyValuePair.Create(r, l))).ToFrozenDictionary(StringComparer.Ordinal);
    }

    /// <summary>Publications.</summary>
    public IReadOnlyList<Source> Sources { get; }

    /// <summary>Event profiles by group.</summary>
    public IReadOnlyList<EventGroupProfile> EventGroups { get; }

    /// <summary>Rules for needs.</summary>
    public NeedRules Needs { get; }

    /// <summary>Rules for pain.</summary>
    public PainRules Pain { get; }

    /// <summary>Rules for peaking and recovery.</summary>
    public PeakingRules Peaking { get; }

    /// <summary>Rules for competence and age.</summary>
    public CompetenceRules Competence { get; }

    /// <summary>Rules for points.</summary>
    public ScoringRules Scoring { get; }

    /// <summary>Rules for dose.</summary>
    public DoseRules Dose { get; }

    /// <summary>What is taken when a request leaves it out.</summary>
    public DefaultRules Defaults { get; }

    /// <summary>Tests and thresholds.</summary>
    public TestBattery Tests { get; }

    /// <summary>The profile of an event.</summary>
    /// <exception cref="KeyNotFoundException">The event is not in the vocabulary.</exception>
    public EventProfile ProfileOf(string eventId) => profiles[eventId];

    /// <summary>The profile of an event group.</summary>
    /// <exception cref="KeyNotFoundException">The group is not in the vocabulary.</exception>
    public EventGroupProfile GroupOf(string eventGroup) => groups[eventGroup];

    /// <summary>The pain limits of a region; a complaint-only region has none of its own.</summary>
    public PainLimit? PainLimitOf(string region) => painLimits.GetValueOrDefault(region);

    /// <summary>The source with this id, or null.</summary>
    public Source? SourceOf(string id) => sources.GetValueOrDefault(id);
}
