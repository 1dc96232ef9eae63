using Recommender.Domain.Eligibility;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility;

public sealed class EligibilityFilterTests
{
    [Fact]
    public void Every_gate_has_a_reason_of_its_own_that_the_vocabulary_knows()
    {
        Assert.Equal(EligibilityFilter.Gates.Count, EligibilityFilter.Gates.Select(g => g.Reason).Distinct().Count());
        Assert.Equal(TestEdition.Vocabulary.Reasons.Select(r => r.Id).Order(StringComparer.Ordinal), EligibilityFilter.Gates.Select(g => g.Reason).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void An_exercise_that_several_gates_refuse_counts_in_each_and_is_no_near_miss()
    {
        var edition = TestEdition.Of([ExerciseBuilder.Named("easy"), ExerciseBuilder.Named("hard").Needing("rack").Asking("barbell-lifts")]);
        var outcome = Stages.Of(RequestBuilder.For().Knowing().With(), edition).Eligibility();
        Assert.Equal([0], outcome.Eligible);
        Assert.Equal(2, outcome.CountByGate.Sum());
        Assert.Equal(0U, outcome.RefusedBy[0]);
        Assert.Null(EligibilityFilter.OnlyGateOf(outcome.RefusedBy[1]));
    }

    [Fact]
    public void A_near_miss_is_refused_by_one_gate_that_can_be_met()
    {
        var edition = TestEdition.Of([ExerciseBuilder.Named("band").Needing("band"), ExerciseBuilder.Named("unwanted")]);
        var outcome = Stages.Of(RequestBuilder.For().With().Without("unwanted"), edition).Eligibility();
        Assert.Equal("equipment-missing", EligibilityFilter.OnlyGateOf(outcome.RefusedBy[0])!.Reason);
        Assert.Null(EligibilityFilter.OnlyGateOf(outcome.RefusedBy[1]));
        Assert.Null(EligibilityFilter.OnlyGateOf(0));
    }

    [Fact]
    public void A_referral_of_scope_all_ends_the_line()
    {
        var outcome = Stages.Of(RequestBuilder.Skilled().Flagged("chest-pain")).Eligibility();
        Assert.Empty(outcome.Eligible);
        Assert.All(outcome.RefusedBy, mask => Assert.Equal(0U, mask));
        Assert.Equal(0, outcome.CountByGate.Sum());
    }
}
