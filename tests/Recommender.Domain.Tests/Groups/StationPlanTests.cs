using CsCheck;
using Recommender.Domain.Decisions;
using Recommender.Domain.Groups;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Groups;

public sealed class StationPlanTests
{
    private static readonly StationRules Rules = TestEdition.Knowledge.Planning!.Stations;

    private static readonly Lazy<IReadOnlyList<Pick>> Pool = new(() => Stages.Answer(new RecommendationRequest
    {
        Athlete = new AthleteFacts { Event = "100m", EventGroup = "sprints", TrainingAgeYears = 8 },
        Phase = "general-preparation",
        WeeksToCompetition = 24,
        Setting = new SettingFacts { Place = "full-gym" },
        Count = 30,
    }).Picks);

    [Fact]
    public void Everybody_does_each_exercise_once_one_a_round_and_no_rack_is_taken_twice()
    {
        Assert.Contains(Pool.Value, NeedsRack);
        Gen.Select(Gen.Int[0, 29].HashSet[1, 5].Array[1, 14], Gen.Int[1, 4]).Sample((chosen, racks) =>
        {
            List<IReadOnlyList<Pick>> picks = [.. chosen.Select(c => (IReadOnlyList<Pick>)[.. c.Where(i => i < Pool.Value.Count).Order().Select(i => Pool.Value[i])])];
            var plan = StationPlan.Of(picks, racks, Rules);
            var turns = plan.Rounds.SelectMany((r, i) => r.Stations.SelectMany(s => s.Turns.Select(t => (Round: i, s.Rack, t.Athlete, t.Pick)))).ToList();
            Assert.Equal(picks.SelectMany((p, a) => p.Select(x => (a, x.Exercise.Id))).Order(), turns.Select(t => (t.Athlete, t.Pick.Exercise.Id)).Order());
            Assert.All(turns.GroupBy(t => (t.Round, t.Athlete)), g => Assert.Single(g));
            foreach (var round in plan.Rounds)
            {
                var taken = round.Stations.Where(s => s.Rack > 0).ToList();
                Assert.Equal(Enumerable.Range(1, taken.Count), taken.Select(s => s.Rack));
                Assert.True(taken.Count <= racks);
                Assert.All(taken, s => Assert.InRange(s.Turns.Count, 1, Rules.AthletesEach));
                Assert.All(round.Stations, s => Assert.Single(s.Turns.Select(t => t.Pick.Exercise.Id).Distinct()));
                Assert.All(round.Stations, s => Assert.Equal(s.Rack > 0, NeedsRack(s.Turns[0].Pick)));
            }
        });
    }

    [Fact]
    public void What_is_in_use_at_once_is_one_each_and_one_for_all_at_a_rack()
    {
        var rack = Pool.Value.First(NeedsRack);
        var plan = StationPlan.Of([[rack], [rack], [rack]], 1, Rules);
        var round = Assert.Single(plan.Rounds);
        Assert.All(round.AtOnce, e => Assert.Equal(1, e.Count));
        Assert.Equal(rack.Exercise.Equipment.Order(), round.AtOnce.Select(e => e.Equipment).Order());
    }

    private static bool NeedsRack(Pick pick) => pick.Exercise.Equipment.Any(e => Rules.Equipment.Contains(e));
}
