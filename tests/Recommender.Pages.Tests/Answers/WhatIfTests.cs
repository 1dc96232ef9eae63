using CsCheck;
using Recommender.Domain;
using Recommender.Domain.Requests;
using Recommender.Pages.Answers;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Answers;

public sealed class WhatIfTests
{
    internal static readonly RecommendationRequest SoreJumper = RequestBuilder.For("jumps", "pre-competition").Doing("long-jump").Aged(22, 5).WeeksOut(5)
        .But(r => r with { Complaints = [new Complaint { Region = "patellar-tendon", Side = "left", Pain = 3, NextMorning = "settled" }] }).Request;

    [Fact]
    public void Pain_never_falls_and_the_changed_request_can_always_be_asked() =>
        Gen.Select(RequestGenerator.Requests, Gen.Int[-5, 12], Gen.Int[0, 80]).Sample(
            (request, up, weeks) =>
            {
                if (RequestChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge).Count > 0)
                {
                    return;
                }

                var change = WhatIf.Of($"{up}", "hotel", ["rack"], $"{weeks}", TestEdition.Vocabulary);
                var changed = change.Apply(request, TestEdition.Current);
                Assert.Empty(RequestChecks.Of(changed, TestEdition.Current.Catalogue, TestEdition.Knowledge));
                Assert.All((request.Complaints ?? []).Zip(changed.Complaints ?? []), c => Assert.True(c.Second.Pain >= c.First.Pain));
            },
            iter: 200);

    [Fact]
    public void A_query_says_what_it_reads()
    {
        var change = new WhatIf(2, "hotel", ["rack", "barbell"], 4);
        Assert.Equal("?painUp=2&place=hotel&without=rack&without=barbell&weeksOn=4", change.Query);
        Assert.Equal("", WhatIf.Nothing.Query);
        Assert.False(WhatIf.Of("-3", "moon", ["anvil"], "soon", TestEdition.Vocabulary).Any);
    }

    [Fact]
    public void Without_a_rack_nothing_is_picked_that_needs_one()
    {
        var gym = RequestBuilder.Skilled("throws").Request;
        var answer = RecommendationPipeline.Answer(new WhatIf(0, null, ["rack"], 0).Apply(gym, TestEdition.Current), TestEdition.Current, "");
        Assert.NotEmpty(answer.Picks);
        Assert.All(answer.Picks, p => Assert.DoesNotContain("rack", p.Exercise.Equipment));
    }

    [Fact]
    public void Two_weeks_later_the_competition_is_two_weeks_nearer()
    {
        Assert.Equal(3, new WhatIf(0, null, [], 2).Apply(SoreJumper, TestEdition.Current).WeeksToCompetition);
        Assert.Equal(0, new WhatIf(0, null, [], 9).Apply(SoreJumper, TestEdition.Current).WeeksToCompetition);
    }

    [Fact]
    public void Weeks_later_what_began_was_tested_and_was_cleared_is_older_too()
    {
        RecommendationRequest request = RequestBuilder.Skilled().Sore("hamstring", 2).LastComplaint(c => c with { Onset = "sudden", DaysSinceOnset = 0 }).Tested(new TestResults { CounterMovementJumpCm = 40, DaysAgo = 3, Trials = 2 })
            .HurtBefore("ankle", 2).Cleared("recent-birth", 5);

        var later = new WhatIf(0, null, [], 8).Apply(request, TestEdition.Current);

        Assert.Equal((56, 59), (later.Complaints![0].DaysSinceOnset, later.Tests!.DaysAgo));
        Assert.Equal((3, 61), (later.Athlete!.History![0].MonthsAgo, later.Athlete.Clearances![0].DaysAgo));
        Assert.Equal(request.Complaints![0].Pain, later.Complaints[0].Pain);
    }
}
