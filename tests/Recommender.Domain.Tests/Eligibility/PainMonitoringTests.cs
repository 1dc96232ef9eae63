using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility;

/// <summary>
/// The gate against what was read of pain-monitoring rules, on whole requests. Only what was read in an abstract or a text is tested; bands that were recalled are not.
/// The athlete is grown, skilled, far from competition and in a full gym, so that nothing but pain refuses.
/// </summary>
public sealed class PainMonitoringTests
{
    private static readonly RequestBuilder Athlete = RequestBuilder.Skilled().WeeksOut(20);

    /// <summary>Pain of a loaded tendon may reach 5 and not pass it: Silbernagel KG et al., Am J Sports Med 2007, doi 10.1177/0363546506298279 (read in a secondary text).</summary>
    [Theory]
    [InlineData("patellar-tendon")]
    [InlineData("achilles-calf")]
    public void A_tendon_is_trained_on_up_to_five_and_referred_above(string region)
    {
        foreach (var pain in Enumerable.Range(0, 11))
        {
            var referral = Stages.Of(Athlete.Sore(region, pain)).Limits.Referral;
            Assert.Equal(pain > 5, referral is not null);
            Assert.True(referral is null || (referral.Scope == "regions" && referral.Regions.Contains(region)));
        }
    }

    /// <summary>The morning after, pain must have settled, else the next load is cut: the same source.</summary>
    [Theory]
    [InlineData("patellar-tendon", 2)]
    [InlineData("achilles-calf", 2)]
    public void A_worse_morning_cuts_what_is_offered(string region, int pain)
    {
        var settled = Stages.Of(Athlete.Sore(region, pain, nextMorning: "settled")).EligibleIds();
        var worse = Stages.Of(Athlete.Sore(region, pain, nextMorning: "worse")).EligibleIds();
        Assert.True(worse.IsProperSubsetOf(settled));
    }

    /// <summary>
    /// The gate must not block the treatment. Holds from pain 4 down, then slow heavy work, jumps last: staged loading as in Malliaras P et al., J Orthop Sports Phys Ther 2015,
    /// doi 10.2519/jospt.2015.5987 (read in a secondary text), and Rosen AB et al., J Athl Train 2022, PMC9528703, table 2 (holds below 5 of 10 in the first weeks).
    /// A bodyweight Spanish squat has the loading index of a two-leg drop jump (Scattone Silva 2024, 0.563 both): rate, not load alone, must tell them apart.
    /// </summary>
    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    public void A_sore_patellar_tendon_keeps_holds_and_slow_work_while_jumps_are_held(int pain)
    {
        var eligible = Stages.Of(Athlete.Sore("patellar-tendon", pain)).EligibleIds();
        Assert.All(["spanish-squat", "spanish-squat-hold", "wall-sit", "split-squat", "split-squat-hold", "rear-foot-elevated-split-squat", "reverse-lunge", "leg-press", "step-up"],
            id => Assert.True(eligible.Contains(id), $"{id} is what a sore tendon is given, and is refused at pain {pain}."));
        Assert.All(["drop-jump", "depth-jump", "countermovement-jump", "single-leg-drop-jump", "single-leg-countermovement-jump", "hurdle-hop", "alternate-leg-bound"],
            id => Assert.False(eligible.Contains(id), $"{id} is offered at pain {pain}."));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    public void What_a_sore_patellar_tendon_is_given_is_picked(int pain)
    {
        var answer = Stages.Answer(Athlete.Sore("patellar-tendon", pain).Count(8));
        ExplanationChecks.AddsUp(answer);
        Assert.Contains(answer.Picks, p => TestEdition.Exercise(p.Exercise.Id).Qualities.TryGetValue("quadriceps-capacity", out var rating) && rating.Value >= 2);
        Assert.DoesNotContain(answer.Picks, p => p.Exercise.LoadingRate == LoadingRate.Impact && TestEdition.Exercise(p.Exercise.Id).TissueLoad["patellar-tendon"].High > 3.3m);
    }

    /// <summary>Running with a sore kneecap joint stays at or under 2: Esculier JF et al., patient text of the same research, PMC7740062.</summary>
    [Fact]
    public void A_sore_kneecap_joint_ends_bounds_and_jumps_above_two() =>
        Assert.All(["alternate-leg-bound", "power-skip-for-distance", "countermovement-jump", "single-leg-pogo"],
            id => Assert.DoesNotContain(id, Stages.Of(Athlete.Sore("patellofemoral", 3)).EligibleIds()));

    /// <summary>Groin pain above 3 in the long-lever lift means an easier variant, a shorter lever or lying: Br J Sports Med 2023;57:83-90, table 1, doi 10.1136/bjsports-2022-105890.</summary>
    [Fact]
    public void A_groin_above_three_gets_the_easier_lift_and_not_the_long_lever()
    {
        var eligible = Stages.Of(Athlete.Sore("adductor-groin", 4)).EligibleIds();
        Assert.DoesNotContain("copenhagen-adduction", eligible);
        Assert.Contains("side-lying-adduction", eligible);
    }

    /// <summary>Hopping comes back below pain 1 to 2: Nutrients 2019;11(1):76, table A2, doi 10.3390/nu11010076. Heel raises are the treatment and stay: Beyer R et al., Am J Sports Med 2015, doi 10.1177/0363546515584760.</summary>
    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void A_sore_achilles_tendon_keeps_its_heel_raises_while_hops_are_held(int pain)
    {
        var eligible = Stages.Of(Athlete.Sore("achilles-calf", pain)).EligibleIds();
        Assert.All(["single-leg-calf-raise", "double-leg-calf-raise", "isometric-calf-hold", "seated-soleus-raise"], id => Assert.Contains(id, eligible));
        Assert.All(["pogo-hops", "single-leg-pogo", "single-leg-forward-hop", "drop-jump"], id => Assert.DoesNotContain(id, eligible));
    }

    /// <summary>The model holds for tendon and kneecap joint of adults only; for bone, and for children, the rules are stricter. Common practice, no source.</summary>
    [Fact]
    public void Bone_and_children_are_referred_before_tendons_of_adults_are()
    {
        Assert.NotNull(Stages.Of(Athlete.Sore("shin-bone", 3)).Limits.Referral);
        Assert.NotNull(Stages.Of(Athlete.Sore("foot", 3)).Limits.Referral);
        Assert.NotNull(Stages.Of(Athlete.Aged(14, 3).Sore("patellar-tendon", 4)).Limits.Referral);
        Assert.Null(Stages.Of(Athlete.Sore("patellar-tendon", 4)).Limits.Referral);
    }

    [Fact]
    public void Every_sore_region_leaves_something_to_train_where_it_is_not_referred()
    {
        foreach (var region in TestEdition.Vocabulary.Regions)
        {
            var answer = Stages.Answer(Athlete.Sore(region.Id, 2));
            ExplanationChecks.AddsUp(answer);
            Assert.True(answer.Picks.Count == TestEdition.Knowledge.Defaults.Count, $"{region.Id}: {answer.Picks.Count} picks at pain 2.");
        }
    }
}
