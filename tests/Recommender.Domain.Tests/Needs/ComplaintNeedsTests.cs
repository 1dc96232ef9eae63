using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Needs;

public sealed class ComplaintNeedsTests
{
    private static readonly RequestBuilder Adult = RequestBuilder.For("distance").Aged(24, 4);

    [Fact]
    public void A_stage_that_was_sent_says_what_is_built()
    {
        var landing = Weight(Adult.Complaining(new Complaint { Region = "patellar-tendon", Pain = 1, Stage = "energy-storage" }), "landing-strength");
        Assert.True(landing > Weight(Adult.Complaining(new Complaint { Region = "patellar-tendon", Pain = 1 }), "landing-strength"));
        Assert.True(Weight(Adult.Complaining(new Complaint { Region = "patellar-tendon", Pain = 4 }), "quadriceps-capacity") > Weight(Adult, "quadriceps-capacity"));
    }

    [Fact]
    public void A_stage_that_pain_takes_back_builds_what_belongs_to_the_earlier_one() =>
        Assert.Equal(Weight(Adult.Complaining(new Complaint { Region = "patellar-tendon", Pain = 5, Stage = "isometric" }), "isometric-strength"),
            Weight(Adult.Complaining(new Complaint { Region = "patellar-tendon", Pain = 5, Stage = "return" }), "isometric-strength"));

    [Theory]
    [InlineData("back-flexion", "hip-mobility")]
    [InlineData("back-extension", "trunk-anti-extension")]
    [InlineData("rotation", "trunk-anti-rotation")]
    public void A_back_is_built_by_the_direction_that_provokes_it(string by, string quality) =>
        Assert.True(Weight(Adult.Complaining(new Complaint { Region = "lower-back", Pain = 2, ProvokedBy = [by] }), quality) > Weight(Adult.Complaining(new Complaint { Region = "lower-back", Pain = 2 }), quality));

    [Theory]
    [InlineData("soreness", null, null, 14)]
    [InlineData("pain", "bone", null, 24)]
    [InlineData("pain", null, "sudden", 24)]
    [InlineData("pain", null, null, 14)]
    public void Nothing_is_built_on_what_is_sore_from_training_or_examined_first_or_a_growth_plate(string kind, string? tissue, string? onset, int age)
    {
        var complaint = new Complaint { Region = "patellar-tendon", Pain = 2, Kind = kind, Tissue = tissue, Onset = onset, DaysSinceOnset = onset is null ? null : 1 };
        Assert.DoesNotContain(From(Adult.Aged(age, 1).Complaining(complaint)), s => s == "complaint");
        Assert.Contains(From(Adult.Complaining(new Complaint { Region = "patellar-tendon", Pain = 2 })), s => s == "complaint");
    }

    [Fact]
    public void An_earlier_injury_raises_what_protects_its_region_less_as_time_goes_by_and_more_after_surgery()
    {
        var months = new[] { 1, 8, 20, 50, 70 }.Select(m => Weight(Adult.HurtBefore("hamstring", m), "hamstring-capacity")).ToList();
        Assert.Equal(months.OrderDescending(), months);
        Assert.True(months[0] > months[3]);
        Assert.Equal(Weight(Adult, "hamstring-capacity"), months[4]);
        Assert.True(Weight(Adult.HurtBefore("hamstring", 8, surgery: true), "hamstring-capacity") > months[1]);
        Assert.True(Weight(Adult.HurtBefore("hamstring", 70, surgery: true), "hamstring-capacity") > months[4]);
        Assert.Contains("history", From(Adult.HurtBefore("hamstring", 8)));
    }

    [Fact]
    public void All_earlier_injuries_together_stay_under_their_cap()
    {
        var rule = TestEdition.Knowledge.Returning.History;
        var hurt = TestEdition.Vocabulary.Regions.Where(r => r.Covers.Count == 0).Aggregate(Adult, (b, r) => b.HurtBefore(r.Id, 0, surgery: true));
        var profile = Stages.Of(hurt).Profile;
        var share = profile.Needs.Sum(n => n.Weight * n.From.Where(f => f.Source == "history").Sum(f => f.Share));
        Assert.InRange(share, 0.01m, (rule.WeightCap / (1 + rule.WeightCap)) + 0.002m);
    }

    [Fact]
    public void The_same_region_twice_counts_once_the_later_injury() =>
        Assert.Equal(Weight(Adult.HurtBefore("hamstring", 2), "hamstring-capacity"), Weight(Adult.HurtBefore("hamstring", 2).HurtBefore("hamstring", 40), "hamstring-capacity"));

    private static decimal Weight(RecommendationRequest request, string quality) => Stages.Of(request).Profile.Needs.FirstOrDefault(n => n.Quality == quality)?.Weight ?? 0;

    private static IEnumerable<string> From(RecommendationRequest request) => Stages.Of(request).Profile.Needs.SelectMany(n => n.From).Select(f => f.Source);
}
