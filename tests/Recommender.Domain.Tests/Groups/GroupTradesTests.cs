using Recommender.Domain.Groups;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Groups;

/// <summary>Trades against the gates and points of each athlete's own request.</summary>
public sealed class GroupTradesTests
{
    private static SharingRules Rules => TestEdition.Knowledge.Planning!.Sharing with { LossShare = 0.3m, LeastLikeness = 0.3m };

    [Fact]
    public void Each_trade_is_inside_every_gate_loses_little_and_is_done_by_somebody_else()
    {
        var members = Group();
        var trades = GroupTrades.Of(members, TestEdition.Current, Rules);
        Assert.NotEmpty(trades);
        foreach (var trade in trades)
        {
            var stages = Stages.Of(members[trade.Member].Request);
            Assert.Contains(trade.To.Exercise.Id, stages.EligibleIds());
            Assert.Equal(Math.Max(0, trade.From.Score.Thousandths - trade.To.Score.Thousandths), trade.Loss.Thousandths);
            Assert.True(trade.Loss.Thousandths <= Rules.LossShare * trade.From.Score.Thousandths);
            Assert.True(trade.To.Similarity >= Rules.LeastLikeness);
            Assert.NotNull(trade.To.Dose);
        }

        var after = members.Select((m, i) => m.Picks.Select(p => trades.FirstOrDefault(t => t.Member == i && t.From.Rank == p.Rank)?.To.Exercise ?? p.Exercise).ToList()).ToList();
        Assert.All(trades, t => Assert.True(after.Count(a => a.Any(e => e.Id == t.To.Exercise.Id)) >= 2));
        Assert.All(after, a => Assert.Equal(a.Count, a.Select(e => e.Family).Distinct().Count()));
        Assert.Equal(members.SelectMany(m => m.Picks).Select(p => p.Exercise.Id).Distinct().Count() - trades.Count, after.SelectMany(a => a).Select(e => e.Id).Distinct().Count());
    }

    [Fact]
    public void Where_nothing_may_be_lost_no_score_falls() =>
        Assert.All(GroupTrades.Of(Group(), TestEdition.Current, Rules with { LossShare = 0 }), t => Assert.Equal(0, t.Loss.Thousandths));

    [Fact]
    public void Nobody_trades_alone() => Assert.Empty(GroupTrades.Of([Group()[0]], TestEdition.Current, Rules));

    [Fact]
    public void What_the_coach_asked_for_keeps_its_strong_pick()
    {
        foreach (var (member, i) in Group().Select((m, i) => (m, i)))
        {
            var trades = GroupTrades.Of(Group(), TestEdition.Current, Rules).Where(t => t.Member == i).ToList();
            var after = member.Picks.Select(p => trades.Find(t => t.From.Rank == p.Rank)?.To.Exercise.Id ?? p.Exercise.Id).ToList();
            foreach (var need in member.Request.Needs ?? [])
            {
                Assert.Equal(Strong(member.Picks.Select(p => p.Exercise.Id), need.Quality!), Strong(after, need.Quality!));
            }
        }

        static bool Strong(IEnumerable<string> exercises, string quality) => exercises.Any(e => TestEdition.Exercise(e).Qualities.TryGetValue(quality, out var rating) && rating.Value >= 2);
    }

    /// <summary>However much may be lost, what a sore tendon's programme doses stays; without that rule such picks would be traded.</summary>
    [Fact]
    public void What_a_programme_doses_is_never_traded()
    {
        RecommendationRequest sore = RequestBuilder.Skilled().Doing("long-jump").WeeksOut(10).Sore("patellar-tendon", 3, "left");
        GroupMember[] members = [.. Group(), new GroupMember(sore, Stages.Answer(sore).Picks)];
        Assert.Contains(members[^1].Picks, OfProgramme);

        var trades = GroupTrades.Of(members, TestEdition.Current, Rules with { LossShare = 1, LeastLikeness = 0 });

        Assert.NotEmpty(trades);
        Assert.DoesNotContain(trades, t => OfProgramme(t.From));

        static bool OfProgramme(Domain.Decisions.Pick pick) => pick.Dose!.Adjustments.Any(a => a.Code == "programme");
    }

    private static List<GroupMember> Group()
    {
        string[] events = ["100m", "long-jump", "triple-jump", "high-jump", "800m", "javelin", "discus", "heptathlon"];
        return [.. events.Select((e, i) => new RecommendationRequest
        {
            Athlete = new AthleteFacts { Ref = $"G-{i}", Event = e, EventGroup = TestEdition.Vocabulary.Events.Find(e)!.EventGroup, TrainingAgeYears = 2 + (i % 4) },
            Phase = "specific-preparation",
            WeeksToCompetition = 12,
            Setting = new SettingFacts { Place = "club-gym" },
            Complaints = i == 1 ? [new Complaint { Region = "patellar-tendon", Side = "left", Pain = 4 }] : null,
            Needs = i == 0 ? [new CoachNeed { Quality = "hip-mobility", Importance = "high" }] : null,
            Count = 4,
        }).Select(r => new GroupMember(r, Stages.Answer(r).Picks))];
    }
}
