using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Requests;

public sealed class SituationTests
{
    private static DefaultRules Defaults => TestEdition.Knowledge.Defaults;

    [Fact]
    public void Everything_left_out_is_taken_from_the_rules_and_said()
    {
        var situation = Of(RequestBuilder.For("throws", "competition").Sore("shoulder", 2, side: null, nextMorning: null).Wanting("grip", null));
        var place = TestEdition.Vocabulary.Places.Find(Defaults.Place)!;
        var assumed = situation.Assumed.ToDictionary(a => a.Pointer, a => a.Value);
        Assert.Equal(["/athlete/ageYears", "/athlete/competence", "/athlete/event", "/athlete/trainingAgeYears", "/complaints/0/nextMorning", "/complaints/0/side", "/count", "/needs/0/importance",
            "/setting/equipment", "/setting/place", "/weeksToCompetition"], assumed.Keys.Order(StringComparer.Ordinal));
        Assert.Equal("adult", assumed["/athlete/ageYears"]);
        Assert.Equal(TestEdition.Knowledge.GroupOf("throws").DefaultEvent, assumed["/athlete/event"]);
        Assert.Equal(Defaults.TrainingAgeYears, assumed["/athlete/trainingAgeYears"]);
        Assert.Equal(Defaults.WeeksByPhase[(int)Phase.Competition], assumed["/weeksToCompetition"]);
        Assert.Equal((place.Id, "both", "same", "medium", Defaults.Count),
            (assumed["/setting/place"], assumed["/complaints/0/side"], assumed["/complaints/0/nextMorning"], assumed["/needs/0/importance"], assumed["/count"]));
        Assert.Equal(place.Equipment, (IReadOnlyList<string>)assumed["/setting/equipment"]);

        Assert.Equal((Defaults.AdultAgeYears, Defaults.TrainingAgeYears, Defaults.Count), (situation.AgeYears, situation.TrainingAgeYears, situation.Count));
        Assert.Equal((Side.Both, 2, false), (situation.Complaints[0].Side, situation.Complaints[0].EffectivePain, situation.Complaints[0].WorseMorning));
        Assert.Null(situation.Minutes);
        Assert.Null(situation.Only);
        Assert.Empty(situation.SettingLimits);
    }

    [Fact]
    public void What_was_said_is_not_assumed()
    {
        var situation = Of(RequestBuilder.Skilled("jumps").Doing("high-jump").WeeksOut(7).Sore("hip", 1, "left", "settled").Wanting("grip", "low").Count(3));
        Assert.Empty(situation.Assumed);
        Assert.Equal(("high-jump", 7m, 3, Side.Left), (situation.Event, situation.WeeksToCompetition, situation.Count, situation.Complaints[0].Side));
    }

    [Fact]
    public void An_empty_list_of_equipment_means_none()
    {
        var situation = Of(RequestBuilder.For().With());
        Assert.Equal(0UL, situation.EquipmentMask);
        Assert.DoesNotContain(situation.Assumed, a => a.Pointer == "/setting/equipment");
    }

    [Fact]
    public void Equipment_follows_the_place_that_was_said()
    {
        var hotel = TestEdition.Vocabulary.Places.Find("hotel")!;
        Assert.Equal(hotel.Equipment, (IReadOnlyList<string>)Of(RequestBuilder.For().In("hotel")).Assumed.Single(a => a.Pointer == "/setting/equipment").Value);
    }

    [Fact]
    public void A_pair_of_dumbbells_serves_as_one()
    {
        Assert.Equal(TestEdition.Vocabulary.Equipment.Mask(["dumbbell", "dumbbells"]), Of(RequestBuilder.For().With("dumbbells")).EquipmentMask);
        Assert.Equal(TestEdition.Vocabulary.Equipment.Mask(["dumbbell"]), Of(RequestBuilder.For().With("dumbbell")).EquipmentMask);
    }

    [Fact]
    public void Competences_of_the_highest_step_reached_are_taken()
    {
        var steps = TestEdition.Knowledge.Competence.ByTrainingAge;
        foreach (var step in steps)
        {
            Assert.Equal(TestEdition.Vocabulary.Competences.Mask(step.Competences), Of(RequestBuilder.For().Trained(step.FromYears)).CompetenceMask);
        }

        Assert.Equal(TestEdition.Vocabulary.Competences.Mask(steps[^1].Competences), Of(RequestBuilder.For().Aged(60, 50)).CompetenceMask);
    }

    [Fact]
    public void The_group_follows_from_the_event() => Assert.Equal("throws", Of(RequestBuilder.For().Athlete(a => a with { EventGroup = null, Event = "javelin" })).EventGroup);

    [Fact]
    public void The_last_time_of_each_exercise_counts() =>
        Assert.Equal([3, 1], Of(RequestBuilder.For().Did("back-squat", 9).Did("front-squat", 1).Did("back-squat", 3)).LastDone.Select(l => l.DaysAgo));

    [Fact]
    public void A_worse_morning_raises_pain_up_to_its_cap_and_never_lowers_it()
    {
        var rule = TestEdition.Knowledge.Pain.WorseMorning;
        int Effective(int pain) => Of(RequestBuilder.For().Sore("hip", pain, nextMorning: "worse")).Complaints[0].EffectivePain;
        Assert.Equal(Math.Min(rule.AtMost, rule.AddsPain), Effective(0));
        Assert.Equal(rule.AtMost, Effective(rule.AtMost - 1));
        Assert.Equal(rule.AtMost + 2, Effective(rule.AtMost + 2));
        Assert.Equal(10, Effective(10));
    }

    [Fact]
    public void Dose_rows_of_a_sore_region_are_those_of_what_it_covers_too()
    {
        var table = TestEdition.Current.DoseTable;
        DoseCircumstances With(params string[] sore) => new(Phase.GeneralPreparation, "sprints", TestEdition.Knowledge.Defaults.AdultAgeYears, TestEdition.Knowledge.Defaults.TrainingAgeYears, sore);
        var knee = Of(RequestBuilder.For("sprints").Sore("knee", 1)).DoseRows;
        Assert.Equal(table.InForce(With("knee", "patellar-tendon", "patellofemoral")), knee);
        Assert.NotEqual(table.InForce(With()), knee);
    }

    private static Situation Of(RequestBuilder request) => Situation.Of(request, TestEdition.Current);
}
