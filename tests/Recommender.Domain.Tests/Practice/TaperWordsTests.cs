using Recommender.Domain.Dosing;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Practice;

/// <summary>Nobody is told to add work in the last days: a taper lowers volume and keeps intensity (Bosquet et al. 2007); the words are common practice, no source.</summary>
public sealed class TaperWordsTests
{
    private static readonly string[] Adding = ["add ", "Add ", "raise", "heavier"];

    [Fact]
    public void Nothing_is_added_in_a_taper_nor_kept_beyond_the_peak()
    {
        var told = 0;
        foreach (var (eventId, weeks) in from e in new[] { "100m", "1500m", "long-jump", "discus", "decathlon" } from w in new[] { 0.5m, 1m, 1.5m, 2m } select (e, w))
        {
            foreach (var dose in Doses(Request(eventId, "taper", weeks)))
            {
                told++;
                Assert.DoesNotContain(Adding, w => dose.Progression.Contains(w, StringComparison.Ordinal));
                Assert.InRange(dose.KeepWeeks.To, 1, (int)Math.Ceiling(weeks));
                Assert.InRange(dose.KeepWeeks.From, 1, dose.KeepWeeks.To);
            }
        }

        Assert.True(told > 60, $"{told} doses");
    }

    [Fact]
    public void In_the_weeks_before_it_work_is_added_and_kept() =>
        Assert.All(Doses(Request("long-jump", "specific-preparation", 10)), dose =>
        {
            Assert.Equal(TestEdition.Knowledge.Dose.KeepWeeks.To, dose.KeepWeeks.To);
            Assert.NotEqual(TestEdition.Knowledge.Week.InTheTaper!.Progression, dose.Progression);
        });

    /// <summary>A season of weekly competitions adds nothing in the days before one, and keeps its exercises for longer than that.</summary>
    [Fact]
    public void Between_weekly_competitions_exercises_stay() =>
        Assert.All(Doses(Request("100m", "competition", 0.5m)), dose =>
        {
            Assert.Equal(TestEdition.Knowledge.Week.InTheTaper!.Progression, dose.Progression);
            Assert.Equal(TestEdition.Knowledge.Dose.KeepWeeks.To, dose.KeepWeeks.To);
        });

    private static List<Dose> Doses(RecommendationRequest request)
    {
        var doses = Stages.Answer(request).Picks.Select(p => p.Dose!).ToList();
        Assert.NotEmpty(doses);
        return doses;
    }

    private static RecommendationRequest Request(string eventId, string phase, decimal weeks) => new()
    {
        Athlete = new AthleteFacts { Event = eventId, AgeYears = 24, TrainingAgeYears = 6 },
        Phase = phase,
        WeeksToCompetition = weeks,
        Setting = new SettingFacts { Place = "full-gym" },
        Count = 8,
    };
}
