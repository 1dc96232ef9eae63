using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>When a difference between the sides counts: beyond error, in several tests of a group, and not the event's habit.</summary>
/// <param name="Groups">Tests that can bear each other out.</param>
/// <param name="Rules">Differences, one a test.</param>
/// <param name="Habits">Differences that events bring with them.</param>
/// <param name="LeastTests">How many tests of a group must show the same weaker side.</param>
/// <param name="ExtraSets">Most extra sets on the weaker side.</param>
public sealed record SideRules(IReadOnlyList<SideGroup> Groups, IReadOnlyList<SideRule> Rules, IReadOnlyList<SideHabit> Habits, RuleNumber LeastTests, RuleNumber ExtraSets);

/// <summary>Tests of one limb that can bear each other out.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Limb">leg, arm or trunk.</param>
/// <param name="Label">The limb within a sentence, after left or right.</param>
/// <param name="Lower">What the side with the lower readings is called: weaker or stiffer.</param>
/// <param name="Regions">Regions of the limb; a complaint there comes before a difference.</param>
public sealed record SideGroup(string Id, string Limb, string Label, string Lower, IReadOnlyList<string> Regions);

/// <summary>The difference of one test.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Of">Test or derived measure with sides.</param>
/// <param name="Measure">Derived measure that the difference is shown as.</param>
/// <param name="Kind">percent: 100 less the symmetry index; difference: in the unit of the test.</param>
/// <param name="Group">Group id.</param>
/// <param name="Bound">Counts above this.</param>
/// <param name="MeasurementError">Counts above this as well.</param>
/// <param name="Raises">Quality to added weight, before scaling to 1.</param>
/// <param name="Note">What it suggests.</param>
/// <param name="Basis">Basis of the bound.</param>
/// <param name="Source">Source id of the bound, or null.</param>
/// <param name="ErrorBasis">Basis of the error.</param>
/// <param name="ErrorSource">Source id of the error, or null.</param>
public sealed record SideRule(string Id, string Of, string Measure, string Kind, string Group, decimal Bound, decimal MeasurementError, IReadOnlyDictionary<string, decimal> Raises,
    string Note, Basis Basis, string? Source = null, Basis ErrorBasis = Basis.CommonPractice, string? ErrorSource = null);

/// <summary>A stronger side that an event brings with it.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Events">Events it holds for.</param>
/// <param name="Limb">leg, arm or trunk.</param>
/// <param name="Stronger">left or right; or the athlete's fact that says: take-off-leg, opposite-take-off-leg, opposite-lead-leg, throwing-side, opposite-throwing-side, start-front-foot.</param>
/// <param name="Ask">Whether a difference is left alone until the fact is known.</param>
/// <param name="Note">In a sentence.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SideHabit(string Id, IReadOnlyList<string> Events, string Limb, string Stronger, bool Ask, string Note, Basis Basis, string? Source = null);
