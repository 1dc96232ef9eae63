using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Requests;

public sealed class ComplaintChecksTests
{
    private static readonly RequestBuilder Good = RequestBuilder.For();

    private static readonly Complaint Sore = new() { Region = "hamstring", Pain = 2 };

    private static readonly Restriction Written = new() { Region = "hip", Side = "left", MaxTissueLoad = 3, ReviewInDays = 14, By = "physio" };

    /// <summary>Pointer, code, and a part of the message that says what would be right.</summary>
    private static readonly (string Pointer, string Code, string Says, RecommendationRequest Request)[] Wrong =
    [
        ("/complaints/0/kind", "unknown-id", "pain, soreness, stiffness", Good.Complaining(Sore with { Kind = "ache" })),
        ("/complaints/0/tissue", "unknown-id", "tendon, muscle, joint, bone, nerve, growth-plate, unknown", Good.Complaining(Sore with { Tissue = "skin" })),
        ("/complaints/0/onset", "unknown-id", "sudden, gradual", Good.Complaining(Sore with { Onset = "slow" })),
        ("/complaints/0/daysSinceOnset", "out-of-range", "0 to 7300 days", Good.Complaining(Sore with { DaysSinceOnset = -1 })),
        ("/complaints/0/mornings", "too-many", "at most 7", Good.Complaining(Sore with { Mornings = [.. Enumerable.Repeat("same", 8)] })),
        ("/complaints/0/mornings/1", "unknown-id", "settled, same, worse", Good.Complaining(Sore with { Mornings = ["same", "bad"] })),
        ("/complaints/0/mornings/0", "contradiction", "give one of them", Good.Complaining(Sore with { NextMorning = "settled", Mornings = ["worse"] })),
        ("/complaints/0/trend", "unknown-id", "falling, steady, rising", Good.Complaining(Sore with { Trend = "up" })),
        ("/complaints/0/stage", "unknown-id", "isometric, slow-heavy, energy-storage, return", Good.Complaining(Sore with { Stage = "two" })),
        ("/complaints/0/provokedBy/0", "unknown-id", "deep-knee-bend", Good.Complaining(Sore with { ProvokedBy = ["rain"] })),
        ("/complaints/0/provokedBy", "too-many", "at most 10", Good.Complaining(Sore with { ProvokedBy = [.. Enumerable.Repeat("landing", 11)] })),
        ("/complaints/0/onset", "contradiction", "give kind pain", Good.Complaining(Sore with { Kind = "soreness", Onset = "sudden" })),
        ("/complaints/0/tissue", "contradiction", "not of bone", Good.Complaining(Sore with { Kind = "soreness", Tissue = "bone" })),
        ("/complaints/0/stage", "contradiction", "no loading stage", Good.Complaining(Sore with { Kind = "soreness", Stage = "isometric" })),
        ("/athlete/restrictions", "too-many", "at most 20", Good.Athlete(a => a with { Restrictions = [.. Enumerable.Repeat(Written, 21)] })),
        ("/athlete/restrictions/0", "required", "maxTissueLoad, maxLoadingRate, noImpact true or stage", Good.Restricted(new Restriction { Region = "hip", NoImpact = false })),
        ("/athlete/restrictions/0/region", "required", "region is missing", Good.Restricted(Written with { Region = null })),
        ("/athlete/restrictions/0/region", "unknown-id", "\"tail\"", Good.Restricted(Written with { Region = "tail" })),
        ("/athlete/restrictions/0/side", "unknown-id", "left, right, both", Good.Restricted(Written with { Side = "middle" })),
        ("/athlete/restrictions/0/maxTissueLoad", "out-of-range", "0 to 10", Good.Restricted(Written with { MaxTissueLoad = 10.1m })),
        ("/athlete/restrictions/0/maxLoadingRate", "unknown-id", "isometric, slow, fast, impact", Good.Restricted(Written with { MaxLoadingRate = "quick" })),
        ("/athlete/restrictions/0/maxLoadingRate", "contradiction", "give one of them", Good.Restricted(Written with { NoImpact = true, MaxLoadingRate = "impact" })),
        ("/athlete/restrictions/0/stage", "unknown-id", "slow-heavy", Good.Restricted(Written with { Stage = "two" })),
        ("/athlete/restrictions/0/reviewInDays", "out-of-range", "-3650 to 3650 days", Good.Restricted(Written with { ReviewInDays = 3651 })),
        ("/athlete/restrictions/0/by", "out-of-range", "1 to 100 printable", Good.Restricted(Written with { By = "" })),
        ("/athlete/clearances/0/flag", "required", "pregnancy, recent-birth, recent-surgery", Good.Athlete(a => a with { Clearances = [new Clearance { DaysAgo = 1 }] })),
        ("/athlete/clearances/0/flag", "unknown-id", "pregnancy, recent-birth, recent-surgery", Good.Cleared("chest-pain", 1)),
        ("/athlete/clearances/0/daysAgo", "required", "whole days", Good.Athlete(a => a with { Clearances = [new Clearance { Flag = "pregnancy" }] })),
        ("/athlete/clearances/0/daysAgo", "out-of-range", "0 to 3650", Good.Cleared("pregnancy", -1)),
        ("/athlete/history/0/region", "unknown-id", "\"tail\"", Good.HurtBefore("tail", 3)),
        ("/athlete/history/0/monthsAgo", "required", "whole months", Good.Athlete(a => a with { History = [new EarlierInjury { Region = "hip" }] })),
        ("/athlete/history/0/monthsAgo", "out-of-range", "0 to 1200", Good.HurtBefore("hip", 1201)),
        ("/athlete/history/0/monthsAgo", "contradiction", "before birth at age 20", Good.Aged(20).HurtBefore("hip", 252)),
        ("/athlete/layoff/weeks", "required", "0 to 520", Good.Athlete(a => a with { Layoff = new LayoffFacts() })),
        ("/athlete/layoff/weeks", "out-of-range", "0 to 520", Good.Athlete(a => a with { Layoff = new LayoffFacts { Weeks = 521 } })),
        ("/athlete/layoff/reason", "unknown-id", "break, illness, injury", Good.Athlete(a => a with { Layoff = new LayoffFacts { Weeks = 2, Reason = "holiday" } })),
        ("/athlete/growthSpurt", "contradiction", "at 26 years is not possible", Good.Aged(26).Athlete(a => a with { GrowthSpurt = true })),
        ("/athlete/limitations/0", "out-of-range", "1 to 200 printable", Good.Athlete(a => a with { Limitations = [""] })),
        ("/athlete/limitations", "too-many", "at most 20", Good.Athlete(a => a with { Limitations = [.. Enumerable.Repeat("x", 21)] })),
    ];

