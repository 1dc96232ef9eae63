using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Domain.Tests.Dosing;

/// <summary>
/// The doses over all event groups, phases, qualities and training ages against published ranges. Each range names its source. Every exercise rated strong for the
/// quality is dosed for it; a cell is inside when all of them are.
/// </summary>
public sealed class PublishedDoseTests(ITestOutputHelper output)
{
    private static readonly decimal[] TrainingAges = [0, 1.5m, 4];

    /// <summary>Repetitions that can be done at a percentage: Sheppard and Triplett in Haff and Triplett (eds), Essentials of Strength Training, 4th ed., table 17.7; 1 to 10 repetitions.</summary>
    private static readonly (int Percent, int Reps)[] Able = [(100, 1), (95, 2), (93, 3), (90, 4), (87, 5), (85, 6), (83, 7), (80, 8), (77, 9), (75, 10)];

    /// <summary>Repetitions of a lift in a session, upper ends: A. S. Prilepin's logs of lifters, as several copies print them. A ceiling, not a target.</summary>
    private static readonly (int FromPercent, int Most)[] Ceiling = [(90, 10), (80, 20), (70, 24), (55, 30)];

    [Fact]
    public void Doses_stay_inside_the_published_ranges()
    {
        var outside = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var (cells, inside) = (0, 0);
        foreach (var group in TestEdition.Vocabulary.EventGroups)
        {
            foreach (var phase in TestEdition.Vocabulary.Phases)
            {
                foreach (var trained in TrainingAges)
                {
                    var stages = Stages.Of(RequestBuilder.Skilled(group.Id, phase.Id).Trained(trained));
                    for (var q = 0; q < TestEdition.Vocabulary.Qualities.Count; q++)
                    {
                        cells++;
                        var faults = Faults(stages, q, trained).ToList();
                        inside += faults.Count == 0 ? 1 : 0;
                        faults.ForEach(f => outside[f] = outside.GetValueOrDefault(f) + 1);
                    }
                }
            }
        }

        output.WriteLine($"{inside} of {cells} cells inside the published ranges; {outside.Count} doses outside:");
        foreach (var (fault, times) in outside)
        {
            output.WriteLine($"  {fault} ({times} cells)");
        }

        Assert.Empty(outside);
    }

    private static IEnumerable<string> Faults(Stages stages, int quality, decimal trained)
    {
        var catalogue = stages.Catalogue;
        var goal = TestEdition.Knowledge.Dose.Goals[TestEdition.Vocabulary.Qualities[quality].Id];
        for (var e = 0; e < catalogue.Count; e++)
        {
            if (catalogue.RatingOf(e, quality) < QualityRating.Strong)
            {
                continue;
            }

            var exercise = catalogue.Exercises[e];
            var dose = new DoseCalculator(stages.Situation, stages.Profile).Next(e, quality, exercise.Equipment[0]);
            foreach (var fault in Ranges(stages.Situation.EventGroup, exercise, goal, dose, trained).Concat(Percentages(dose)))
            {
                yield return string.Create(CultureInfo.InvariantCulture, $"{exercise.Id}: {fault}");
            }
        }
    }

    private static IEnumerable<string> Ranges(string group, Exercise exercise, string goal, Dose dose, decimal trained)
    {
        if (dose.Unit == DoseUnit.Contacts && dose.RestSeconds is < 45)
        {
            yield return $"rests {dose.RestSeconds} s between sets of jumps"; // Chu, Jumping into Plyometrics, 2nd ed., pp. 29-31: 45 to 60 s for power, and five to ten times the work
        }

        if (dose.Unit == DoseUnit.Contacts && dose.SessionsPerWeek > 3)
        {
            yield return $"jumps {dose.SessionsPerWeek} times a week"; // 48 to 72 hours between sessions: Potach and Chu, same handbook, ch. 18
        }

        if (dose.Unit != DoseUnit.Reps || exercise.LoadBand is LoadBand.Unloaded or LoadBand.Light || exercise.LoadingRate is LoadingRate.Fast or LoadingRate.Impact)
        {
            yield break;
        }

        if (dose.Sets is < 1 or > 6)
        {
            yield return $"{dose.Sets} sets"; // 1 to 6: handbook ch. 17 and Ratamess et al. 2009
        }

        if (goal == "strength" && exercise.LoadBand == LoadBand.Heavy)
        {
            if (dose.Amount > 12)
            {
                yield return $"{dose.Amount} repetitions for strength"; // 8 to 12 for novices, 1 to 12 later: Ratamess et al. 2009
            }

            if (trained >= 2 && dose.RestSeconds is < 60 or > 300)
            {
                yield return $"rests {dose.RestSeconds} s"; // 60 to 120 assistance, 120 to 300 core: Ratamess et al. 2009
            }
        }

        if (goal == "muscle" && !SizeIsACost(group, exercise) && (dose.Amount is < 6 or > 12 || dose.RestSeconds is < 30 or > 120))
        {
            yield return $"{dose.Amount} repetitions, {dose.RestSeconds} s rest for muscle ({group})"; // 6 to 12, 30 to 90: handbook; 60 to 120: Ratamess et al. 2009
        }
    }

