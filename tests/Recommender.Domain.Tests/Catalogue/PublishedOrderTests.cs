using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Catalogue;

/// <summary>
/// Pairs whose order was read in one study: the first must load a tissue, or train a quality, at least as much as the second. Order only; values of two studies are never compared.
/// Not expressible in the catalogue and so left out: maximal sprinting, walking, cycling, stair climbing, uphill running at the speed of level running, jumps in water and the
/// steps of a triple jump (no exercises); seated march, and drops from 60 and 90 cm (not in the catalogue); ground force of a standing long jump against a vertical jump
/// (ground force is not tissue load and the catalogue holds none).
/// </summary>
public sealed class PublishedOrderTests
{
    [Theory]
    // Scattone Silva R et al., Med Sci Sports Exerc 2024;56(3):545-552: patellar-tendon loading index.
    [InlineData("patellar-tendon", "single-leg-decline-squat", "single-leg-squat")]
    [InlineData("patellar-tendon", "countermovement-jump", "bodyweight-squat")]
    [InlineData("patellar-tendon", "spanish-squat", "rear-foot-elevated-split-squat")]
    [InlineData("patellar-tendon", "step-up-30-cm", "step-up")]
    [InlineData("patellar-tendon", "step-down", "step-up")]
    [InlineData("patellar-tendon", "running-cut", "running")]
    [InlineData("patellar-tendon", "single-leg-drop-jump", "forward-lunge")]
    // Baxter JR et al., Med Sci Sports Exerc 2021;53(1):124-130: Achilles load of 30 exercises, the highest and the lowest.
    [InlineData("achilles-calf", "single-leg-forward-hop", "seated-soleus-raise")]
    // Sancho I et al., Phys Ther Sport 2023;60:26-33: hopping and running above a single heel raise.
    [InlineData("achilles-calf", "single-leg-pogo", "single-leg-calf-raise")]
    [InlineData("achilles-calf", "running", "single-leg-calf-raise")]
    // Distefano LJ et al., J Orthop Sports Phys Ther 2009;39(7):532-540: gluteus medius in a single-limb squat above a clam.
    [InlineData("gluteal", "single-leg-squat", "mini-band-clam")]
    // Front squat below a plank in the abdominals: the study of front and overhead squats at PMC7241624 (authors not read).
    [InlineData("abdomen", "front-plank", "front-squat")]
    // Swinton PA et al., J Strength Cond Res 2011;25(7):2000-2009: lumbar moment of a straight bar above a hexagonal one.
    [InlineData("lower-back", "deadlift", "trap-bar-deadlift")]
    // Cholewicki J, McGill SM, Norman RW, Med Sci Sports Exerc 1991;23(10):1179-1186: sumo 8 to 10 percent below conventional.
    [InlineData("lower-back", "deadlift", "sumo-deadlift")]
    public void Loads_a_tissue_at_least_as_much(string region, string higher, string lower)
    {
        var (more, less) = (Load(higher, region), Load(lower, region));
        Assert.True(more >= less, $"{region}: {higher} {more}, {lower} {less}.");
    }

    [Theory]
    // Comfort P et al., J Strength Cond Res 2011;25(5):1235-1239: rate of force in a mid-thigh pull above a power clean.
    [InlineData("rate-of-force-development", "mid-thigh-pull", "power-clean")]
    // Review of Suchomel TJ et al., J Hum Kinet 2019;68:109-122: power of a hexagonal-bar jump above a jump squat.
    [InlineData("strength-speed", "trap-bar-jump", "jump-squat")]
    [InlineData("speed-strength", "trap-bar-jump", "jump-squat")]
    public void Trains_a_quality_at_least_as_much(string quality, string higher, string lower)
    {
        var (more, less) = (TestEdition.Exercise(higher).Qualities[quality].Value, TestEdition.Exercise(lower).Qualities[quality].Value);
        Assert.True(more >= less, $"{quality}: {higher} {more}, {lower} {less}.");
    }

    private static decimal Load(string id, string region) => ExerciseCatalogue.LoadOn(TestEdition.Exercise(id), TestEdition.Vocabulary.Regions.Find(region)!)?.Value ?? 0;
}
