using CsCheck;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Testing;

/// <summary>How complaints began and went, and what clinicians wrote, without faults.</summary>
public static class CareGenerator
{
    private static readonly string[] Mornings = ["settled", "same", "worse"];
    private static readonly string[] Sides = ["left", "right", "both"];

    private static Vocabulary Words => TestEdition.Vocabulary;

    /// <summary>Gives a plain complaint its course, tissue, stage and provocations.</summary>
    public static Gen<Func<Complaint, Complaint>> Courses { get; } =
        Gen.Select(
            Gen.Frequency((4, Gen.Const("pain")), (1, Gen.Const("soreness")), (1, Gen.Const("stiffness"))),
            RequestGenerator.Maybe(RequestGenerator.One(Words.Tissues.Select(t => t.Id))),
            Gen.Select(Gen.Frequency((3, Gen.Const<string?>(() => null)), (1, RequestGenerator.One<string?>(["sudden", "gradual"]))), Gen.Frequency((1, Gen.Const(-1)), (2, Gen.Int[0, 30]))),
            RequestGenerator.One(Mornings).Array[0, 7],
            RequestGenerator.Maybe(RequestGenerator.One(["falling", "steady", "rising"])),
            Gen.Frequency((2, Gen.Const<string?>(() => null)), (1, RequestGenerator.One<string?>(Words.LoadingStages.Select(t => t.Id)))),
            RequestGenerator.Some(Words.Provocations.Select(p => p.Id), 3),
            (kind, tissue, onset, mornings, trend, stage, provoked) => (Func<Complaint, Complaint>)(c => kind == "soreness"
                ? c with { Kind = kind, Tissue = tissue?.Value is "muscle" or "unknown" ? tissue.Value : null, DaysSinceOnset = Days(onset.Item2), Trend = trend?.Value, ProvokedBy = provoked }
                : c with
                {
                    Kind = kind,
                    Tissue = tissue?.Value,
                    Onset = onset.Item1,
                    DaysSinceOnset = Days(onset.Item2),
                    Mornings = c.NextMorning is null ? mornings : null,
                    Trend = trend?.Value,
                    Stage = stage,
                    ProvokedBy = provoked,
                }));

    /// <summary>Restrictions on every region, of every kind, reviewed or overdue.</summary>
    public static Gen<Restriction> Restrictions { get; } =
        Gen.Select(
            RequestGenerator.One(Words.Regions.Select(r => r.Id)), RequestGenerator.Maybe(RequestGenerator.One(Sides)), Gen.Int[0, 3], Gen.Int[0, 100],
            RequestGenerator.One(Words.LoadingRates.Select(r => r.Id)), RequestGenerator.One(Words.LoadingStages.Select(r => r.Id)), RequestGenerator.Maybe(Gen.Int[-60, 60]),
            (region, side, kind, tenths, rate, stage, review) => new Restriction
            {
                Region = region,
                Side = side?.Value,
                MaxTissueLoad = kind == 0 ? tenths / 10m : null,
                MaxLoadingRate = kind == 1 ? rate : null,
                NoImpact = kind == 2 ? true : null,
                Stage = kind == 3 ? stage : null,
                ReviewInDays = review?.Value,
            });

    /// <summary>Gives an athlete restrictions, earlier injuries, time off and growth; a clearance or a limitation now and then.</summary>
    public static Gen<Func<AthleteFacts, AthleteFacts>> Facts { get; } =
        Gen.Select(
            Restrictions.Array[0, 2],
            Gen.Select(RequestGenerator.One(Words.Regions.Select(r => r.Id)), Gen.Int[0, 90], Gen.Bool, (region, months, surgery) => new EarlierInjury { Region = region, MonthsAgo = months, Surgery = surgery }).Array[0, 3],
            RequestGenerator.Maybe(Gen.Select(Gen.Int[0, 40], RequestGenerator.Maybe(RequestGenerator.One(["break", "illness", "injury"])), (weeks, reason) => new LayoffFacts { Weeks = weeks, Reason = reason?.Value })),
            Gen.Frequency((6, Gen.Const<Clearance[]?>(() => null)),
                (1, Gen.Select(RequestGenerator.One(TestEdition.Knowledge.Returning.Clearances.Select(c => c.Flag)), Gen.Int[0, 200], (flag, days) => new[] { new Clearance { Flag = flag, DaysAgo = days } }))),
            Gen.Int[0, 40],
            (restrictions, history, layoff, clearances, rare) => (Func<AthleteFacts, AthleteFacts>)(a => a with
            {
                Restrictions = restrictions,
                History = [.. history.Select(h => h with { MonthsAgo = Math.Min(h.MonthsAgo!.Value, (a.AgeYears ?? 90) * 12) })],
                Layoff = layoff?.Value,
                Clearances = clearances,
                GrowthSpurt = rare < 6 && !(a.AgeYears > 25) ? true : null,
                Supervised = rare % 3 == 0 ? rare % 2 == 0 : null,
                Limitations = rare == 40 ? ["one leg shorter"] : null,
            }));

    private static int? Days(int days) => days < 0 ? null : days;
}
