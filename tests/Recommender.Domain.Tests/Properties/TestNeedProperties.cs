using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Properties;

/// <summary>What holds of every request with tests.</summary>
public sealed class TestNeedProperties
{
    private static readonly TestBattery Battery = TestEdition.Knowledge.Tests;

    private static readonly Gen<RecommendationRequest> Tested =
        Gen.Select(RequestGenerator.Requests, RequestGenerator.Tests, (request, tests) => request with { Tests = tests });

    /// <summary>Place of a test in a request, the measure it moves, and whether more is better.</summary>
    private static readonly (string Path, string Measure, bool MoreIsBetter)[] Levers =
    [
        ("kneeToWallCm/left", "kneeToWallCm", true), ("calfRaiseRepetitions/right", "calfRaiseRepetitions", true), ("singleLegBridgeRepetitions/left", "singleLegBridgeRepetitions", true),
        ("nordicForceN/left", "nordicForcePerKg", true), ("hipInternalRotationDegrees/right", "hipInternalRotationDegrees", true), ("hipExternalRotationDegrees/right", "hipRotationArc", true),
        ("straightLegRaiseDegrees/left", "straightLegRaiseDegrees", true), ("adductorAbductorRatio/left", "adductorAbductorRatio", true), ("reactiveStrengthIndex", "reactiveStrengthIndex", true),
        ("dropJump/heightCm", "reactiveStrengthIndex", true), ("dropJump/contactMs", "reactiveStrengthIndex", false), ("counterMovementJumpCm", "eccentricUtilisationRatio", true),
        ("shoulderExternalRotationN/left", "shoulderRotationRatio", true), ("trunkHoldSeconds/sideLeft", "sideBridgeHold", true), ("trunkHoldSeconds/extensor", "trunkFlexorExtensorRatio", true),
        ("dynamicStrengthIndex", "dynamicStrengthIndex", true), ("forceVelocityImbalancePercent", "forceVelocityImbalancePercent", true),
    ];

