using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Catalogue;

/// <summary>
/// Patellar-tendon loading index and tier of eighteen tasks, as printed in the abstract of: Scattone Silva R, Song K, Hullfish TJ, Sprague A, Silbernagel KG, Baxter JR.
/// Patellar tendon load progression during rehabilitation exercises. Med Sci Sports Exerc 2024;56(3):545-552, doi 10.1249/MSS.0000000000003323; 20 healthy adults, body weight.
/// Running speed and drop heights were not seen. A tissue load is ten times the index.
/// </summary>
public sealed class MeasuredTissueLoadTests
{
    private const string Source = "scattone-silva-2024";

    public static TheoryData<string, string, decimal, int> Measured => new()
    {
        { "single-leg-decline-squat", "single-leg decline squat", 0.747m, 3 },
        { "running-cut", "running cut", 0.725m, 3 },
        { "single-leg-countermovement-jump", "single-leg countermovement jump", 0.711m, 3 },
        { "single-leg-forward-hop", "single-leg forward hop", 0.666m, 3 },
        { "running", "running", 0.612m, 2 },
        { "countermovement-jump", "double-leg countermovement jump", 0.61m, 2 },
        { "single-leg-drop-jump", "single-leg drop vertical jump", 0.599m, 2 },
        { "single-leg-squat", "single-leg full squat", 0.58m, 2 },
        { "spanish-squat", "Spanish squat", 0.563m, 2 },
        { "drop-jump", "double-leg drop vertical jump", 0.563m, 2 },
        { "forward-lunge", "lunge", 0.471m, 2 },
        { "bodyweight-squat", "double-leg full squat", 0.428m, 2 },
        { "single-leg-partial-squat", "single-leg 60 deg squat", 0.411m, 2 },
        { "rear-foot-elevated-split-squat", "Bulgarian squat", 0.406m, 2 },
        { "step-up-30-cm", "30 cm step up", 0.321m, 1 },
        { "step-down", "20 cm step down", 0.288m, 1 },
        { "half-squat-bodyweight", "double-leg 60 deg squat", 0.224m, 1 },
        { "step-up", "20 cm step up", 0.187m, 1 },
    };

    [Theory]
    [MemberData(nameof(Measured))]
    public void A_measured_exercise_carries_ten_times_its_printed_index_and_says_so(string id, string printed, decimal index, int tier)
    {
        var exercise = TestEdition.Exercise(id);
        var load = exercise.TissueLoad["patellar-tendon"];
        Assert.Equal((10 * index, Basis.Published, Source), (load.Value, load.Basis, load.Source));
        // Printed without spread, so the interval is the value.
        Assert.Equal((load.Value, load.Value), (load.Low, load.High));
        Assert.Equal(tier, Tier(load.Value));
        Assert.Contains(printed, exercise.Synonyms.Append(exercise.Name), StringComparer.OrdinalIgnoreCase);
        Assert.Equal(LoadBand.Unloaded, exercise.LoadBand);
    }

    [Fact]
    public void All_eighteen_stand_in_the_order_printed()
    {
        var rows = Measured.Select(row => (object[])row).ToList();
        var loads = rows.Select(row => TestEdition.Exercise((string)row[0]).TissueLoad["patellar-tendon"].Value).ToList();

        Assert.Equal(18, rows.Select(row => row[0]).Distinct().Count());
        Assert.Equal(loads.OrderDescending(), loads);
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
