using Recommender.Domain.Catalogue;
using Recommender.Domain.Ledger;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Ledger;

/// <summary>Per side = sets x amount x loadings per unit x load, worked by hand on values of the catalogue.</summary>
public sealed class TissueLedgerTests
{
    private static readonly TissueLedger Ledger = new(TestEdition.Current.Catalogue, TestEdition.Knowledge);

    [Theory]
    [InlineData(24, 500, 1, 12_000)] // 3 x 8 at load 5: 120.00
    [InlineData(0.3, 612, 1, 184)] // 0.3 x 6.12 = 1.836
    [InlineData(10, 200, 2, 4_000)] // 10 x 2^2 = 40.00
    public void An_entry_is_loadings_times_load(decimal loadings, int load, decimal exponent, long hundredths) => Assert.Equal(hundredths, TissueLedger.Entry(loadings, load, exponent));

    [Fact]
    public void The_exponent_in_force_is_one() => Assert.Equal(1m, TestEdition.Knowledge.Ledger.Exponent.Value);

    [Theory]
    [InlineData("goblet-squat", 3, 8, "reps", 24)] // both feet: the same repetitions load both sides
    [InlineData("single-leg-romanian-deadlift", 3, 8, "reps", 24)] // counted a side: each side does the amount
    [InlineData("alternate-leg-bound", 4, 10, "contacts", 20)] // from foot to foot: half the contacts each
    [InlineData("wall-lean-calf-hold", 3, 30, "seconds", 9)] // ten seconds are one loading
    [InlineData("running", 2, 60, "metres", 60)] // two metres are one loading of each side
    public void Loadings_of_a_side_follow_how_the_work_is_counted(string exercise, int sets, decimal amount, string unit, decimal loadings) =>
        Assert.Equal(loadings, Ledger.Loadings(TestEdition.Exercise(exercise), sets, amount, Enum.Parse<DoseUnit>(unit, ignoreCase: true)));

    [Fact]
    public void Both_sides_get_the_work_of_both_feet_and_nothing_is_doubled()
    {
        var sheet = new LedgerSheet(TestEdition.Current.Catalogue.RegionCount);
        Ledger.Add(sheet, TestEdition.Current.Catalogue.PositionOf("drop-jump"), 4, 6, DoseUnit.Contacts, 1);
        var tendon = sheet.Totals(TestEdition.Vocabulary)["patellar-tendon"];
        var load = TestEdition.Exercise("drop-jump").TissueLoad["patellar-tendon"].Value;
        Assert.Equal(new SideTotal(24 * load, 24 * load), tendon);
    }

    [Fact]
    public void Recent_work_of_seven_days_counts_and_older_work_does_not()
    {
        RecommendationRequest request = RequestBuilder.For();
        request = request with
        {
            Recent =
            [
                new RecentWork { Exercise = "goblet-squat", DaysAgo = 6, Sets = 3, Amount = 8, Unit = "reps" },
                new RecentWork { Exercise = "goblet-squat", DaysAgo = 7, Sets = 9, Amount = 8, Unit = "reps" },
            ],
        };
        var total = WeekLedger.Work(Situation.Of(request, TestEdition.Current)).Totals(TestEdition.Vocabulary)["quadriceps"];
        Assert.Equal(24 * TestEdition.Exercise("goblet-squat").TissueLoad["quadriceps"].Value, total.Left);
    }

    [Fact]
    public void Take_offs_load_the_take_off_leg_and_both_where_it_is_not_said()
    {
        var day = new TrainingDay { Kind = "full-approach", DaysFromToday = -1, Contacts = 8 };
        RecommendationRequest request = RequestBuilder.For();
        var left = Training(request with { Athlete = request.Athlete! with { TakeOffLeg = "left" }, Training = [day] })["achilles-calf"];
        var unsaid = Training(request with { Training = [day] })["achilles-calf"];
        Assert.True(left.Left > 0 && left.Right == 0);
        Assert.Equal((left.Left, left.Left), (unsaid.Left, unsaid.Right));
    }

    [Fact]
    public void Throws_load_the_throwing_arm_and_both_legs()
    {
        RecommendationRequest request = RequestBuilder.For("throws").Doing("javelin");
        var totals = Training(request with { Athlete = request.Athlete! with { ThrowingSide = "right" }, Training = [new TrainingDay { Kind = "throws", DaysFromToday = 0, Throws = 30 }] });
        Assert.True(totals["elbow"] is { Left: 0, Right: > 0 });
        Assert.Equal(totals["patellar-tendon"].Left, totals["patellar-tendon"].Right);
    }

    [Fact]
    public void A_gym_session_without_its_exercises_is_not_guessed()
    {
        RecommendationRequest request = RequestBuilder.For();
        Assert.Empty(Training(request with { Training = [new TrainingDay { Kind = "gym", DaysFromToday = -1, Minutes = 60 }] }));
    }

    /// <summary>Common practice, no source: the track is the largest load of all. A usual week of each group beside three accessory sessions.</summary>
    [Theory]
    [InlineData("sprints", "acceleration", "max-velocity", "tempo")]
    [InlineData("distance", "long-run", "intervals", "tempo")]
    [InlineData("jumps", "acceleration", "tempo", "short-approach")]
    public void The_track_loads_the_lower_leg_more_than_three_accessory_sessions(string group, params string[] kinds)
    {
        RecommendationRequest request = RequestBuilder.For(group);
        var situation = Situation.Of(request with
        {
            Training = [.. kinds.Select((k, i) => new TrainingDay { Kind = k, DaysFromToday = -1 - i })],
            Recent = [.. Enumerable.Range(0, 3).Select(i => new RecentWork { Exercise = "single-leg-calf-raise", DaysAgo = 2 * i, Sets = 3, Amount = 12, Unit = "reps" })],
        }, TestEdition.Current);
        var track = WeekLedger.Training(situation).Totals(TestEdition.Vocabulary)["achilles-calf"];
        var gym = WeekLedger.Work(situation).Totals(TestEdition.Vocabulary)["achilles-calf"];
        Assert.True(track.Left > gym.Left, $"{track} is not above {gym}.");
    }

    [Fact]
    public void Easier_track_work_counts_less_and_unsaid_effort_counts_in_full()
    {
        RecommendationRequest request = RequestBuilder.For("distance");
        decimal At(decimal? effort) => Training(request with { Training = [new TrainingDay { Kind = "long-run", DaysFromToday = -1, Minutes = 50, Effort = effort }] })["shin-bone"].Left;
        Assert.True(At(3) < At(7) && At(7) < At(10));
        Assert.Equal(At(10), At(null));
    }

    private static OrderedDictionary<string, SideTotal> Training(RecommendationRequest request) => WeekLedger.Training(Situation.Of(request, TestEdition.Current)).Totals(TestEdition.Vocabulary);
}
