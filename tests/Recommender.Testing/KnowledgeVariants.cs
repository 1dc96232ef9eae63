using Recommender.Domain.Knowledge;

namespace Recommender.Testing;

/// <summary>Rules that differ from others in one part.</summary>
public static class KnowledgeVariants
{
    /// <summary>The same rules with the parts that are given.</summary>
    public static KnowledgeBase With(this KnowledgeBase k, IReadOnlyList<Source>? sources = null, IReadOnlyList<EventGroupProfile>? eventGroups = null, NeedRules? needs = null,
        PainRules? pain = null, PeakingRules? peaking = null, WeekRules? week = null, CompetenceRules? competence = null, ScoringRules? scoring = null, DoseRules? dose = null,
        DefaultRules? defaults = null, TestBattery? tests = null, ProvocationRules? provocation = null, ProgrammeRules? programmes = null, ReturnRules? returning = null, SubstitutionRules? substitution = null,
        LedgerRules? ledger = null, SessionRules? session = null, AuditRules? audit = null, QuestionRules? questions = null, PlanningRules? planning = null, OutcomeRules? outcomes = null) =>
        new(sources ?? k.Sources, eventGroups ?? k.EventGroups, needs ?? k.Needs, pain ?? k.Pain, peaking ?? k.Peaking, week ?? k.Week, competence ?? k.Competence, scoring ?? k.Scoring,
            dose ?? k.Dose, defaults ?? k.Defaults, tests ?? k.Tests, provocation ?? k.Provocation, programmes ?? k.Programmes, returning ?? k.Returning, substitution ?? k.Substitution, ledger ?? k.Ledger, session ?? k.Session, audit ?? k.Audit, questions ?? k.Questions, planning ?? k.Planning, outcomes ?? k.Outcomes);

    /// <summary>The same rules with one event profile changed.</summary>
    public static KnowledgeBase WithProfile(this KnowledgeBase k, string eventId, Func<EventProfile, EventProfile> change) =>
        k.With(eventGroups: [.. k.EventGroups.Select(g => g with { Events = [.. g.Events.Select(e => e.Event == eventId ? change(e) : e)] })]);

    /// <summary>The same rules with one event group changed.</summary>
    public static KnowledgeBase WithGroup(this KnowledgeBase k, string group, Func<EventGroupProfile, EventGroupProfile> change) =>
        k.With(eventGroups: [.. k.EventGroups.Select(g => g.EventGroup == group ? change(g) : g)]);
}
