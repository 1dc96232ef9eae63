using CsCheck;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Needs.Measures;
using Recommender.Domain.Requests;

namespace Recommender.Testing;

/// <summary>Random requests without faults, over the whole vocabulary and every optional field.</summary>
public static class RequestGenerator
{
    private static readonly Vocabulary Words = TestEdition.Vocabulary;
    private static readonly string[] ExerciseIds = [.. TestEdition.Current.Catalogue.Exercises.Select(e => e.Id)];
    private static readonly string[] QualityIds = [.. Words.Qualities.Select(q => q.Id), .. Words.Aliases.Select(a => a.Id)];
    private static readonly string[] EquipmentIds = [.. Words.Equipment.Select(e => e.Id)];

    /// <summary>Athletes: events of every group, ages from childhood on, training age never above age.</summary>
    public static Gen<AthleteFacts> Athletes { get; } =
        Gen.Select(
            One(Words.Events.Select(e => e.Id)), Gen.Int[0, 2], Maybe(Gen.Frequency((1, Gen.Int[8, 17]), (2, Gen.Int[18, 45]))), Maybe(Gen.Int[0, 120]),
            Maybe(Some(Words.Competences.Select(c => c.Id), 8)), Maybe(Gen.Dictionary(One(ExerciseIds), Gen.Int[20, 250])[0, 4]), Maybe(One(["left", "right"])),
            (eventId, naming, age, trainedTenths, competence, maxima, leg) => new AthleteFacts
            {
                Event = naming == 0 ? null : eventId,
                EventGroup = naming == 1 ? null : Words.Events.Find(eventId)!.EventGroup,
                AgeYears = age?.Value,
                TrainingAgeYears = trainedTenths is { } t ? Math.Min(t.Value / 10m, age?.Value ?? 12) : null,
                Competence = competence?.Value,
                OneRepMaxKg = maxima?.Value.ToDictionary(m => m.Key, m => (decimal)m.Value, StringComparer.Ordinal),
                TakeOffLeg = leg?.Value,
                Sex = leg?.Value == "left" ? "female" : null,
                BodyMassKg = trainedTenths is { } mass ? 40 + (mass.Value / 2m) : null,
                StatureCm = trainedTenths is { Value: > 40 } tall ? 150 + (tall.Value / 2m) : null,
                LeadLeg = age is { Value: > 20 } ? leg?.Value : null,
                ThrowingSide = leg?.Value,
                StartFrontFoot = naming == 2 ? leg?.Value : null,
            });

    /// <summary>Settings: every place, its usual equipment, some, none or all; limits and minutes now and then.</summary>
    public static Gen<SettingFacts> Settings { get; } =
        Gen.Select(
            Maybe(One(Words.Places.Select(p => p.Id))),
            Gen.Frequency((2, Gen.Const<string[]?>(() => null)), (1, Gen.Const<string[]?>(() => [])), (2, Gen.Const<string[]?>(() => EquipmentIds)), (4, Some(EquipmentIds, 20).Select(x => (string[]?)x))),
            Gen.Frequency((3, Gen.Const<string[]?>(() => null)), (1, Some(Words.SettingLimits.Select(l => l.Id), 3).Select(x => (string[]?)x))),
            Gen.Frequency((3, Gen.Const(0)), (2, Gen.Int[10, 400])),
            Gen.Frequency((5, Gen.Const<string?>(() => null)), (1, One(TestEdition.Knowledge.Week.Slots.Select(s => (string?)s.Id)))),
            Gen.Frequency((3, Gen.Const<KitFacts?>(() => null)), (1, Gen.Int[4, 50].Select(kg => (KitFacts?)new KitFacts { Dumbbell = new DumbbellKit { MaxKg = kg }, Barbell = new BarbellKit { BarKg = 20, PlatesKg = [kg / 4m, 20] } }))),
            (place, equipment, limits, tenths, slot, kit) => new SettingFacts { Place = place?.Value, Equipment = equipment, Limits = limits, Minutes = tenths == 0 ? null : tenths / 10m, Slot = slot, Kit = kit });

    /// <summary>Sessions of the rest of the week.</summary>
    public static Gen<TrainingDay> Training { get; } =
        Gen.Select(One(TestEdition.Knowledge.Week.Kinds.Select(k => k.Id)), Gen.Int[-14, 14], Maybe(Gen.Int[0, 10]), (kind, days, effort) => new TrainingDay { Kind = kind, DaysFromToday = days, Effort = effort?.Value });

    /// <summary>Competitions ahead, under way or over.</summary>
    public static Gen<Competition> Competitions { get; } =
        Gen.Select(Gen.Int[-4, 120], Gen.Int[1, 4], Maybe(One(["main", "build-up", "training-through"])), (start, days, priority) => new Competition { DaysToStart = start, Days = days, Priority = priority?.Value });