    /// <summary>Where added muscle is carried along for nothing, work that could build size is dosed for strength instead. Common practice, no source.</summary>
    private static bool SizeIsACost(string group, Exercise exercise) => group == "distance" || (group == "jumps" && exercise.Pattern is ("upper-pull" or "upper-push" or "shoulder"));

    private static IEnumerable<string> Percentages(Dose dose)
    {
        if (dose.Intensity is not { Kind: "percent-1rm", Low: { } low, High: { } high })
        {
            yield break;
        }

        // Never to failure: at least one more could be done at the upper end of the load. The table ends at ten repetitions, 75 %.
        if (high >= 75 && dose.Unit == DoseUnit.Reps && dose.Amount + 1 > Able.Where(a => a.Percent >= high).MinBy(a => a.Percent).Reps)
        {
            yield return $"{dose.Amount} repetitions at {high} % leave nothing in reserve";
        }

        if (Ceiling.FirstOrDefault(c => low >= c.FromPercent) is { Most: > 0 } zone && dose.Sets * dose.Amount > zone.Most)
        {
            yield return $"{dose.Sets * dose.Amount} repetitions at {low} to {high} % pass the ceiling of {zone.Most}";
        }
    }

    /// <summary>
    /// Volume down by 41 to 60 %, load and sessions kept: Bosquet L et al., Med Sci Sports Exerc 2007;39(8):1358-1365. The taper against the phase before it.
    /// </summary>
    [Fact]
    public void The_taper_cuts_the_published_share_and_keeps_load_and_sessions()
    {
        var (before, taper) = ((int)Phase.PreCompetition, (int)Phase.Taper);
        foreach (var row in TestEdition.Knowledge.Dose.Rows)
        {
            var cut = 1 - (row.Sets[taper] * row.Amount[taper] / (row.Sets[before] * row.Amount[before]));
            Assert.True(cut is >= 0.41m and <= 0.60m, $"{row.Id}: volume falls by {cut:P0}.");
            Assert.True(row.SessionsPerWeek[taper] == row.SessionsPerWeek[before], $"{row.Id}: {row.SessionsPerWeek[before]} sessions become {row.SessionsPerWeek[taper]}.");
            Assert.True(row.Intensity.Kind != "percent-1rm" || row.Intensity.Low![taper] >= row.Intensity.Low[before], $"{row.Id}: the load falls.");
        }
    }

    /// <summary>A new phase may ask for more, but never for a leap: at most seven tenths more volume. Common practice, no source.</summary>
    [Fact]
    public void No_phase_leaps_over_the_one_before()
    {
        foreach (var row in TestEdition.Knowledge.Dose.Rows)
        {
            for (var phase = 1; phase <= (int)Phase.Competition; phase++)
            {
                var (was, now) = (row.Sets[phase - 1] * row.Amount[phase - 1], row.Sets[phase] * row.Amount[phase]);
                Assert.True(now <= was * 1.7m, $"{row.Id}: {was} becomes {now} in {(Phase)phase}.");
                Assert.True(row.Intensity.Kind != "percent-1rm" || row.Intensity.Low![phase] - row.Intensity.Low[phase - 1] <= 10, $"{row.Id}: the load leaps in {(Phase)phase}.");
            }
        }
    }

    [Theory]
    [InlineData("sprints", 2.1, 1.9)]
    [InlineData("throws", 2.1, 1.9)]
    [InlineData("distance", 1.6, 1.4)]
    public void Weeks_bring_the_taper_where_the_phase_is_not_changed(string group, double usual, double tapered)
    {
        foreach (var exercise in new[] { "back-squat", "pogo-hops", "copenhagen-adduction" })
        {
            var before = Dose(group, exercise, (decimal)usual);
            var after = Dose(group, exercise, (decimal)tapered);
            Assert.True(after.Sets * after.Amount < before.Sets * before.Amount, $"{exercise}: {before.Sets} x {before.Amount}, then {after.Sets} x {after.Amount}.");
            Assert.Equal((before.Intensity, before.SessionsPerWeek), (after.Intensity, after.SessionsPerWeek));
            Assert.Equal("taper", Assert.Single(after.Adjustments).Code);
            Assert.Empty(before.Adjustments);
        }
    }

    private static Dose Dose(string group, string exercise, decimal weeks)
    {
        var stages = Stages.Of(RequestBuilder.Skilled(group, "pre-competition").WeeksOut(weeks));
        var position = stages.Catalogue.PositionOf(exercise);
        return new DoseCalculator(stages.Situation, stages.Profile).Next(position, stages.Needs.PurposeOf(stages.Catalogue, position), []);
    }
}
