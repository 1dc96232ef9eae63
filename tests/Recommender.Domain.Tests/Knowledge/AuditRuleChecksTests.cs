using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

/// <summary>What a schema cannot see in the rules of audit is told with file, place and reason.</summary>
public sealed class AuditRuleChecksTests
{
    [Fact]
    public void A_kind_of_change_that_stands_twice() => Told("/counterfactuals/edits/1/kind", "stands twice", e => [e[0], e[0], .. e.Skip(2)]);

    [Fact]
    public void Weeks_without_an_end() => Told("/counterfactuals/edits/0/most", "how many", e => [.. e.Where(x => x.Kind == "weeks").Select(x => x with { Most = null }), .. e.Where(x => x.Kind != "weeks")]);

    [Fact]
    public void Steps_where_there_are_none() => Told("/counterfactuals/edits/0/most", "no steps", e => [.. e.Where(x => x.Kind == "phase").Select(x => x with { Most = 3 }), .. e.Where(x => x.Kind != "phase")]);

    [Fact]
    public void A_published_cost_without_its_source() => Told("/counterfactuals/edits/0", "without a source", e => [e[0] with { Basis = Basis.Published, Source = null }, .. e.Skip(1)]);

    [Theory]
    [InlineData("/coverage/places/1/place", "the-moon", null, "full-gym")]
    [InlineData("/coverage/places/1/place", "full-gym", null, "full-gym")]
    [InlineData("/coverage/places/1/equipment/0", "hotel", "anvil", "full-gym")]
    public void A_place_of_coverage_that_is_unknown_or_stands_twice_or_has_unknown_equipment(string pointer, string place, string? equipment, string first) =>
        ToldOf(pointer, "", audit => audit with { Coverage = audit.Coverage! with { Places = [new CoveragePlace(first), new CoveragePlace(place, equipment is null ? null : [equipment])] } });

    [Fact]
    public void A_complaint_of_coverage_that_is_no_region() => ToldOf("/coverage/complaints/0", "not in the vocabulary", audit => audit with { Coverage = audit.Coverage! with { Complaints = ["tail"] } });

    [Fact]
    public void Published_coverage_without_its_source() => ToldOf("/coverage", "without a source", audit => audit with { Coverage = audit.Coverage! with { Basis = Basis.Published, Source = null } });

    private static void Told(string pointer, string reason, Func<IReadOnlyList<EditRule>, IReadOnlyList<EditRule>> change) =>
        ToldOf(pointer, reason, audit => audit with { Counterfactuals = audit.Counterfactuals with { Edits = change(audit.Counterfactuals.Edits) } });

    private static void ToldOf(string pointer, string reason, Func<AuditRules, AuditRules> change)
    {
        var good = TestEdition.Knowledge;
        var wrong = good.With(audit: change(good.Audit));

        var faults = KnowledgeChecks.Of(wrong, TestEdition.Current.Catalogue.Exercises, TestEdition.Vocabulary, EligibilityFilter.Gates.Select(g => g.Reason), [.. ScoringEngine.Factors.Select(f => f.Id)]);

        Assert.Contains(faults, f => f.File == "rules/audit.json" && f.Pointer == pointer && f.Reason.Contains(reason, StringComparison.Ordinal));
        Assert.All(faults, f => Assert.Equal("rules/audit.json", f.File));
    }
}