    public static TheoryData<int> Cases => [.. Enumerable.Range(0, Wrong.Length)];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Says_what_is_wrong_and_what_would_be_right(int which)
    {
        var (pointer, code, says, request) = Wrong[which];
        var faults = Of(request);
        var fault = Assert.Single(faults, f => f.Pointer == pointer && f.Code == code);
        Assert.Contains(says, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Everything_that_is_wrong_is_told_at_once()
    {
        var faults = Of(Good.Complaining(Sore with { Tissue = "skin", Trend = "up", Mornings = ["bad"] }).Restricted(Written with { Side = "middle" }).Cleared("chest-pain", -1).HurtBefore("tail", -1));
        Assert.Equal(
            ["/athlete/clearances/0/daysAgo", "/athlete/clearances/0/flag", "/athlete/history/0/monthsAgo", "/athlete/history/0/region", "/athlete/restrictions/0/side",
                "/complaints/0/mornings/0", "/complaints/0/tissue", "/complaints/0/trend"],
            faults.Select(f => f.Pointer).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_full_complaint_and_all_that_clinicians_may_write_are_taken() =>
        Assert.Empty(Of(Good.Aged(20)
            .Complaining(new Complaint
            {
                Region = "patellar-tendon",
                Side = "left",
                Pain = 3,
                Kind = "stiffness",
                Tissue = "tendon",
                Onset = "gradual",
                DaysSinceOnset = 40,
                Mornings = ["settled", "same", "worse"],
                NextMorning = "settled",
                Trend = "falling",
                Stage = "slow-heavy",
                ProvokedBy = ["landing", "deep-knee-bend"],
            })
            .Restricted(Written).Restricted(new Restriction { Region = "knee", NoImpact = true, MaxLoadingRate = "slow", ReviewInDays = -3 }).Cleared("recent-surgery", 10).HurtBefore("hip", 240, surgery: true)
            .Athlete(a => a with { Layoff = new LayoffFacts { Weeks = 3.5m, Reason = "illness" }, GrowthSpurt = false, Supervised = true, Limitations = ["left arm below the elbow"] })));

    private static IReadOnlyList<Fault> Of(RecommendationRequest request) => RequestChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge);
}
