using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Dosing;

public sealed class DoseCalculatorTests
{
    private static readonly Exercise Lift = ExerciseBuilder.Named("lift").But(e => e with { SetUpMinutes = 1, LoadBand = LoadBand.Heavy });

    // 4 sets of 5 in general preparation at 70 to 80 %: (4 x 15 + 3 x 60) s = 4 min, and one to set up.
    private static readonly DoseRow Strength = DoseRowTests.Row(sets: 4, minSets: 2) with
    {
        Intensity = new DoseRowIntensity("percent-1rm", [70, 75, 80, 80, 80, 60], [80, 85, 90, 90, 90, 70]),
        Sets = [4, 3, 3, 2, 2, 2],
        Amount = [5, 4, 3, 3, 3, 6],
        Tempo = "3-0-1",
    };

    [Fact]
    public void Takes_sets_amount_and_intensity_of_the_phase()
    {
        var dose = Dose(RequestBuilder.For(phase: "general-preparation"));
        Assert.Equal((4, 5m, DoseUnit.Reps, false), (dose.Sets, dose.Amount, dose.Unit, dose.PerSide));
        Assert.Equal(new Intensity("percent-1rm", 70, 80), dose.Intensity);
        Assert.Equal((60, "3-0-1", 1, 5m), (dose.RestSeconds, dose.Tempo, dose.SessionsPerWeek, dose.Minutes));
        Assert.Equal((2, 3m, 2), (Dose(RequestBuilder.For(phase: "taper")).Sets, Dose(RequestBuilder.For(phase: "taper")).Amount, Dose(RequestBuilder.For(phase: "taper")).SessionsPerWeek));
    }

    [Fact]
    public void The_first_row_that_holds_gives_the_dose()
    {
        var dose = Dose(RequestBuilder.For(phase: "general-preparation"), DoseRowTests.Row(sets: 1) with { EventGroups = ["throws"] }, DoseRowTests.Row(sets: 2), Strength);
        Assert.Equal(2, dose.Sets);
    }

    [Fact]
    public void Drops_sets_to_fit_the_minutes()
    {
        Assert.Equal((3, 3.8m), (Dose(RequestBuilder.For(phase: "general-preparation").InMinutes(4.9m)).Sets, Dose(RequestBuilder.For(phase: "general-preparation").InMinutes(4.9m)).Minutes));
        Assert.Equal(4, Dose(RequestBuilder.For(phase: "general-preparation").InMinutes(5)).Sets);
    }

    [Fact]
    public void Never_drops_below_the_fewest_sets_worth_doing() => Assert.Equal(2, Dose(RequestBuilder.For(phase: "general-preparation").InMinutes(1)).Sets);

    [Fact]
    public void A_known_maximum_gives_the_load_at_the_lower_end_rounded_down()
    {
        // 70 % of 96 kg is 67.2 kg; plates step by 2.5 kg.
        Assert.Equal(65m, Dose(RequestBuilder.For(phase: "general-preparation").Lifting("lift", 96)).LoadKg);
        Assert.Equal(67.5m, Dose(RequestBuilder.For(phase: "general-preparation").Lifting("lift", 97)).LoadKg);
    }

    [Fact]
    public void Without_a_maximum_no_load_is_said() => Assert.Null(Dose(RequestBuilder.For()).LoadKg);

    [Fact]
    public void A_load_below_the_lightest_bar_is_not_said()
    {
        Assert.Null(Dose(RequestBuilder.For(phase: "general-preparation").Lifting("lift", 28)).LoadKg);
        Assert.Equal(20m, Dose(RequestBuilder.For(phase: "general-preparation").Lifting("lift", 29)).LoadKg);
    }

    [Fact]
    public void Other_kinds_of_intensity_give_no_load() =>
        Assert.Null(Dose(RequestBuilder.For().Lifting("lift", 100), Strength with { Intensity = new DoseRowIntensity("reps-in-reserve", [2, 2, 2, 2, 2, 2], [3, 3, 3, 3, 3, 3]) }).LoadKg);

    [Fact]
    public void A_sore_region_brings_its_own_row()
    {
        var sore = DoseRowTests.Row(sets: 1) with { SoreRegions = ["patellofemoral"] };
        Assert.Equal(1, Dose(RequestBuilder.For().Sore("knee", 2), sore, Strength).Sets);
        Assert.NotEqual(1, Dose(RequestBuilder.For().Sore("shoulder", 2), sore, Strength).Sets);
    }

    [Fact]
    public void Every_exercise_has_a_dose_for_everything_it_is_rated_for_in_every_phase()
    {
        foreach (var phase in TestEdition.Vocabulary.Phases)
        {
            var situation = Stages.Of(RequestBuilder.Skilled(phase: phase.Id)).Situation;
            var catalogue = TestEdition.Current.Catalogue;
            for (var e = 0; e < catalogue.Count; e++)
            {
                foreach (var column in catalogue.RatingsOf(e))
                {
                    var dose = new DoseCalculator(situation, new NeedProfile([], [])).Next(e, column.Quality, catalogue.Exercises[e].Equipment[0]);
                    Assert.True(dose is { Sets: >= 1, Amount: > 0, SessionsPerWeek: >= 1, Minutes: > 0 and < 40 }, $"{catalogue.Exercises[e].Id} for {column.Quality} in {phase.Id}: {dose}");
                }
            }
        }
    }

    private static Dose Dose(RequestBuilder request, params DoseRow[] rows)
    {
        var rules = TestEdition.Knowledge.Dose with { Rows = rows.Length == 0 ? [Strength] : rows, LoadStepKg = new RuleNumber(2.5m, Basis.CommonPractice), LightestBarKg = new RuleNumber(20, Basis.CommonPractice) };
        var situation = Stages.Of(request, TestEdition.Of([Lift], TestEdition.Knowledge.With(dose: rules))).Situation;
        return new DoseCalculator(situation, new NeedProfile([], [])).Next(0, TestEdition.Vocabulary.Qualities.IndexOf("max-strength"), ["barbell"]);
    }
}
