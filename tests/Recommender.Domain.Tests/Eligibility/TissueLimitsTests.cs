using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility;

public sealed class TissueLimitsTests
{
    private static PainRules Pain => TestEdition.Knowledge.Pain;

    [Fact]
    public void Nothing_sore_means_no_limit_and_no_referral()
    {
        var limits = Of(RequestBuilder.For());
        Assert.Empty(limits.Limits);
        Assert.Empty(limits.Rows);
        Assert.Empty(limits.Barred);
        Assert.Null(limits.Referral);
    }

    [Fact]
    public void A_complaint_gives_one_limit_a_loading_rate_from_its_row_of_the_table()
    {
        var rule = TestEdition.Knowledge.PainLimitOf("hamstring")!;
        var limits = Of(RequestBuilder.For().Sore("hamstring", 2, "left")).Limits;
        Assert.Equal(Enum.GetValues<LoadingRate>().Select(rate => ("hamstring", Requests.Left, rate, rule.MaxTissueLoad[rate][2])),
            limits.Select(l => (l.Region, l.Side, l.LoadingRate, l.MaxTissueLoad)));
    }

    [Fact]
    public void A_knee_covers_tendon_and_joint_and_has_no_limit_of_its_own()
    {
        var limits = Of(RequestBuilder.For().Sore("knee", 2));
        Assert.Equal(["patellar-tendon", "patellofemoral"], limits.Limits.Select(l => l.Region).Distinct());
        foreach (var region in new[] { "patellar-tendon", "patellofemoral" })
        {
            Assert.Equal(TestEdition.Knowledge.PainLimitOf(region)!.MaxTissueLoad[LoadingRate.Impact][2], Stages.LimitOn(limits.Limits, region, LoadingRate.Impact));
        }
    }

    [Fact]
    public void A_worse_morning_raises_the_pain_that_counts()
    {
        var rule = TestEdition.Knowledge.PainLimitOf("patellar-tendon")!;
        Assert.Equal(rule.MaxTissueLoad[LoadingRate.Impact][2 + Pain.WorseMorning.AddsPain],
            Stages.LimitOn(Of(RequestBuilder.For().Sore("patellar-tendon", 2, nextMorning: "worse")).Limits, "patellar-tendon", LoadingRate.Impact));
        Assert.Equal(rule.MaxTissueLoad[LoadingRate.Impact][2],
            Stages.LimitOn(Of(RequestBuilder.For().Sore("patellar-tendon", 2, nextMorning: "settled")).Limits, "patellar-tendon", LoadingRate.Impact));
    }

    [Fact]
    public void A_worse_morning_never_raises_pain_past_its_cap_by_itself()
    {
        // At the cap the tendon is held hardest but not yet referred: a bad night alone sends no one to a clinician.
        var limits = Of(RequestBuilder.For().Sore("patellar-tendon", 4, nextMorning: "worse"));
        Assert.Equal(TestEdition.Knowledge.PainLimitOf("patellar-tendon")!.MaxTissueLoad[LoadingRate.Slow][Pain.WorseMorning.AtMost], Stages.LimitOn(limits.Limits, "patellar-tendon", LoadingRate.Slow));
        Assert.Null(limits.Referral);
    }

