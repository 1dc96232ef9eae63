using System.Globalization;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>Needs that test results raise, capped in total and only outside measurement error.</summary>
internal static class TestNeeds
{
    /// <summary>Adds what the tests raise; gives cautions about results that were kept but not used.</summary>
    public static IReadOnlyList<string> Add(Situation situation, NeedSheet sheet)
    {
        if (situation.Request.Tests is not { } tests)
        {
            return [];
        }

        var readings = Measures(tests);
        var met = situation.Knowledge.Tests.Thresholds.Where(t => Meets(t, readings, situation.EventGroup)).ToList();
        var total = met.Sum(t => t.Raises.Values.Sum());
        var cap = situation.Knowledge.Needs.TestsShareCap.Value;
        var scale = total > cap ? cap / total : 1m;
        foreach (var threshold in met)
        {
            var reading = readings[threshold.Measure].First(r => Beyond(threshold, r));
            var note = $"{threshold.Note} ({reading.ToString("0.##", CultureInfo.InvariantCulture)} against {(threshold.Below ?? threshold.Above)!.Value.ToString("0.##", CultureInfo.InvariantCulture)})";
            foreach (var (quality, weight) in threshold.Raises)
            {
                sheet.Add(quality, weight * scale, "test", note, threshold.Basis, threshold.Source);
            }
        }

        var judged = situation.Knowledge.Tests.Thresholds.Select(t => t.Measure).ToHashSet(StringComparer.Ordinal);
        if (judged.Contains("eccentricUtilisationRatio"))
        {
            judged.UnionWith(["counterMovementJumpCm", "squatJumpCm"]);
        }

        var kept = readings.Keys.Where(m => !judged.Contains(m)).Concat(Unjudged(tests)).ToList();
        return kept.Count == 0 ? [] : [$"Kept with the decision but not used for needs: {string.Join(", ", kept)}."];
    }

    /// <summary>Results that no threshold reads yet.</summary>
    private static IEnumerable<string> Unjudged(TestResults tests) =>
        new (string Name, bool Sent)[]
        {
            ("loadedJumps", tests.LoadedJumps is not null),
            ("sprintSplits", tests.SprintSplits is not null),
            ("repetitionsToFailure", tests.RepetitionsToFailure is not null),
            ("yBalance", tests.YBalance is not null),
            ("testPain", tests.TestPain is not null),
        }.Where(t => t.Sent).Select(t => t.Name);

    /// <summary>Every reading by measure, both sides where tested; with what can be derived from two of them.</summary>
    private static SortedDictionary<string, List<decimal>> Measures(TestResults tests)
    {
        var measures = new SortedDictionary<string, List<decimal>>(StringComparer.Ordinal);
        void Note(string measure, decimal value) => (measures.TryGetValue(measure, out var list) ? list : measures[measure] = []).Add(value);
        foreach (var (_, test, value) in tests.Readings())
        {
            Note(test, value);
        }

        foreach (var positive in new[] { tests.ModifiedThomasPositive?.Left, tests.ModifiedThomasPositive?.Right })
        {
            if (positive is { } p)
            {
                Note("modifiedThomasPositive", p ? 1 : 0);
            }
        }

        foreach (var rating in new[] { tests.SingleLegSquatRating?.Left, tests.SingleLegSquatRating?.Right })
        {
            if (rating is not null)
            {
                Note("singleLegSquatPoor", rating == "poor" ? 1 : 0);
            }
        }

        if (tests.EccentricUtilisationRatio is null && tests.CounterMovementJumpCm is { } jump && tests.SquatJumpCm is > 0 and { } squat)
        {
            // Countermovement over squat jump height, as the utilisation ratio is defined (mcguigan-2006).
            Note("eccentricUtilisationRatio", decimal.Round(jump / squat, 4));
        }

        return measures;
    }

    private static bool Meets(TestThreshold threshold, SortedDictionary<string, List<decimal>> readings, string eventGroup) =>
        (threshold.EventGroups is null || threshold.EventGroups.Contains(eventGroup, StringComparer.Ordinal))
        && readings.TryGetValue(threshold.Measure, out var values) && values.Any(v => Beyond(threshold, v));

    private static bool Beyond(TestThreshold threshold, decimal value) =>
        value < threshold.Below - threshold.MeasurementError || value > threshold.Above + threshold.MeasurementError;
}
