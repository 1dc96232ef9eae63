using CsCheck;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Season;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Season;

public sealed class SeasonPlanTests
{
    private static readonly Dictionary<Phase, int> Usual = [];

    private static SeasonRules Rules => TestEdition.Knowledge.Planning!.Season;

    [Fact]
    public void Every_day_has_one_phase_and_todays_comes_first() =>
        Gen.Select(Gen.Int[0, 420], Gen.Enum<Phase>(), Gen.Bool).Sample((days, today, said) =>
        {
            var plan = SeasonPlan.Of(days, said ? today : null, Usual, Rules);
            Assert.Equal(days, plan.Phases[0].FromDay);
            Assert.Equal(0, plan.Phases[^1].ToDay);
            Assert.All(plan.Phases.Zip(plan.Phases.Skip(1)), p => Assert.Equal(p.First.ToDay - 1, p.Second.FromDay));
            Assert.All(plan.Phases, p => Assert.True(p.FromDay >= p.ToDay));
            if (said)
            {
                Assert.Equal(today, plan.Phases[0].Phase);
            }
        });

    /// <summary>By hand: 2 + 2 + 6 weeks come before the competition; 12 weeks leave two for today's phase.</summary>
    [Fact]
    public void Phases_to_come_keep_their_length_and_todays_takes_what_is_left()
    {
        var plan = SeasonPlan.Of(12 * 7, Phase.SpecificPreparation, new Dictionary<Phase, int> { [Phase.PreCompetition] = 6, [Phase.Competition] = 2, [Phase.Taper] = 2 }, Rules);
        Assert.Equal([(Phase.SpecificPreparation, 84, 70), (Phase.PreCompetition, 69, 28), (Phase.Competition, 27, 14), (Phase.Taper, 13, 0)], plan.Phases.Select(p => (p.Phase, p.FromDay, p.ToDay)));
    }

    /// <summary>By hand, Hamilton's method: 10, 10, 6, 2, 2 of 30 over 12 weeks are 4, 4, 2.4, 0.8, 0.8; the two weeks left go to the largest remainders.</summary>
    [Fact]
    public void Where_weeks_are_short_all_phases_shrink_in_proportion()
    {
        var plan = SeasonPlan.Of(12 * 7, Phase.GeneralPreparation, Usual, Rules);
        Assert.Equal([(Phase.GeneralPreparation, 84), (Phase.SpecificPreparation, 55), (Phase.PreCompetition, 27), (Phase.Competition, 13), (Phase.Taper, 6)], plan.Phases.Select(p => (p.Phase, p.FromDay)));
    }

    [Fact]
    public void No_phase_of_the_usual_season_draws_the_caution_that_it_does_not_fit_the_date() =>
        Gen.Int[0, 60 * 7].Sample(days =>
        {
            var phase = SeasonPlan.Of(days, null, Usual, Rules).At(days);
            var usual = TestEdition.Knowledge.Week.PhaseWeeks.First(p => p.Phase == phase);
            Assert.InRange(days / 7m, usual.From, usual.To);
        });
}