    [Fact]
    public void Weights_sum_to_one_exactly_and_every_derived_value_is_a_possible_number()
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        Tested.Sample(request =>
        {
            var profile = Stages.Of(request).Profile;
            Assert.Equal(NeedProfile.WeightUnits, profile.Needs.Sum(n => n.WeightUnits));
            foreach (var derived in profile.Derived)
            {
                Assert.InRange(derived.Value, -1_000_000, 1_000_000);
                var definition = Battery.Derived.FirstOrDefault(d => d.Id == derived.Name.Split('/')[0]);
                Assert.False(derived.Value < definition?.Min || derived.Value > definition?.Max, $"{derived.Name} is {derived.Value}.");
                lock (seen)
                {
                    seen.Add(derived.Name.Split('/')[0]);
                }
            }
        }, iter: 4_000, threads: 2, print: Print);
        var never = Battery.Derived.Select(d => d.Id).Except(seen, StringComparer.Ordinal).ToList();
        Assert.True(never.Count == 0, $"never derived: {string.Join(", ", never)}");
    }

    [Fact]
    public void Asking_to_see_every_measure_changes_no_need() =>
        RequestGenerator.Requests.Sample(request =>
        {
            var situation = Situation.Of(request, TestEdition.Current);
            var (plain, shown) = (NeedAnalysis.Derive(situation), NeedAnalysis.Derive(situation, shown: true));
            Assert.Equal(plain.Needs.Select(n => (n.Quality, n.WeightUnits)), shown.Needs.Select(n => (n.Quality, n.WeightUnits)));
            Assert.Equal(plain.Cautions, shown.Cautions);
            Assert.True(plain.Derived.Count <= shown.Derived.Count);
        }, iter: 2_000, threads: 2, print: Print);

    [Fact]
    public void Every_raise_keeps_the_caps_of_measure_quality_and_all_tests() =>
        Tested.Sample(request =>
        {
            var adds = Adds(request);
            var byMeasure = adds.GroupBy(a => a.Measure, StringComparer.Ordinal).Select(g => g.Sum(a => a.Weight)).DefaultIfEmpty(0).Max();
            var byQuality = adds.GroupBy(a => a.Quality, StringComparer.Ordinal).Select(g => g.Sum(a => a.Weight)).DefaultIfEmpty(0).Max();
            Assert.True(byMeasure <= Battery.Use.MeasureCap.Value + Rounding(adds.Count), $"a measure adds {byMeasure}.");
            Assert.True(byQuality <= Battery.Use.QualityCap.Value + Rounding(adds.Count), $"a quality gets {byQuality}.");
            Assert.True(adds.Sum(a => a.Weight) <= TestEdition.Knowledge.Needs.TestsShareCap.Value + Rounding(adds.Count));
        }, iter: 2_000, threads: 2, print: Print);

    [Fact]
    public void Nothing_inside_its_error_raises() =>
        Tested.Sample(request =>
        {
            var levels = Battery.Thresholds.Select(t => t.Id).ToHashSet(StringComparer.Ordinal);
            foreach (var derived in Stages.Of(request).Profile.Derived)
            {
                if (derived.Threshold is { } met && levels.Contains(met.Id) && Math.Abs(derived.Value - met.Bound) <= met.MeasurementError && met.MeasurementError > 0)
                {
                    Assert.NotEqual(ThresholdVerdict.Need, met.Verdict);
                    Assert.Empty(met.Adds);
                }

                Assert.True(derived.Raises.Count == 0 || derived.Threshold!.Verdict == ThresholdVerdict.Need);
                Assert.True(derived.Threshold?.Verdict == ThresholdVerdict.Need == (derived.Threshold?.Adds.Count > 0));
            }
        }, iter: 2_000, threads: 2, print: Print);

    [Fact]
    public void A_single_trial_raises_nothing_and_gives_no_side_more() =>
        Tested.Sample(request =>
        {
            var profile = Stages.Of(request with { Tests = request.Tests! with { Trials = 1 }, Athlete = request.Athlete! with { OneRepMaxKg = null } }).Profile;
            Assert.DoesNotContain(profile.Needs, n => n.From.Any(f => f.Source == "test"));
            Assert.Empty(profile.WeakerSides);
        }, iter: 1_000, threads: 2, print: Print);

    [Fact]
    public void More_pain_while_testing_and_older_tests_never_raise_a_need() =>
        Gen.Select(Tested, Gen.Int[0, 10], Gen.Int[0, 10], Gen.Int[0, 200]).Sample((request, pain, more, days) =>
        {
            var before = Adds(request with { Tests = request.Tests! with { TestPain = pain, DaysAgo = days } });
            Never(before, Adds(request with { Tests = request.Tests! with { TestPain = Math.Min(10, pain + more), DaysAgo = days } }));
            Never(before, Adds(request with { Tests = request.Tests! with { TestPain = pain, DaysAgo = days + (10 * more) } }));

            // Where a cap binds, what one need loses another may take; what the cap holds together still never rises.
            static void Never(List<(string Measure, string Quality, decimal Weight)> before, List<(string Measure, string Quality, decimal Weight)> after)
            {
                Fewer(before, after, _ => "all");
                if (Sums(before, _ => "all").Values.Any(s => s >= TestEdition.Knowledge.Needs.TestsShareCap.Value - Rounding(before.Count)))
                {
                    return;
                }

                Fewer(before, after, a => a.Quality);
                if (Sums(before, a => a.Quality).Values.All(s => s < Battery.Use.QualityCap.Value - Rounding(before.Count)))
                {
                    Fewer(before, after, a => a.Measure);
                }
            }

            static void Fewer(List<(string Measure, string Quality, decimal Weight)> before, List<(string Measure, string Quality, decimal Weight)> after, Func<(string Measure, string Quality, decimal Weight), string> by)
            {
                var was = Sums(before, by);
                foreach (var (what, weight) in Sums(after, by))
                {
                    Assert.True(weight <= was.GetValueOrDefault(what) + Rounding(before.Count + after.Count), $"{what}: {was.GetValueOrDefault(what)} became {weight}.");
                }
            }

            static Dictionary<string, decimal> Sums(List<(string Measure, string Quality, decimal Weight)> adds, Func<(string Measure, string Quality, decimal Weight), string> by) =>
                adds.GroupBy(by, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Sum(a => a.Weight), StringComparer.Ordinal);
        }, iter: 1_500, threads: 2, print: x => Print(x.Item1));

    [Fact]
    public void A_better_test_never_raises_its_need_more()
    {
        var moved = 0;
        Gen.Select(Tested, Gen.Int[0, Levers.Length - 1], Gen.Int[1, 60]).Sample((request, which, percent) =>
        {
            var (path, measure, moreIsBetter) = Levers[which];
            if (Better(request, path, moreIsBetter, percent) is not { } better || RequestChecks.Of(better, TestEdition.Current.Catalogue, TestEdition.Knowledge).Count > 0)
            {
                return;
            }

            var (before, after) = (Stages.Of(request).Profile, Stages.Of(better).Profile);
            if (before.Derived.Count(d => d.Name == measure) != after.Derived.Count(d => d.Name == measure))
            {
                // A value that no body gives is left out, before or after.
                return;
            }

            // One test feeds several measures. Where another of them stops raising, what is left shares the cap of all tests, so that this one may have more of it.
            if (Others(before).Except(Others(after)).Any())
            {
                return;
            }

            // More of a measure clears what lies below a bound and may pass what lies above another one; each end is looked at alone.
            var qualities = Battery.Thresholds.Where(t => t.Measure == measure && (measure == "trunkFlexorExtensorRatio" ? t.Above is not null : t.Below is not null))
                .SelectMany(t => t.Raises.Keys).ToHashSet(StringComparer.Ordinal);
            var (was, now) = (Of(before), Of(after));
            Assert.True(now <= was + 0.0002m, $"{path} got better by {percent} %, and {measure} raises {now} instead of {was}.");
            if (was > 0)
            {
                Interlocked.Increment(ref moved);
            }

            IEnumerable<(string, string)> Others(NeedProfile profile) => Adds(profile).Where(a => a.Measure != measure).Select(a => (a.Measure, a.Quality));

            decimal Of(NeedProfile profile) => Adds(profile).Where(a => a.Measure == measure && qualities.Contains(a.Quality)).Sum(a => a.Weight);
        }, iter: 6_000, threads: 2, print: x => Print(x.Item1));
        Assert.True(moved > 50, $"only {moved} of them raised anything before.");
    }

    private static RecommendationRequest? Better(RecommendationRequest request, string path, bool moreIsBetter, int percent)
    {
        var body = JsonNode.Parse(JsonSerializer.Serialize(request.Tests!, WireJson.Compact.TestResults))!;
        var parts = path.Split('/');
        var place = parts.Length == 1 ? body.AsObject() : body[parts[0]] as JsonObject;
        if (place?[parts[^1]] is not { } value)
        {
            return null;
        }

        var old = decimal.Parse(value.ToJsonString(), CultureInfo.InvariantCulture);
        place[parts[^1]] = decimal.Round(moreIsBetter ? old + (Math.Max(old, 1) * percent / 100) : old - (old * percent / 100), 3);
        return request with { Tests = JsonSerializer.Deserialize(body.ToJsonString(), WireJson.Default.TestResults) };
    }

    /// <summary>What each measure adds in all, as shown.</summary>
    private static Dictionary<string, decimal> Raised(RecommendationRequest request) =>
        Adds(request).GroupBy(a => a.Measure, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Sum(a => a.Weight), StringComparer.Ordinal);

    private static List<(string Measure, string Quality, decimal Weight)> Adds(RecommendationRequest request) => Adds(Stages.Of(request).Profile);

    /// <summary>What a measure adds is shown with every reading of it that meets a threshold; it adds once, as its worst reading says.</summary>
    private static List<(string Measure, string Quality, decimal Weight)> Adds(NeedProfile profile) =>
        [.. profile.Derived.Where(d => d.Threshold is not null).SelectMany(d => d.Threshold!.Adds.Select(a => (d.Name, Quality: a.Key, Weight: a.Value)))
            .GroupBy(a => (a.Name, a.Quality)).Select(g => (g.Key.Name, g.Key.Quality, g.Max(a => a.Weight)))];

    private static decimal Rounding(int lines) => 0.00005m * lines;

    private static string Print(RecommendationRequest request) => JsonSerializer.Serialize(request, WireJson.Compact.RecommendationRequest);
}
