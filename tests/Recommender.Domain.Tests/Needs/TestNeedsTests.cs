using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Needs;

/// <summary>Needs that tests raise, seen through the need profile.</summary>
public sealed class TestNeedsTests
{
    private static readonly TestThreshold Ankle = Below("ankle", "kneeToWallCm", 10, error: 2, "ankle-mobility", 0.1m);

    [Theory]
    [InlineData(7.9, true)]
    [InlineData(8, false)]
    [InlineData(9.9, false)]
    public void A_reading_below_raises_only_beyond_the_error(decimal cm, bool raises) => Assert.Equal(raises, Raised(new TestResults { KneeToWallCm = new(cm, 12) }, Ankle).Count > 0);

    [Fact]
    public void A_reading_above_raises_only_beyond_the_error()
    {
        var high = Above("high", "dynamicStrengthIndex", 0.8m, error: 0.04m, "max-strength", 0.1m);
        Assert.Empty(Raised(new TestResults { DynamicStrengthIndex = 0.84m }, high));
        Assert.NotEmpty(Raised(new TestResults { DynamicStrengthIndex = 0.85m }, high));
    }

    [Fact]
    public void The_worse_side_counts_and_is_told()
    {
        var from = Assert.Single(Raised(new TestResults { KneeToWallCm = new(12, 6) }, Ankle)).Value;
        Assert.Contains("(right 6 cm against 10, error 2; common practice)", from.Note, StringComparison.Ordinal);
        Assert.Empty(Raised(new TestResults { KneeToWallCm = new(12, null) }, Ankle));
    }

    [Fact]
    public void What_tests_add_in_all_is_capped()
    {
        var many = new[]
        {
            Below("a", "kneeToWallCm", 10, error: 0, "ankle-mobility", 0.5m),
            Below("b", "dynamicStrengthIndex", 0.6m, error: 0, "grip", 0.5m),
            Below("c", "squatJumpCm", 40, error: 0, "upper-pull", 0.5m),
            Below("d", "counterMovementJumpCm", 40, error: 0, "upper-push", 0.5m),
        };
        var cap = TestEdition.Knowledge.Needs.TestsShareCap.Value;
        var raised = Raised(new TestResults { KneeToWallCm = new(5, 5), DynamicStrengthIndex = 0.5m, SquatJumpCm = 30, CounterMovementJumpCm = 30 }, many);
        Assert.InRange(raised.Values.Sum(r => r.Weight), (cap / (1 + cap)) - 0.001m, (cap / (1 + cap)) + 0.001m);
    }

    [Fact]
    public void Below_the_cap_a_threshold_adds_its_own_weight() =>
        Assert.InRange(Raised(new TestResults { KneeToWallCm = new(5, 5) }, Ankle)["ankle-mobility"].Weight, (0.1m / 1.1m) - 0.0002m, (0.1m / 1.1m) + 0.0002m);

    [Fact]
    public void A_threshold_of_other_event_groups_raises_nothing() =>
        Assert.Empty(Raised(new TestResults { KneeToWallCm = new(5, 5) }, Ankle with { EventGroups = ["throws"] }));

    [Fact]
    public void A_positive_thomas_test_and_a_poor_squat_raise()
    {
        var rules = new[]
        {
            Above("thomas", "modifiedThomasPositive", 0.5m, error: 0, "hip-mobility", 0.1m),
            Above("squat", "singleLegSquatPoor", 0.5m, error: 0, "hip-stability", 0.1m),
        };
        Assert.Equal(2, Raised(new TestResults { ModifiedThomasPositive = new(false, true), SingleLegSquatRating = new("good", "poor") }, rules).Count);
        Assert.Empty(Raised(new TestResults { ModifiedThomasPositive = new(false, false), SingleLegSquatRating = new("good", "fair") }, rules));
    }

    [Fact]
    public void Two_jump_heights_give_the_utilisation_ratio_unless_it_is_sent()
    {
        var ratio = Below("ratio", "eccentricUtilisationRatio", 1, error: 0.03m, "reactive-strength", 0.1m);
        Assert.Contains("(0.9 against 1, error 0.03; common practice)", Assert.Single(Raised(new TestResults { CounterMovementJumpCm = 45, SquatJumpCm = 50 }, ratio)).Value.Note, StringComparison.Ordinal);
        Assert.Empty(Raised(new TestResults { CounterMovementJumpCm = 45, SquatJumpCm = 50, EccentricUtilisationRatio = 1.1m }, ratio));
        Assert.Empty(Raised(new TestResults { CounterMovementJumpCm = 45 }, ratio));
    }

    [Fact]
    public void What_no_threshold_judges_is_kept_and_said()
    {
        var profile = Of(new TestResults { AdductorSqueezeN = 300, KneeToWallCm = new(12, 12) }, Ankle);
        Assert.Equal("Read but not used for needs: adductorSqueezeN.", Assert.Single(profile.Cautions));
        Assert.Empty(Of(new TestResults { KneeToWallCm = new(12, 12) }, Ankle).Cautions);
    }

    [Fact]
    public void Results_that_no_threshold_reads_are_said() =>
        Assert.Contains("Read but not used for needs: sprintSplits, repetitionsToFailure.", Of(new TestResults { SprintSplits = [new(10, 1.8m)], RepetitionsToFailure = new Dictionary<string, LiftToFailure> { ["back-squat"] = new(80, 5) } }, Ankle).Cautions);

    [Fact]
    public void No_tests_change_nothing() => Assert.DoesNotContain(Of(null, Ankle).Needs, n => n.From.Any(f => f.Source == "test"));

    [Fact]
    public void Every_threshold_of_the_rules_can_be_reached_by_a_possible_reading()
    {
        // A threshold outside the bounds of its own test would never raise anything.
        var bounds = TestEdition.Knowledge.Tests.Tests.ToDictionary(t => t.Id);
        foreach (var t in TestEdition.Knowledge.Tests.Thresholds.Where(t => bounds.ContainsKey(t.Measure)))
        {
            Assert.True(t.Below is null || bounds[t.Measure].Min < t.Below - t.MeasurementError, $"{t.Id} cannot be met.");
            Assert.True(t.Above is null || bounds[t.Measure].Max > t.Above + t.MeasurementError, $"{t.Id} cannot be met.");
        }
    }

    private static NeedProfile Of(TestResults? tests, params TestThreshold[] thresholds) =>
        Stages.Of(RequestBuilder.For("jumps").But(r => r with { Tests = tests is null ? null : tests with { Trials = tests.Trials ?? 3, DaysAgo = tests.DaysAgo ?? 7 } }), TestEdition.Under(TestEdition.Knowledge.With(tests: TestEdition.Knowledge.Tests with { Thresholds = thresholds }))).Profile;

    private static Dictionary<string, (decimal Weight, string Note)> Raised(TestResults tests, params TestThreshold[] thresholds) =>
        Of(tests, thresholds).Needs.SelectMany(n => n.From.Where(f => f.Source == "test").Select(f => (n.Quality, Weight: n.Weight * f.Share, f.Note)))
            .ToDictionary(x => x.Quality, x => (x.Weight, x.Note), StringComparer.Ordinal);

    private static TestThreshold Below(string id, string measure, decimal below, decimal error, string quality, decimal weight) =>
        new(id, measure, below, null, error, null, new Dictionary<string, decimal> { [quality] = weight }, id, Basis.CommonPractice);

    private static TestThreshold Above(string id, string measure, decimal above, decimal error, string quality, decimal weight) =>
        Below(id, measure, above, error, quality, weight) with { Below = null, Above = above };
}
