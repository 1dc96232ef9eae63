using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Learning.Tests.OutsideChecks;

/// <summary>
/// Every pair of data/orders/published-orders.json that the catalogue can express; each pair names its one study. Only order: values of two studies
/// are never compared, and nothing recalled is in it.
/// </summary>
public sealed class PublishedOrderTests
{
    private static readonly Lazy<IReadOnlyList<PublishedOrder>> Read = new(() => PublishedOrders.Read(TestEdition.DataFolder));

    private static IReadOnlyList<PublishedOrder> Orders => Read.Value;

    private static IEnumerable<PublishedOrder> Expressible => Orders.Where(o => o.CanBeExpressed(TestEdition.Current.Catalogue));

    [Fact]
    public void Every_published_order_that_the_catalogue_can_express_holds() => Assert.All(Expressible, o =>
    {
        var (higher, lower) = o.In(TestEdition.Current.Catalogue);
        Assert.True(higher >= lower, $"{o.Region ?? o.Quality}: {o.Higher} {higher}, {o.Lower} {lower}; {o.Source}: {o.Printed}.");
    });

    [Theory]
    [InlineData("patellar-tendon", 8)]
    [InlineData("achilles-calf", 13)]
    [InlineData("patellofemoral", 9)]
    [InlineData("hamstring", 3)]
    [InlineData("gluteal", 2)]
    [InlineData("lower-back", 6)]
    [InlineData("dynamic-trunk-control", 3)]
    [InlineData("trunk-flexion", 3)]
    public void Enough_of_them_can_be_expressed_to_prove_something(string what, int least) => Assert.True(Expressible.Count(o => (o.Region ?? o.Quality) == what) >= least);

    [Fact]
    public void An_order_the_wrong_way_round_is_seen()
    {
        var (higher, lower) = new PublishedOrder("patellar-tendon", null, "step-up", "single-leg-decline-squat", "scattone-silva-2024", "turned").In(TestEdition.Current.Catalogue);

        Assert.True(higher < lower);
    }

    /// <summary>
    /// Two clusters of tendon force in 24 runners: heel raises and walking 1.10 to 2.76 body weights, running, jumping and hopping 5.13 to 6.35. Sancho I et al.,
    /// Phys Ther Sport 2023;60:26-33, doi 10.1016/j.ptsp.2023.01.002 (abstract read). The gap between them is 1.9-fold; half of that is asked of the catalogue.
    /// </summary>
    [Fact]
    public void Heel_raises_and_hops_are_two_tiers_of_the_achilles()
    {
        string[] low = ["double-leg-calf-raise", "single-leg-calf-raise"];
        string[] high = ["running", "single-leg-pogo", "single-leg-forward-hop", "countermovement-jump", "drop-jump", "pogo-hops"];

        Assert.True(high.Min(Achilles) >= 1.4m * low.Max(Achilles), $"hops from {high.Min(Achilles)}, heel raises to {low.Max(Achilles)}.");
    }

    /// <summary>Lowest and highest of 30 tasks in 8 adults: seated heel raise 0.5, forward single-leg hop 7.3 body weights. Baxter JR et al., Med Sci Sports Exerc 2021;53(1):124-130 (abstract read).</summary>
    [Fact]
    public void The_forward_hop_is_the_top_of_the_achilles_scale_and_the_seated_heel_raise_low()
    {
        Assert.Equal(10, Achilles("single-leg-forward-hop"));
        Assert.True(Achilles("seated-soleus-raise") <= 3.3m);
        Assert.True(Achilles("banded-seated-calf-raise") <= 3.3m);
    }

    /// <summary>Single-leg decline squat 8.2 body weights, highest of 35 weight-bearing tasks; walking 0.6, lowest. Song K et al. 2023 (abstract read). No body-weight exercise may pass it.</summary>
    [Fact]
    public void No_body_weight_exercise_loads_the_kneecap_joint_more_than_the_decline_squat() =>
        Assert.All(TestEdition.Current.Catalogue.Exercises.Where(e => e.LoadBand == LoadBand.Unloaded && e.TissueLoad.ContainsKey("patellofemoral")), e =>
            Assert.True(e.TissueLoad["patellofemoral"].Value <= TestEdition.Exercise("single-leg-decline-squat").TissueLoad["patellofemoral"].Value, e.Id));

    /// <summary>
    /// Rate lifts the tendon, depth the joint: the tendon index (peak, impulse, rate) puts jumps above full squats, the joint index (peak, impulse) tends to put deep
    /// bends above fast tasks. Scattone Silva R et al. 2024 and Song K et al. 2023 (abstracts read).
    /// </summary>
    [Fact]
    public void Tendon_and_kneecap_joint_are_two_loads()
    {
        var (jump, squat) = (TestEdition.Exercise("single-leg-countermovement-jump"), TestEdition.Exercise("single-leg-squat"));

        Assert.True(jump.TissueLoad["patellar-tendon"].Value > squat.TissueLoad["patellar-tendon"].Value);
        Assert.True(jump.TissueLoad["patellofemoral"].Value <= squat.TissueLoad["patellofemoral"].Value);
    }

    /// <summary>Biceps femoris activity of the Nordic is the highest of 114 exercises, sprints aside. Llurda-Almuzara L et al., Int J Environ Res Public Health 2021;18(16):8733 (abstract read).</summary>
    [Fact]
    public void No_hinge_bridge_or_curl_loads_the_hamstring_more_than_the_nordic()
    {
        string[] patterns = ["hamstring", "hinge", "single-leg", "squat"];
        Assert.All(TestEdition.Current.Catalogue.Exercises.Where(e => patterns.Contains(e.Pattern) && e.TissueLoad.ContainsKey("hamstring")), e =>
            Assert.True(e.TissueLoad["hamstring"].Value <= TestEdition.Exercise("nordic-hamstring-lower").TissueLoad["hamstring"].Value, e.Id));
    }

    private static decimal Achilles(string id) => TestEdition.Exercise(id).TissueLoad["achilles-calf"].Value;
}