    [Fact]
    public void Pain_given_above_the_cap_stays_what_it_is() =>
        Assert.NotNull(Of(RequestBuilder.For().Sore("patellar-tendon", 8, nextMorning: "worse")).Referral);

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    [InlineData(1, true)]
    public void Pain_refers_from_the_rule_on(int more, bool referred)
    {
        var rule = TestEdition.Knowledge.PainLimitOf("lower-back")!;
        var referral = Of(RequestBuilder.For().Sore("lower-back", rule.ReferFromPain + more)).Referral;
        Assert.Equal(referred, referral is not null);
        if (referral is not null)
        {
            Assert.Equal("regions", referral.Scope);
            Assert.Equal(["lower-back"], referral.Regions);
            Assert.Equal(rule.Urgency, referral.Urgency);
            var reason = Assert.Single(referral.Reasons);
            Assert.Null(reason.Flag);
            Assert.Equal("lower-back", reason.Region);
            Assert.Contains($"pain {rule.ReferFromPain + more} of 10", reason.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Pain_that_refers_spares_the_region_alone_without_neighbours()
    {
        var limits = Of(RequestBuilder.For().Sore("hamstring", 9));
        Assert.Equal(["hamstring"], limits.Referral!.Regions);
        Assert.All(Enum.GetValues<LoadingRate>(), rate => Assert.Equal(Pain.SparedLoad.Value, Stages.LimitOn(limits.Limits, "hamstring", rate)));
        Assert.Equal(10m, Stages.LimitOn(limits.Limits, "gluteal", LoadingRate.Slow));
    }

    [Fact]
    public void A_knee_with_pain_that_refers_bars_tendon_and_joint() =>
        Assert.Equal(["patellar-tendon", "patellofemoral"], Of(RequestBuilder.For().Sore("knee", 8)).Referral!.Regions.Order(StringComparer.Ordinal));

    [Fact]
    public void A_flag_of_scope_all_ends_everything_whether_with_a_complaint_or_not()
    {
        foreach (var request in new[] { RequestBuilder.For().Flagged("chest-pain"), RequestBuilder.For().Sore("chest", 1, redFlags: "chest-pain") })
        {
            var referral = Of(request).Referral!;
            Assert.Equal("all", referral.Scope);
            Assert.Empty(referral.Regions);
            Assert.Equal("emergency", referral.Urgency);
            Assert.Equal("chest-pain", Assert.Single(referral.Reasons).Flag);
            Assert.Contains("No exercise", referral.Advice, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_flag_of_scope_regions_bars_its_region_and_the_neighbours()
    {
        var limits = Of(RequestBuilder.For().Sore("hamstring", 1, redFlags: "pop-or-gap"));
        var barred = Pain.RedFlagSpares["hamstring"].Append("hamstring").Order(StringComparer.Ordinal);
        Assert.Equal("regions", limits.Referral!.Scope);
        Assert.Equal(barred, limits.Referral.Regions.Order(StringComparer.Ordinal));
        Assert.All(barred, region => Assert.Equal(Pain.SparedLoad.Value, Stages.LimitOn(limits.Limits, region, LoadingRate.Isometric)));
        Assert.Equal(10m, Stages.LimitOn(limits.Limits, "shoulder", LoadingRate.Impact));
    }

    [Fact]
    public void A_flag_at_a_knee_bars_what_the_knee_covers_and_its_neighbours() =>
        Assert.Equal(Pain.RedFlagSpares["knee"].Concat(["patellar-tendon", "patellofemoral"]).Distinct().Order(StringComparer.Ordinal),
            Of(RequestBuilder.For().Sore("knee", 1, redFlags: "locked-joint")).Referral!.Regions.Order(StringComparer.Ordinal));

    [Fact]
    public void A_flag_of_a_body_part_without_its_complaint_could_be_anywhere_and_so_ends_everything()
    {
        var referral = Of(RequestBuilder.For().Sore("shoulder", 1).Flagged("locked-joint")).Referral!;
        Assert.Equal("all", referral.Scope);
        Assert.Contains("Send it with the complaint", referral.Reasons[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_barred_neighbour_is_barred_on_both_sides() =>
        Assert.All(Of(RequestBuilder.For().Sore("hamstring", 1, "left", redFlags: "pop-or-gap")).Limits.Where(l => l.Region == "gluteal"), l => Assert.Equal(Requests.Both, l.Side));

    [Fact]
    public void The_most_urgent_reason_sets_the_urgency()
    {
        var referral = Of(RequestBuilder.For().Sore("hamstring", 9, redFlags: "bruising-after-injury").Sore("shoulder", 1, redFlags: "locked-joint")).Referral!;
        Assert.Equal("regions", referral.Scope);
        Assert.Equal("same-day", referral.Urgency);
        Assert.Equal(3, referral.Reasons.Count);
    }

    [Fact]
    public void One_flag_of_scope_all_among_others_ends_everything() =>
        Assert.Equal("all", Of(RequestBuilder.For().Sore("hamstring", 9).Sore("foot", 2, redFlags: "night-or-rest-pain").Flagged("fever-or-unwell")).Referral!.Scope);

    [Fact]
    public void Below_the_age_of_adult_programmes_the_stricter_of_both_tables_holds()
    {
        var youth = Pain.Limits.Single(l => l.Id == Pain.Youth.LimitsOf);
        var own = TestEdition.Knowledge.PainLimitOf("patellar-tendon")!;
        var young = Of(RequestBuilder.For().Aged(Pain.Youth.BelowAge - 1).Sore("patellar-tendon", 2));
        foreach (var rate in Enum.GetValues<LoadingRate>())
        {
            Assert.Equal(Math.Min(youth.MaxTissueLoad[rate][2], own.MaxTissueLoad[rate][2]), Stages.LimitOn(young.Limits, "patellar-tendon", rate));
        }

        Assert.Contains(young.Cautions, c => c.EndsWith(Pain.Youth.Note, StringComparison.Ordinal));
        Assert.DoesNotContain(Of(RequestBuilder.For().Aged(Pain.Youth.BelowAge).Sore("patellar-tendon", 2)).Cautions, c => c.Contains(Pain.Youth.Note, StringComparison.Ordinal));
    }

    [Fact]
    public void Below_the_age_of_adult_programmes_pain_refers_earlier()
    {
        var pain = Pain.Youth.ReferFromPain;
        Assert.NotNull(Of(RequestBuilder.For().Aged(Pain.Youth.BelowAge - 1).Sore("patellar-tendon", pain)).Referral);
        Assert.Null(Of(RequestBuilder.For().Aged(Pain.Youth.BelowAge).Sore("patellar-tendon", pain)).Referral);
    }

    [Fact]
    public void Two_complaints_of_one_side_give_one_limit_the_stricter()
    {
        var limits = Of(RequestBuilder.For().Sore("hamstring", 4, "left").Sore("hamstring", 1, "left")).Limits;
        Assert.Equal(4, limits.Count);
        Assert.Equal(TestEdition.Knowledge.PainLimitOf("hamstring")!.MaxTissueLoad[LoadingRate.Slow][4], Stages.LimitOn(limits, "hamstring", LoadingRate.Slow));
    }

    private static TissueLimits Of(RequestBuilder request) => Stages.Of(request).Limits;

    private static class Requests
    {
        public const Domain.Requests.Side Left = Domain.Requests.Side.Left;
        public const Domain.Requests.Side Both = Domain.Requests.Side.Both;
    }
}