    /// <summary>Complaints without red flags: every region, pain 0 to 10, more often low; a third of them with their course, tissue, stage and provocations.</summary>
    public static Gen<Complaint> Complaints { get; } =
        Gen.Select(PlainComplaints(), Gen.Int[0, 2], CareGenerator.Courses, (complaint, third, course) => third == 0 ? course(complaint) : complaint);

    private static Gen<Complaint> PlainComplaints() =>
        Gen.Select(
            One(Words.Regions.Select(r => r.Id)), Gen.Frequency((3, Gen.Int[0, 5]), (1, Gen.Int[6, 10])), Maybe(One(["left", "right", "both"])), Maybe(One(["settled", "same", "worse"])),
            (region, pain, side, morning) => new Complaint { Region = region, Pain = pain, Side = side?.Value, NextMorning = morning?.Value });

    /// <summary>Complaints that now and then bring a red flag, of either scope.</summary>
    public static Gen<Complaint> FlaggedComplaints { get; } =
        Gen.Select(Complaints, Gen.Frequency((9, Gen.Const<string[]?>(() => null)), (1, Some(Words.RedFlags.Select(f => f.Id), 2).Select(x => (string[]?)x))),
            (complaint, flags) => complaint with { RedFlags = flags });

    /// <summary>Needs of the coach: qualities and the alias, by importance, by weight, or by neither.</summary>
    public static Gen<CoachNeed> Needs { get; } =
        Gen.Select(One(QualityIds), Gen.Int[0, 2], One(Words.Importances.Select(i => i.Id)), Gen.Int[0, 100],
            (quality, kind, importance, hundredths) => new CoachNeed { Quality = quality, Importance = kind == 1 ? importance : null, Weight = kind == 2 ? hundredths / 100m : null });

    /// <summary>Work done lately.</summary>
    public static Gen<RecentWork> Recent { get; } =
        Gen.Select(One(ExerciseIds), Gen.Int[0, 30], Maybe(Gen.Int[1, 8]), (exercise, days, sets) => new RecentWork { Exercise = exercise, DaysAgo = days, Sets = sets?.Value, Amount = sets?.Value * 2, Unit = sets is null ? null : "reps" });

    /// <summary>Test results inside their bounds: every kind of test, each given now and then.</summary>
    public static Gen<TestResults> Tests { get; } =
        Gen.Select(PlainTests(), Force(), Sided(), Composite(), Maybe(Gen.Int[0, 200]), Maybe(Gen.Int[1, 4]), Gen.Frequency((3, Gen.Const(-1)), (1, Gen.Int[0, 10])),
            (plain, force, sided, composite, days, trials, pain) => plain with
            {
                DropJump = force.DropJump,
                ReactiveStrengthIndex = force.ReactiveStrengthIndex,
                JumpPeakForceN = force.JumpPeakForceN,
                IsometricPeakForceN = force.IsometricPeakForceN,
                LoadedJumps = force.LoadedJumps,
                PushOffDistanceCm = force.PushOffDistanceCm,
                SprintSplits = force.SprintSplits,
                SprintStart = force.SprintStart,
                SingleLegJumpCm = sided.SingleLegJumpCm,
                SingleHopCm = sided.SingleHopCm,
                TripleHopCm = sided.TripleHopCm,
                HipInternalRotationDegrees = sided.HipInternalRotationDegrees,
                HipExternalRotationDegrees = sided.HipExternalRotationDegrees,
                StraightLegRaiseDegrees = sided.StraightLegRaiseDegrees,
                SingleLegBridgeRepetitions = sided.SingleLegBridgeRepetitions,
                AdductorAbductorRatio = sided.AdductorAbductorRatio,
                ShoulderExternalRotationN = composite.ShoulderExternalRotationN,
                ShoulderInternalRotationN = composite.ShoulderInternalRotationN,
                IsokineticHamstringNm = composite.IsokineticHamstringNm,
                YBalance = composite.YBalance,
                TrunkHoldSeconds = composite.TrunkHoldSeconds,
                RepetitionsToFailure = composite.RepetitionsToFailure,
                AdductorSqueezeN = composite.AdductorSqueezeN,
                CounterMovementJumpFlightMs = composite.CounterMovementJumpFlightMs,
                DaysAgo = days?.Value,
                Trials = trials?.Value,
                TestPain = pain < 0 ? null : pain,
            });

