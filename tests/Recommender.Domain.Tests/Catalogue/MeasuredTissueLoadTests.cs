using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Catalogue;

/// <summary>
/// Patellar-tendon loading index and tier of eighteen tasks, as printed in the abstract of: Scattone Silva R, Song K, Hullfish TJ, Sprague A, Silbernagel KG, Baxter JR.
/// Patellar tendon load progression during rehabilitation exercises. Med Sci Sports Exerc 2024;56(3):545-552, doi 10.1249/MSS.0000000000003323; 20 healthy adults, body weight.
/// Running and the running cut are no exercises of the catalogue; the other sixteen are here. A tissue load is ten times the index.
/// </summary>
public sealed class MeasuredTissueLoadTests
{
    private const string Source = "scattone-silva-2024";

    public static TheoryData<string, decimal, int> Measured => new()
    {
        { "single-leg-decline-squat", 0.747m, 3 },
        { "single-leg-countermovement-jump", 0.711m, 3 },
        { "single-leg-forward-hop", 0.666m, 3 },
        { "countermovement-jump", 0.61m, 2 },              // double-leg countermovement jump
        { "single-leg-drop-jump", 0.599m, 2 },             // single-leg drop vertical jump
        { "single-leg-squat", 0.58m, 2 },                  // single-leg full squat
        { "spanish-squat", 0.563m, 2 },
        { "drop-jump", 0.563m, 2 },                        // double-leg drop vertical jump
        { "forward-lunge", 0.471m, 2 },                    // lunge
        { "bodyweight-squat", 0.428m, 2 },                 // double-leg full squat
        { "single-leg-partial-squat", 0.411m, 2 },         // single-leg 60 deg squat
        { "rear-foot-elevated-split-squat", 0.406m, 2 },   // Bulgarian squat
        { "step-up-30-cm", 0.321m, 1 },
        { "step-down", 0.288m, 1 },                        // 20 cm step down
        { "half-squat-bodyweight", 0.224m, 1 },            // double-leg 60 deg squat
        { "step-up", 0.187m, 1 },                          // 20 cm step up
    };

    [Theory]
    [MemberData(nameof(Measured))]
    public void A_measured_exercise_carries_ten_times_its_printed_index_and_says_so(string id, decimal index, int tier)
    {
        var load = TestEdition.Exercise(id).TissueLoad["patellar-tendon"];
        Assert.Equal((10 * index, Basis.Published, Source), (load.Value, load.Basis, load.Source));
        // Printed without spread, so the interval is the value.
        Assert.Equal((load.Value, load.Value), (load.Low, load.High));
        Assert.Equal(tier, Tier(load.Value));
    }

    [Theory]
    [MemberData(nameof(Measured))]
    public void A_measured_exercise_is_done_with_body_weight_as_it_was_measured(string id, decimal index, int tier)
    {
        Assert.InRange(index, 0, 1);
        Assert.InRange(tier, 1, 3);
        Assert.Equal(LoadBand.Unloaded, TestEdition.Exercise(id).LoadBand);
    }

    [Fact]
    public void No_other_exercise_claims_to_be_measured_by_it()
    {
        var claims = TestEdition.Current.Catalogue.Exercises.Where(e => e.TissueLoad.Values.Any(l => l is { Basis: Basis.Published, Source: Source })).Select(e => e.Id);
        Assert.Equal(Measured.Select(row => (string)((object[])row)[0]).Order(StringComparer.Ordinal), claims.Order(StringComparer.Ordinal));
    }

    /// <summary>Tiers as published: 1 is 0.33 or less, 3 is 0.66 or more.</summary>
    private static int Tier(decimal load) => load <= 3.3m ? 1 : load < 6.6m ? 2 : 3;
}
