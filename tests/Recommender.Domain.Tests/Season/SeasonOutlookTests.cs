using Recommender.Domain.Eligibility;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Season;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Season;

/// <summary>The outlook against the stages themselves, asked day by day.</summary>
public sealed class SeasonOutlookTests
{
    private const int Days = 70;

    [Theory]
    [InlineData("discus")]
    [InlineData("1500m")]
    [InlineData("long-jump")]
    public void What_goes_out_is_what_the_gates_refuse_from_that_day_on(string athleteEvent)
    {
        var (request, outlook) = Outlook(athleteEvent);
        Assert.Contains(outlook.Ends, e => !e.OnlyNew);
        Assert.Contains(outlook.Ends, e => e.OnlyNew);
        foreach (var end in outlook.Ends)
        {
            foreach (var position in end.Positions)
            {
                var id = TestEdition.Current.Catalogue.Exercises[position].Id;
                int? done = end.OnlyNew ? null : 7;
                Assert.True(Refused(request, outlook, end.DaysBefore, id, done), $"{id} is still there {end.DaysBefore} days before.");
                Assert.True(end.DaysBefore == Days || !Refused(request, outlook, end.DaysBefore + 1, id, done), $"{id} had gone out before.");
            }
        }
    }

    [Fact]
    public void What_is_never_named_is_still_there_on_the_day()
    {
        var (request, outlook) = Outlook("discus");
        var named = outlook.Ends.SelectMany(e => e.Positions).ToHashSet();
        var day = Eligible(request, outlook, 0, null);
        Assert.Equal(outlook.Possible - named.Count, day.Count(p => !named.Contains(p)));
    }

    /// <summary>By hand from rules/peaking.json: fewer than 3 weeks are 20 days, fewer than half a week 3, and two days before a competition nothing that makes sore.</summary>
    [Theory]
    [InlineData("throws-sore-trunk", 20)]
    [InlineData("new-very-sore", 10)]
    [InlineData("new-sore", 6)]
    [InlineData("heavy-last-days", 3)]
    public void Windows_begin_on_the_first_day_below_their_weeks(string rule, int day) =>
        Assert.Equal(day, Outlook("discus").Outlook.Ends.Where(e => e.Rule == rule).Max(e => e.DaysBefore));

    [Fact]
    public void Needs_are_those_that_a_request_in_that_phase_is_told()
    {
        var (request, outlook) = Outlook("1500m");
        foreach (var phase in outlook.Phases)
        {
            var told = NeedsPipeline.Answer(request with { Phase = TestEdition.Vocabulary.Phases[(int)phase.Span.Phase].Id, Competitions = null, WeeksToCompetition = 1 }, TestEdition.Current);
            Assert.Equal(told.Needs.Select(n => (n.Quality, n.Weight)), phase.Needs.Select(n => (n.Quality, n.Weight)));
        }
    }

    /// <summary>The published cut of volume begins seven to ten days out in distance races, two weeks out otherwise (rules/week.json); here it is the taper phase that begins first.</summary>
    [Fact]
    public void The_taper_begins_with_its_phase_or_its_rule_whichever_is_first()
    {
        Assert.Equal((13, (string?)null), (Outlook("discus").Outlook.TaperFrom!.Value, Outlook("discus").Outlook.Taper?.Id));
        var request = new RecommendationRequest { Athlete = new AthleteFacts { Event = "10000m", EventGroup = "distance" } };
        var plan = new SeasonPlan(Days, [new PhaseSpan(Phase.PreCompetition, Days, 0)]);
        var outlook = SeasonOutlook.Of(request, plan, TestEdition.Current);
        Assert.Equal((10, "last-days-distance"), (outlook.TaperFrom, outlook.Taper?.Id));
    }

    [Fact]
    public void A_red_flag_that_stops_everything_leaves_nothing_to_go_out()
    {
        var flag = TestEdition.Vocabulary.RedFlags.First(f => f.Scope == "all" && !TestEdition.Knowledge.Returning.Clearances.Any(c => c.Flag == f.Id)).Id;
        var request = new RecommendationRequest { Athlete = new AthleteFacts { Event = "discus", EventGroup = "throws" }, RedFlags = [flag] };
        var outlook = SeasonOutlook.Of(request, SeasonPlan.Of(Days, null, new Dictionary<Phase, int>(), TestEdition.Knowledge.Planning!.Season), TestEdition.Current);
        Assert.Equal(0, outlook.Possible);
        Assert.Empty(outlook.Ends);
    }

    private static (RecommendationRequest Request, SeasonOutlook Outlook) Outlook(string athleteEvent)
    {
        var request = new RecommendationRequest
        {
            Athlete = new AthleteFacts { Event = athleteEvent, EventGroup = TestEdition.Vocabulary.Events.Find(athleteEvent)!.EventGroup, TrainingAgeYears = 6 },
            Setting = new SettingFacts { Place = "full-gym" },
        };
        return (request, SeasonOutlook.Of(request, SeasonPlan.Of(Days, Phase.PreCompetition, new Dictionary<Phase, int>(), TestEdition.Knowledge.Planning!.Season), TestEdition.Current));
    }

    private static bool Refused(RecommendationRequest request, SeasonOutlook outlook, int day, string exercise, int? doneDaysAgo)
    {
        var context = Context(request, outlook, day, doneDaysAgo is { } ago ? [new RecentWork { Exercise = exercise, DaysAgo = ago }] : null);
        var position = TestEdition.Current.Catalogue.PositionOf(exercise);
        return EligibilityFilter.Gates.Any(g => g is OutsidePeakingWindow or HardDayKeptFree && g.Asks(context) && g.Refuses(context, position));
    }

    private static int[] Eligible(RecommendationRequest request, SeasonOutlook outlook, int day, IReadOnlyList<RecentWork>? recent) => EligibilityFilter.Apply(Context(request, outlook, day, recent)).Eligible;

    private static GateContext Context(RecommendationRequest request, SeasonOutlook outlook, int day, IReadOnlyList<RecentWork>? recent)
    {
        var situation = Situation.Of(request with { Phase = TestEdition.Vocabulary.Phases[(int)outlook.Plan.At(day)].Id, Competitions = [new Competition { DaysToStart = day }], Recent = recent }, TestEdition.Current);
        return new GateContext(situation, TissueLimits.Of(situation));
    }
}