    private static Gen<TestResults> PlainTests() =>
        Gen.Select(
            Reading("counterMovementJumpCm"), Reading("squatJumpCm"), Reading("dynamicStrengthIndex"), Reading("forceVelocityImbalancePercent"), BothSides("kneeToWallCm"),
            BothSides("calfRaiseRepetitions"), BothSides("nordicForceN"), Maybe(One(["good", "fair", "poor"])),
            (jump, squat, index, imbalance, ankle, calf, nordic, rating) => new TestResults
            {
                CounterMovementJumpCm = jump,
                SquatJumpCm = squat,
                DynamicStrengthIndex = index,
                ForceVelocityImbalancePercent = imbalance,
                KneeToWallCm = ankle,
                CalfRaiseRepetitions = calf,
                NordicForceN = nordic,
                SingleLegSquatRating = rating is null ? null : new Sides<string>(rating.Value, "good"),
                ModifiedThomasPositive = rating?.Value == "fair" ? new Sides<bool?>(true, null) : null,
            });

    private static Gen<TestResults> Force() =>
        Gen.Select(
            Maybe(Gen.Select(Gen.Int[5, 70], Gen.Int[90, 500], Gen.Bool)), Reading("reactiveStrengthIndex"), Reading("jumpPeakForceN"), Reading("isometricPeakForceN"),
            Maybe(Gen.Select(Gen.Int[25, 60], Gen.Int[0, 12].Array[1, 5])), Reading("pushOffDistanceCm"), Maybe(Gen.Select(Gen.Int[55, 120], Gen.Int[60, 180], Gen.Int[1, 6])),
            Maybe(One(["first-movement", "gate", "gun"])),
            (drop, index, dynamic, isometric, jumps, pushOff, sprint, start) => new TestResults
            {
                DropJump = drop is null ? null : drop.Value.Item3 ? new DropJumpResult(HeightCm: drop.Value.Item1, ContactMs: drop.Value.Item2) : new DropJumpResult(FlightMs: 200 + (drop.Value.Item1 * 5), ContactMs: drop.Value.Item2),
                ReactiveStrengthIndex = index,
                JumpPeakForceN = dynamic,
                IsometricPeakForceN = isometric,
                LoadedJumps = jumps is null ? null : [.. jumps.Value.Item2.Select((fall, i) => new LoadedJump(20 * i, Math.Max(2, jumps.Value.Item1 - (8 * i) - fall)))],
                PushOffDistanceCm = pushOff,
                SprintSplits = sprint is null ? null : [.. Enumerable.Range(1, sprint.Value.Item3).Select(i => new SprintSplit(10 * i, Seconds(10 * i, sprint.Value.Item1 / 10.0, sprint.Value.Item2 / 100.0)))],
                SprintStart = start?.Value,
            });

    private static decimal Seconds(double metres, double topSpeed, double constant) => decimal.Round((decimal)new SprintFit(topSpeed, constant, 0).TimeAt(metres), 2);

    private static Gen<TestResults> Sided() =>
        Gen.Select(BothSides("singleLegJumpCm"), BothSides("singleHopCm"), BothSides("tripleHopCm"), BothSides("hipInternalRotationDegrees"), BothSides("hipExternalRotationDegrees"),
            BothSides("straightLegRaiseDegrees"), BothSides("singleLegBridgeRepetitions"), BothSides("adductorAbductorRatio"),
            (jump, hop, triple, inner, outer, raise, bridge, ratio) => new TestResults
            {
                SingleLegJumpCm = jump,
                SingleHopCm = hop,
                TripleHopCm = triple,
                HipInternalRotationDegrees = inner,
                HipExternalRotationDegrees = outer,
                StraightLegRaiseDegrees = raise,
                SingleLegBridgeRepetitions = bridge,
                AdductorAbductorRatio = ratio,
            });

    private static Gen<TestResults> Composite() =>
        Gen.Select(BothSides("shoulderExternalRotationN"), BothSides("shoulderInternalRotationN"), BothSides("isokineticHamstringNm"), Maybe(Gen.Int[40, 120].Array[7]),
            Maybe(Gen.Int[0, 300].Array[4]), Maybe(Gen.Select(One(ExerciseIds), Gen.Int[20, 200], Gen.Int[1, 30])), Reading("adductorSqueezeN"), Reading("counterMovementJumpFlightMs"),
            (outer, inner, torque, reach, holds, lift, squeeze, flight) => new TestResults
            {
                ShoulderExternalRotationN = outer,
                ShoulderInternalRotationN = inner,
                IsokineticHamstringNm = torque,
                YBalance = reach is null ? null : new YBalanceResult(new YBalanceReach(reach.Value[0], reach.Value[1], reach.Value[2]), new YBalanceReach(reach.Value[3], reach.Value[4], reach.Value[5]), reach.Value[6]),
                TrunkHoldSeconds = holds is null ? null : new TrunkHolds(holds.Value[0], holds.Value[1], holds.Value[2], holds.Value[3]),
                RepetitionsToFailure = lift is null ? null : new Dictionary<string, LiftToFailure>(StringComparer.Ordinal) { [lift.Value.Item1] = new LiftToFailure(lift.Value.Item2, lift.Value.Item3) },
                AdductorSqueezeN = squeeze,
                CounterMovementJumpFlightMs = flight,
            });

