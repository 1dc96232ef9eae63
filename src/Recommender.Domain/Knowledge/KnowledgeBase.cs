using System.Collections.Frozen;

namespace Recommender.Domain.Knowledge;

/// <summary>All rules on which answers are made, beside the catalogue. Immutable.</summary>
public sealed class KnowledgeBase
{
    private readonly FrozenDictionary<string, EventProfile> profiles;
    private readonly FrozenDictionary<string, EventGroupProfile> groups;
    private readonly FrozenDictionary<string, PainLimit> painLimits;
    private readonly FrozenDictionary<string, Programme> byRegion;
    private readonly FrozenDictionary<string, TissueRule> tissueRules;

    /// <summary>Gathers knowledge that passed the knowledge checks.</summary>
    public KnowledgeBase(IReadOnlyList<Source> sources, IReadOnlyList<EventGroupProfile> eventGroups, NeedRules needs, PainRules pain, PeakingRules peaking,
        WeekRules week, CompetenceRules competence, ScoringRules scoring, DoseRules dose, DefaultRules defaults, TestBattery tests, ProvocationRules provocation,
        ProgrammeRules programmes, ReturnRules returning, SubstitutionRules substitution, LedgerRules ledger, SessionRules session, AuditRules audit, QuestionRules questions, PlanningRules? planning, OutcomeRules? outcomes)
    {
        Sources = sources;
        EventGroups = eventGroups;
        Needs = needs;
        Pain = pain;
        Peaking = peaking;
        Week = week;
        Competence = competence;
        Scoring = scoring;
        Dose = dose;
        Ledger = ledger;
        Session = session;
        Audit = audit;
        Questions = questions;
        Planning = planning;
        Outcomes = outcomes;
        Defaults = defaults;
        Tests = tests;
        Provocation = provocation;
        Programmes = programmes;
        Returning = returning;
        Substitution = substitution;
        Measures = new MeasureIndex(tests);
        groups = eventGroups.ToFrozenDictionary(g => g.EventGroup, StringComparer.Ordinal);
        profiles = eventGroups.SelectMany(g => g.Events).ToFrozenDictionary(e => e.Event, StringComparer.Ordinal);
        byRegion = programmes.Programmes.SelectMany(p => p.Regions.Select(r => KeyValuePair.Create(r, p))).ToFrozenDictionary(StringComparer.Ordinal);
        tissueRules = pain.Tissues.ToFrozenDictionary(t => t.Id, StringComparer.Ordinal);
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

    /// <summary>Rules for the calendar and the rest of the week.</summary>
    public WeekRules Week { get; }

    /// <summary>Rules for competence and age.</summary>
    public CompetenceRules Competence { get; }

    /// <summary>Rules for points.</summary>
    public ScoringRules Scoring { get; }

    /// <summary>Rules for dose.</summary>
    public DoseRules Dose { get; }

    /// <summary>Rules for adding up work on a tissue.</summary>
    public LedgerRules Ledger { get; }

    /// <summary>Rules for sessions chosen as a whole.</summary>
    public SessionRules Session { get; }

    /// <summary>Rules for asking a decision again.</summary>
    public AuditRules Audit { get; }

    /// <summary>Which red flags a person is asked about.</summary>
    public QuestionRules Questions { get; }

    /// <summary>What a season and a group's session are laid out from; null in rules that were published before there were any.</summary>
    public PlanningRules? Planning { get; }

    /// <summary>What is learned from outcomes; null in rules that were published before there were any: nothing is then.</summary>
    public OutcomeRules? Outcomes { get; }

    /// <summary>What is taken when a request leaves it out.</summary>
    public DefaultRules Defaults { get; }

    /// <summary>Tests and thresholds.</summary>
    public TestBattery Tests { get; }

    /// <summary>What provokes a complaint, by kind of exercise.</summary>
    public ProvocationRules Provocation { get; }

    /// <summary>Staged loading of sore regions.</summary>
    public ProgrammeRules Programmes { get; }

    /// <summary>Earlier injuries, time off and clearances.</summary>
    public ReturnRules Returning { get; }

    /// <summary>How alike exercises are, and how a dose carries over.</summary>
    public SubstitutionRules Substitution { get; }

    /// <summary>Definitions of tests and derived measures by id.</summary>
    public MeasureIndex Measures { get; }

    /// <summary>The profile of an event.</summary>
    /// <exception cref="KeyNotFoundException">The event is not in the vocabulary.</exception>
    public EventProfile ProfileOf(string eventId) => profiles[eventId];

    /// <summary>The profile of an event group.</summary>
    /// <exception cref="KeyNotFoundException">The group is not in the vocabulary.</exception>
    public EventGroupProfile GroupOf(string eventGroup) => groups[eventGroup];

    /// <summary>The pain limits of a region; a complaint-only region has none of its own.</summary>
    public PainLimit? PainLimitOf(string region) => painLimits.GetValueOrDefault(region);

    /// <summary>The staged programme of a region, or null when it has none.</summary>
    public Programme? ProgrammeOf(string region) => byRegion.GetValueOrDefault(region);

    /// <summary>One stage of a region's programme, or null when it has none.</summary>
    public ProgrammeStage? ProgrammeOf(string region, LoadingStage stage) => ProgrammeOf(region)?.Stages[(int)stage];

    /// <summary>What a tissue adds.</summary>
    /// <exception cref="KeyNotFoundException">The tissue is not in the vocabulary.</exception>
    public TissueRule TissueRuleOf(string tissue) => tissueRules[tissue];
}
