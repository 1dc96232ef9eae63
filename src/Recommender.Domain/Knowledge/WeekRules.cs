using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/week.json: what the calendar and the rest of the week allow, and how they change the dose.</summary>
/// <param name="Kinds">Kinds of training and from which effort each is a hard day.</param>
/// <param name="KindsBasis">Where those efforts come from.</param>
/// <param name="Protections">What is kept away from hard days ahead; at most 64.</param>
/// <param name="DoneBefore">In which slots today's track work is done already.</param>
/// <param name="Slots">What a session of a kind refuses, and its share of the usual sets.</param>
/// <param name="Advice">Cautions where such work stands on the same day.</param>
/// <param name="WeekKinds">Kinds of week and their share of the usual sets.</param>
/// <param name="Competitions">Which competition the peak is for.</param>
/// <param name="PhaseWeeks">Weeks to the competition in which each phase is usual.</param>
/// <param name="PhaseWeeksBasis">Where those weeks come from.</param>
/// <param name="Taper">From when on the volume is that of the taper.</param>
/// <param name="OnTheDay">What a dose says of the weeks after on the day of a competition. Null: what it always says.</param>
/// <param name="InTheTaper">What a dose says of the weeks after while the volume is that of the taper. Null: what it always says.</param>
public sealed record WeekRules(
    IReadOnlyList<TrainingKind> Kinds, RuleBasis KindsBasis, IReadOnlyList<ProtectedDay> Protections, DoneBefore DoneBefore, IReadOnlyList<SlotRule> Slots, IReadOnlyList<DayAdvice> Advice,
    IReadOnlyList<WeekKindRule> WeekKinds, PeakRule Competitions, IReadOnlyList<PhaseWeeks> PhaseWeeks, RuleBasis PhaseWeeksBasis, IReadOnlyList<TaperRule> Taper, OnTheDayRule? OnTheDay = null, TaperWords? InTheTaper = null);

/// <summary>On the day of a competition nothing is built: a dose stands for today alone.</summary>
/// <param name="Slots">In these slots.</param>
/// <param name="WeeksBelow">And, whatever the slot, with fewer weeks left than this.</param>
/// <param name="Progression">Said in place of how to go on.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record OnTheDayRule(IReadOnlyList<string> Slots, decimal WeeksBelow, string Progression, string Note, Basis Basis, string? Source = null);

/// <summary>Basis of a group of numbers.</summary>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where they come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record RuleBasis(string Note, Basis Basis, string? Source = null);

/// <summary>A kind of training.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Label">In a sentence.</param>
/// <param name="HardFromEffort">Effort of 10 from which it makes a hard day; 0: whatever is said; null: never.</param>
public sealed record TrainingKind(string Id, string Label, decimal? HardFromEffort)
{
    /// <summary>The kind that competitions are days of.</summary>
    public const string Competition = "competition";
}

/// <summary>Exercises that are kept away from hard days.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Kinds">Kinds of hard day it protects.</param>
/// <param name="DaysBelow">Holds while the day is fewer days ahead than this; 1 is the same day only.</param>
/// <param name="Matches">Exercises that one of these is about.</param>
/// <param name="Note">Why, for the explanation.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="EventGroups">Groups it holds for; null for all.</param>
public sealed record ProtectedDay(string Id, IReadOnlyList<string> Kinds, int DaysBelow, IReadOnlyList<ExerciseMatch> Matches, string Note, Basis Basis, string? Source = null,
    IReadOnlyList<string>? EventGroups = null);

/// <summary>Slots that come after the day's track work.</summary>
/// <param name="Slots">Slot ids.</param>
/// <param name="Note">Why.</param>
public sealed record DoneBefore(IReadOnlyList<string> Slots, string Note);

/// <summary>What a session of a kind refuses.</summary>
/// <param name="Id">Slot id.</param>
/// <param name="Refuses">Exercises that one of these is about.</param>
/// <param name="SetsShare">Share of the usual sets, above 0 to 1.</param>
/// <param name="Note">Why, for the explanation.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SlotRule(string Id, IReadOnlyList<ExerciseMatch> Refuses, decimal SetsShare, string Note, Basis Basis, string? Source = null);

/// <summary>A caution beside picks on a day with other work.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Kinds">Kinds of work on the same day.</param>
/// <param name="LoadBands">Only beside picks of these load bands.</param>
/// <param name="Note">The caution.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record DayAdvice(string Id, IReadOnlyList<string> Kinds, IReadOnlyList<LoadBand> LoadBands, string Note, Basis Basis, string? Source = null);

/// <summary>A kind of week.</summary>
/// <param name="Id">build, hold or unload.</param>
/// <param name="SetsShare">Share of the usual sets, above 0 to 1.</param>
/// <param name="Note">Why, for the dose.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record WeekKindRule(string Id, decimal SetsShare, string Note, Basis Basis, string? Source = null);

/// <summary>Which competition the peak is for.</summary>
/// <param name="PeaksFor">Priorities, first one first.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PeakRule(IReadOnlyList<string> PeaksFor, string Note, Basis Basis, string? Source = null);

/// <summary>Weeks to the competition in which a phase is usual.</summary>
/// <param name="Phase">Phase.</param>
/// <param name="From">Fewest.</param>
/// <param name="To">Most.</param>
public sealed record PhaseWeeks(Phase Phase, decimal From, decimal To);

/// <summary>What a dose says of the weeks after while the volume is that of the taper.</summary>
/// <param name="Progression">In place of how to go on next week.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record TaperWords(string Progression, string Note, Basis Basis, string? Source = null);

/// <summary>From when on the volume is that of the taper, while load and sessions stay those of the phase.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Phases">Phases it holds in.</param>
/// <param name="WeeksBelow">Holds while fewer weeks than this are left.</param>
/// <param name="Note">Why, for the dose.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="EventGroups">Groups it holds for; null for all.</param>
public sealed record TaperRule(string Id, IReadOnlyList<Phase> Phases, decimal WeeksBelow, string Note, Basis Basis, string? Source = null, IReadOnlyList<string>? EventGroups = null);
