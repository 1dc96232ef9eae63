using System.Text.Json;
using CsCheck;
using Microsoft.Extensions.Primitives;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Requests;
using Recommender.Pages.Ask;
using Recommender.Pages.Athletes;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Athletes;

public sealed class AthleteFormTests
{
    private static readonly DateOnly Today = new(2026, 11, 24);

    private static readonly AthleteProfile Saved = new("NM-04", "Solveig Amadi",
        new AthleteFacts
        {
            Event = "long-jump",
            EventGroup = "jumps",
            Competence = ["barbell-lifts"],
            OneRepMaxKg = new Dictionary<string, decimal> { ["back-squat"] = 95 },
            Restrictions = [new Restriction { Region = "lower-back", MaxLoadingRate = "slow", ReviewInDays = -12, By = "club physiotherapist" }],
            Layoff = new LayoffFacts { Weeks = 3, Reason = "illness" },
            History = [new EarlierInjury { Region = "ankle", Side = "left", MonthsAgo = 7 }],
        },
        "pre-competition", null, new SettingFacts { Place = "hotel", Equipment = ["band"], Minutes = 20 },
        [new Complaint { Region = "patellar-tendon", Side = "left", Pain = 3, NextMorning = "settled", DaysSinceOnset = 20, Stage = "slow-heavy" }],
        [new CoachNeed { Quality = "trunk-control", Importance = "high" }],
        [new Competition { DaysToStart = 4 }, new Competition { DaysToStart = 60, Priority = "build-up", Days = 2 }],
        new TestResults { CounterMovementJumpCm = 45, SingleLegJumpCm = new(20, 24), DropJump = new(30, null, 180, 30), LoadedJumps = [new(40, 30)], DaysAgo = 3, Trials = 3 },
        new DateOnly(2027, 1, 5), Today);

    [Fact]
    public void A_form_that_is_sent_as_it_was_filled_changes_nothing()
    {
        var form = new AthleteForm(Saved, TestEdition.Current, Today);
        var (read, faults) = form.Read(AthleteForm.Compact(form.Filled()));
        Assert.Empty(faults);
        Assert.Equal(Json(Saved), Json(read));
    }

    [Fact]
    public void Rows_that_were_emptied_go_and_the_others_move_up()
    {
        var typed = With(("competitions.0.date", ""), ("athlete.restrictions.0.region", ""), ("athlete.restrictions.3.region", "hip"), ("athlete.restrictions.3.maxTissueLoad", "4"), ("athlete.restrictions.3.review", "2026-12-24"));
        var (read, faults) = new AthleteForm(Saved, TestEdition.Current, Today).Read(AthleteForm.Compact(typed));
        Assert.Empty(faults);
        Assert.Equal(60, Assert.Single(read.Competitions!).DaysToStart);
        var restriction = Assert.Single(read.Athlete.Restrictions!);
        Assert.Equal(("hip", 4m, 30), (restriction.Region, restriction.MaxTissueLoad, restriction.ReviewInDays));
    }

    [Theory]
    [InlineData("competitions.0.date", "soon", "/competitions/0/date")]
    [InlineData("competitions.1.date", "2029-01-01", "/competitions/1/date")]
    [InlineData("complaints.0.since", "2026-12-01", "/complaints/0/since")]
    [InlineData("athlete.restrictions.0.maxTissueLoad", "much", "/athlete/restrictions/0/maxTissueLoad")]
    [InlineData("tests.singleLegJumpCm.left", "x", "/tests/singleLegJumpCm/left")]
    [InlineData("tests.on", "2026-13-01", "/tests/on")]
    [InlineData("nextTestOn", "x", "/nextTestOn")]
    public void What_cannot_be_read_is_told_at_its_field(string field, string text, string pointer) =>
        Assert.Contains(new AthleteForm(Saved, TestEdition.Current, Today).Read(AthleteForm.Compact(With((field, text)))).Faults, f => f.Pointer == pointer);

    /// <summary>Plain arithmetic of days.</summary>
    [Fact]
    public void A_profile_grows_older_by_itself()
    {
        var later = Saved.On(Today.AddDays(10));
        Assert.Equal(50, Assert.Single(later.Competitions!).DaysToStart);
        Assert.Equal(-22, later.Athlete.Restrictions![0].ReviewInDays);
        Assert.Equal(30, later.Complaints![0].DaysSinceOnset);
        Assert.Equal(13, later.Tests!.DaysAgo);
        Assert.Equal(Today.AddDays(10), later.AsOf);
        Assert.Equal(4.57m, (Saved with { Competitions = null, WeeksToCompetition = 6 }).On(Today.AddDays(10)).WeeksToCompetition);
        Assert.Same(Saved, Saved.On(Today));
    }

    [Fact]
    public void Growing_older_in_two_steps_is_growing_older_in_one() =>
        Gen.Select(Gen.Int[0, 60], Gen.Int[0, 60]).Sample((a, b) => Assert.Equal(
            Json((Saved with { Athlete = Saved.Athlete with { History = null } }).On(Today.AddDays(a + b))),
            Json((Saved with { Athlete = Saved.Athlete with { History = null } }).On(Today.AddDays(a)).On(Today.AddDays(a + b)))));

    private static Typed With(params (string Name, string Value)[] changes)
    {
        var filled = new AthleteForm(Saved, TestEdition.Current, Today).Filled();
        var fields = filled.Names.ToDictionary(n => n, n => new StringValues([.. filled.All(n)]), StringComparer.Ordinal);
        foreach (var (name, value) in changes)
        {
            fields[name] = value;
        }

        return new Typed(fields);
    }

    private static string Json(AthleteProfile profile) => JsonSerializer.Serialize(profile, WireJson.Compact.AthleteProfile);
}