    /// <summary>Filters, each list absent more often than not.</summary>
    public static Gen<OnlyFilter> Filters { get; } =
        Gen.Select(Maybe(Some(Words.Supports.Select(s => s.Id), 3)), Maybe(Some(Words.Patterns.Select(p => p.Id), 8)), Maybe(Some(QualityIds, 8)), Maybe(Some(Words.LoadingRates.Select(l => l.Id), 3)),
            (support, pattern, quality, rate) => new OnlyFilter { Support = support?.Value, Pattern = pattern?.Value, Quality = quality?.Value, LoadingRate = rate?.Value });

    /// <summary>Whole requests with any number of complaints up to three, red flags now and then.</summary>
    public static Gen<RecommendationRequest> Requests { get; } = Whole(FlaggedComplaints, withFlags: true);

    /// <summary>Whole requests without any red flag.</summary>
    public static Gen<RecommendationRequest> Unflagged { get; } = Whole(Complaints, withFlags: false);

    /// <summary>One of these.</summary>
    public static Gen<T> One<T>(IEnumerable<T> items)
    {
        T[] all = [.. items];
        return Gen.Int[0, all.Length - 1].Select(i => all[i]);
    }

    /// <summary>Some of these, at most so many, none twice, in any order; may be none.</summary>
    public static Gen<string[]> Some(IEnumerable<string> ids, int most) => One(ids).Array[0, most].Select(chosen => chosen.Distinct(StringComparer.Ordinal).ToArray());

    private static Gen<RecommendationRequest> Whole(Gen<Complaint> complaint, bool withFlags) =>
        Gen.Select(
            Gen.Select(Gen.Select(Athletes, Gen.Frequency((5, Gen.Const<Func<AthleteFacts, AthleteFacts>>(() => a => a)), (1, CareGenerator.Facts)), (athlete, care) => care(athlete)), Settings, Gen.Int[0, Words.Phases.Count - 1], Gen.Frequency((2, Gen.Const(-1)), (2, Gen.Int[0, 60]), (1, Gen.Int[60, 600]))),
            complaint.Array[0, 3],
            withFlags ? Gen.Frequency((12, Gen.Const<string[]?>(() => null)), (1, Some(Words.RedFlags.Select(f => f.Id), 2).Select(x => (string[]?)x))) : Gen.Const<string[]?>(() => null),
            Needs.Array[0, 4],
            Maybe(Tests),
            Recent.Array[0, 6],
            Gen.Frequency((3, Gen.Const<string[]>(() => [])), (1, Some(ExerciseIds, 12))),
            Gen.Select(Gen.Frequency((5, Gen.Const<OnlyFilter?>(() => null)), (1, Filters.Select(f => (OnlyFilter?)f))), Gen.Int[0, 30],
                Gen.Frequency((3, Gen.Const<Competition[]>(() => [])), (1, Competitions.Array[0, 3])), Gen.Frequency((3, Gen.Const<TrainingDay[]>(() => [])), (1, Training.Array[0, 5])),
                Gen.Frequency((5, Gen.Const<string?>(() => null)), (1, One<string?>(["build", "hold", "unload"])))),
            (basic, complaints, flags, needs, tests, recent, exclude, rest) => new RecommendationRequest
            {
                Athlete = basic.Item1,
                Setting = basic.Item2,
                Phase = Words.Phases[basic.Item3].Id,
                WeeksToCompetition = basic.Item4 < 0 || rest.Item3.Length > 0 ? null : basic.Item4 / 10m,
                Competitions = rest.Item3,
                Training = rest.Item4,
                WeekKind = rest.Item5,
                Complaints = complaints,
                RedFlags = flags,
                Needs = needs,
                Tests = tests?.Value,
                Recent = recent,
                Exclude = exclude,
                Only = rest.Item1,
                Count = rest.Item2 == 0 ? null : rest.Item2,
            });

    private static Gen<decimal?> Reading(string test)
    {
        var bounds = TestEdition.Knowledge.Tests.Tests.Single(t => t.Id == test);
        return Gen.Select(Gen.Bool, Gen.Int[0, 100], (given, percent) => given ? bounds.Min + ((bounds.Max - bounds.Min) * percent / 100) : (decimal?)null);
    }

    private static Gen<Sides<decimal?>?> BothSides(string test) =>
        Gen.Select(Reading(test), Reading(test), (left, right) => left is null && right is null ? null : new Sides<decimal?>(left, right));

    internal static Gen<Given<T>?> Maybe<T>(Gen<T> gen) => Gen.Select(Gen.Bool, gen, (given, value) => given ? new Given<T>(value) : null);

    /// <summary>A value that is there; stands beside null for one that was left out, for structs and classes alike.</summary>
    internal sealed record Given<T>(T Value);
}
