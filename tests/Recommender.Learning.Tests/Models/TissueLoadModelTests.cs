using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Learning.Tests.Models;

public sealed class TissueLoadModelTests
{
    private const string Region = "patellar-tendon";

    private static TissueLoadModel Shipped => TestEdition.Current.Catalogue.TissueLoadModels.Single(m => m.Region == Region);

    /// <summary>Inside the domain of slow bends, with a load that someone agreed on.</summary>
    private static ExerciseBuilder Bend => ExerciseBuilder.Named("bend").At(LoadBand.Unloaded).Loads(Region, 4.2m, 5m)
        .WithFacts(f => f with { BodyweightShare = 0.5m, KneeFlexionDeg = 100, ShankLeanDeg = 30, AnkleDorsiflexionDeg = 28 });

    [Fact]
    public void An_estimate_replaces_what_was_agreed_and_says_so()
    {
        var load = Shipped.Apply(Bend).TissueLoad[Region];

        Assert.Equal(Basis.Modelled, load.Basis);
        Assert.Equal("scattone-silva-2024", load.Source);
        Assert.Equal(decimal.Round((decimal)Shipped.ValueOf(Bend.Build().Facts), 1), load.Value);
        Assert.Equal(load.Value - Shipped.Fitted.LeaveOneOut.HalfWidth, load.Low);
        Assert.Equal(load.Value + Shipped.Fitted.LeaveOneOut.HalfWidth, load.High);
    }

    [Fact]
    public void A_measurement_stands()
    {
        Exercise measured = Bend.Loads(Region, 4.28m, basis: Basis.Published, source: "scattone-silva-2024");

        Assert.Same(measured, Shipped.Apply(measured));
    }

    [Fact]
    public void Other_regions_keep_what_they_have()
    {
        Exercise exercise = Bend.Loads("hip", 2m).Loads("ankle", 1m);

        Assert.Equal(exercise.TissueLoad["hip"], Shipped.Apply(exercise).TissueLoad["hip"]);
        Assert.Equal(exercise.TissueLoad.Keys, Shipped.Apply(exercise).TissueLoad.Keys);
    }

    [Fact]
    public void A_fit_that_ranks_below_the_least_is_not_used()
    {
        var poor = Shipped with { Fitted = Shipped.Fitted with { LeaveOneOut = Shipped.Fitted.LeaveOneOut with { Spearman = 0.59m } } };

        Assert.False(poor.SpeaksFor(Bend));
        Assert.Equal(4.2m, poor.Apply(Bend).TissueLoad[Region].Value);
    }

    [Fact]
    public void A_least_rank_below_six_tenths_is_not_shipped() => Assert.All(TestEdition.Current.Catalogue.TissueLoadModels, m => Assert.True(m.LeastSpearman >= 0.6m));

    [Fact]
    public void Estimates_are_cut_to_the_scale()
    {
        var steep = Shipped with { Fitted = Shipped.Fitted with { Constants = new TissueLoadConstants(900, 0, 0) } };

        Assert.Equal((10m, 10m), (steep.Estimate(Bend.Build().Facts).Value, steep.Estimate(Bend.Build().Facts).High));
        var flat = Shipped with { Fitted = Shipped.Fitted with { Constants = new TissueLoadConstants(0, 0, 0) } };
        Assert.Equal((0m, 0m), (flat.Estimate(Bend.Build().Facts).Value, flat.Estimate(Bend.Build().Facts).Low));
    }

    public static TheoryData<string, Func<ExerciseBuilder, ExerciseBuilder>> Outside => new()
    {
        { "a bar on the back", b => b.At(LoadBand.Heavy).WithFacts(f => f with { ExternalLoadShare = 1.4m }) },
        { "a light load", b => b.At(LoadBand.Light).WithFacts(f => f with { ExternalLoadShare = 0.1m }) },
        { "a weight that the band hides", b => b.WithFacts(f => f with { ExternalLoadShare = 0.2m }) },
        { "a hold", b => b.At(LoadingRate.Isometric) },
        { "a throw", b => b.At(LoadingRate.Fast) },
        { "a strap at the knee", b => b.WithFacts(f => f with { ShankLeanDeg = 3, AnkleDorsiflexionDeg = 2 }) },
        { "lying", b => b.But(e => e with { Support = Support.OffFeet }) },
        { "another pattern", b => b.OfPattern("mobility") },
        { "hands that help a single leg", b => b.But(e => e with { Support = Support.Single }).WithFacts(f => f with { BodyweightShare = 0.8m }) },
        { "a step, where the other foot pushes off", b => b.OfPattern("single-leg").OfFamily("step-up").But(e => e with { Support = Support.Single }).WithFacts(f => f with { BodyweightShare = 1 }) },
        { "a shallow bend", b => b.WithFacts(f => f with { KneeFlexionDeg = 30 }) },
        { "a deep squat held below what was measured", b => b.WithFacts(f => f with { KneeFlexionDeg = 140 }) },
    };

    [Theory]
    [MemberData(nameof(Outside))]
    public void It_is_silent_outside_its_domain(string what, Func<ExerciseBuilder, ExerciseBuilder> change)
    {
        Assert.True(Shipped.SpeaksFor(Bend));
        Assert.False(Shipped.SpeaksFor(change(Bend)), what);
    }

    [Theory]
    [InlineData("horizontal", 0, 30)]
    [InlineData("lateral", 0, 15)]
    [InlineData("vertical", 50, 40)]
    [InlineData("vertical", 0, 60)]
    [InlineData("vertical", 0, 36, "medium")]
    public void It_is_silent_on_travelling_jumps_rebounds_and_higher_ones_than_were_measured(string direction, int drop, int jump, string contact = "long")
    {
        ExerciseBuilder Jump(string way, int from, int to, string time = "long") => Bend.OfPattern("jump").At(LoadingRate.Impact).But(e => e with { Direction = way })
            .WithFacts(f => f with { KneeFlexionDeg = 85, DropHeightCm = from, JumpHeightCm = to, ContactTime = time });

        Assert.True(Shipped.SpeaksFor(Jump("vertical", 30, 38)));
        Assert.False(Shipped.SpeaksFor(Jump(direction, drop, jump, contact)));
    }

    [Fact]
    public void What_the_service_serves_is_measured_where_measured_modelled_inside_the_domain_and_agreed_elsewhere()
    {
        Assert.All(TestEdition.Current.Catalogue.Exercises.Where(e => e.TissueLoad.ContainsKey(Region)), e =>
        {
            var basis = e.TissueLoad[Region].Basis;
            Assert.Equal(Shipped.SpeaksFor(e), basis == Basis.Modelled);
            Assert.True(basis != Basis.Modelled || (e.LoadBand == LoadBand.Unloaded && e.Support != Support.OffFeet), e.Id);
        });
        Assert.Contains(TestEdition.Current.Catalogue.Exercises, e => e.TissueLoad.GetValueOrDefault(Region)?.Basis == Basis.Modelled);
    }
}
