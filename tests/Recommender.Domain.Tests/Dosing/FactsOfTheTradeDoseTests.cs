using Recommender.Domain.Dosing;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Dosing;

/// <summary>Doses that a coach of the events would check first, each by itself. Common practice, no source.</summary>
public sealed class FactsOfTheTradeDoseTests
{
    [Fact]
    public void Throwers_do_heavy_single_leg_squats_in_five_triples_off_season()
    {
        var dose = Dose(RequestBuilder.Skilled("throws", "general-preparation"), "heavy-single-leg-squat", "max-strength");
        Assert.Equal((5, 3m, true), (dose.Sets, dose.Amount, dose.PerSide));
        Assert.NotEmpty(dose.WarmUp);
    }

    [Fact]
    public void A_heavy_single_leg_squat_asks_for_two_years_and_a_safe_way_out()
    {
        Assert.DoesNotContain("heavy-single-leg-squat", Stages.Of(RequestBuilder.For("throws", "general-preparation").Aged(24, 1.9m).In("full-gym")).EligibleIds());
        Assert.Contains("heavy-single-leg-squat", Stages.Of(RequestBuilder.For("throws", "general-preparation").Aged(24, 2).In("full-gym")).EligibleIds());
        Assert.Contains(TestEdition.Exercise("heavy-single-leg-squat").Cautions, c => c.Contains("safet", StringComparison.OrdinalIgnoreCase) || c.Contains("pins", StringComparison.OrdinalIgnoreCase) || c.Contains("spot", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Sprinters_do_about_five_fives_a_leg()
    {
        var dose = Dose(RequestBuilder.Skilled("sprints", "general-preparation"), "heavy-single-leg-squat", "max-strength");
        Assert.Equal((5, 5m, true), (dose.Sets, dose.Amount, dose.PerSide));
    }

    [Theory]
    [InlineData("sprints")]
    [InlineData("throws")]
    public void The_clean_from_a_low_block_is_lighter_for_distance_runners(string heavier)
    {
        var runner = Dose(RequestBuilder.Skilled("distance", "general-preparation"), "block-clean", "strength-speed");
        var other = Dose(RequestBuilder.Skilled(heavier, "general-preparation"), "block-clean", "strength-speed");
        Assert.Equal((4, 4m), (runner.Sets, runner.Amount));
        Assert.True(runner.Intensity.High < other.Intensity.Low, $"{runner.Intensity} against {other.Intensity}.");
    }

    [Theory]
    [InlineData("general-preparation")]
    [InlineData("specific-preparation")]
    [InlineData("transition")]
    public void The_banded_goblet_squat_is_three_sets_of_fifteen_to_twenty_off_season(string phase)
    {
        var dose = Dose(RequestBuilder.Skilled("jumps", phase), "banded-goblet-squat", "hip-abductor-strength");
        Assert.Equal(3, dose.Sets);
        Assert.InRange(dose.Amount, 15, 20);
    }

    [Theory]
    [InlineData("sprints")]
    [InlineData("distance")]
    [InlineData("jumps")]
    [InlineData("throws")]
    public void In_season_it_travels_with_a_hotel_dumbbell_and_a_band(string group) =>
        Assert.Contains("banded-goblet-squat", Stages.Of(RequestBuilder.For(group, "competition").WeeksOut(2).In("hotel", ["band", "dumbbell"])).EligibleIds());

    [Theory]
    [InlineData("throws", 5, 5, 5)]
    [InlineData("distance", 3, 5, 10)]
    public void Neutral_grip_pull_ups(string group, int sets, int from, int to)
    {
        var dose = Dose(RequestBuilder.Skilled(group, "general-preparation"), "neutral-grip-pull-up", "upper-pull");
        Assert.Equal(sets, dose.Sets);
        Assert.InRange(dose.Amount, from, to);
    }

    [Fact]
    public void Vaulters_gain_most_of_the_jumpers_from_pulling_up()
    {
        decimal Weight(string eventId) => Stages.Of(RequestBuilder.For("jumps", "general-preparation").Doing(eventId)).Profile.Needs.Where(n => n.Quality == "upper-pull").Sum(n => n.Weight);
        Assert.All(new[] { "long-jump", "triple-jump", "high-jump" }, e => Assert.True(Weight(e) < Weight("pole-vault"), $"{e}: {Weight(e)} against {Weight("pole-vault")}."));
    }

    [Theory]
    [InlineData("sprints")]
    [InlineData("distance")]
    public void A_band_round_the_feet_with_hips_bent_adds_trunk_and_hip_work(string group)
    {
        var exercise = TestEdition.Exercise("hip-flexion-pull-up");
        Assert.Contains("hip-flexor-strength", exercise.Qualities.Keys);
        Assert.Contains(exercise.Qualities.Keys, q => q.StartsWith("trunk-", StringComparison.Ordinal));
        Assert.Contains("hip-flexion-pull-up", Stages.Of(RequestBuilder.Skilled(group, "general-preparation")).EligibleIds());
    }

    /// <summary>Weeks before the competition in which the hollow plank crawl has given way to simpler work.</summary>
    [Theory]
    [InlineData("distance", 4, 6)]
    [InlineData("throws", 2, 4)]
    [InlineData("jumps", 0.5, 1.5)]
    public void The_crawling_hollow_plank_ends_by_event_group_and_simpler_trunk_work_stays(string group, double from, double to)
    {
        IReadOnlySet<string> At(decimal weeks) => Stages.Of(RequestBuilder.Skilled(group, "pre-competition").WeeksOut(weeks)).EligibleIds();
        Assert.Contains("hollow-plank-crawl", At((decimal)to));
        Assert.DoesNotContain("hollow-plank-crawl", At((decimal)from - 0.01m));
        Assert.Contains("hollow-high-plank-hold", At((decimal)from - 0.01m));
    }

    /// <summary>A hotel with a band and a dumbbell, in season: a full, dosed list for every event.</summary>
    [Theory]
    [InlineData("pre-competition", 4)]
    [InlineData("competition", 2)]
    [InlineData("taper", 1)]
    public void A_hotel_gives_a_full_dosed_list_for_every_event(string phase, int weeks)
    {
        foreach (var e in TestEdition.Vocabulary.Events)
        {
            var request = RequestBuilder.For(e.EventGroup, phase).Doing(e.Id).Aged(24, 5).WeeksOut(weeks).In("hotel", ["band", "dumbbell"]).Limited("quiet").Request;
            var answer = Stages.Answer(request with { Setting = request.Setting! with { Kit = new KitFacts { Dumbbell = new DumbbellKit { MaxKg = 20, StepKg = 2 } } } });
            Assert.True(answer.Picks.Count == 6, $"{e.Id}: {answer.Picks.Count} picks.");
            Assert.All(answer.Picks, p => Assert.All(p.Exercise.Equipment, id => Assert.True(id is "band" or "dumbbell" or "mini-band", $"{e.Id}: {p.Exercise.Id} needs {id}.")));
            Assert.All(answer.Picks, p => Assert.True(p.Dose is { Sets: > 0, Amount: > 0, Intent.Length: > 0, Progression.Length: > 0, StopRule.Length: > 0, KeepWeeks.From: >= 1 }));
            Assert.All(answer.Picks, p => Assert.True(p.Dose!.LoadKg is null or <= 20, $"{e.Id}: {p.Exercise.Id} with {p.Dose!.LoadKg} kg."));
        }
    }

    private static Dose Dose(RequestBuilder request, string exercise, string quality)
    {
        var stages = Stages.Of(request);
        return new DoseCalculator(stages.Situation, stages.Profile).Next(stages.Catalogue.PositionOf(exercise), TestEdition.Vocabulary.Qualities.IndexOf(quality), []);
    }
}
