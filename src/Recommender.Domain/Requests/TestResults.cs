namespace Recommender.Domain.Requests;

/// <summary>Test results. All optional; bounds are in data/tests/battery.json.</summary>
public sealed record TestResults
{
    /// <summary>Counter-movement jump height, cm.</summary>
    public decimal? CounterMovementJumpCm { get; init; }

    /// <summary>Counter-movement jump flight time, ms.</summary>
    public decimal? CounterMovementJumpFlightMs { get; init; }

    /// <summary>Squat jump height, cm.</summary>
    public decimal? SquatJumpCm { get; init; }

    /// <summary>Reactive strength index, m/s.</summary>
    public decimal? ReactiveStrengthIndex { get; init; }

    /// <summary>Push-off distance of the jump, cm.</summary>
    public decimal? PushOffDistanceCm { get; init; }

    /// <summary>Peak force of the counter-movement jump, N.</summary>
    public decimal? JumpPeakForceN { get; init; }

    /// <summary>Peak force of the isometric pull or squat, N.</summary>
    public decimal? IsometricPeakForceN { get; init; }

    /// <summary>Jump peak force over isometric peak force.</summary>
    public decimal? DynamicStrengthIndex { get; init; }

    /// <summary>Counter-movement jump over squat jump.</summary>
    public decimal? EccentricUtilisationRatio { get; init; }

    /// <summary>Vertical force-velocity slope as a percentage of the optimal one: 100 balanced, below force lacks.</summary>
    public decimal? ForceVelocityImbalancePercent { get; init; }

    /// <summary>Adductor squeeze force, N.</summary>
    public decimal? AdductorSqueezeN { get; init; }

    /// <summary>Single-leg jump height, cm, each side.</summary>
    public Sides<decimal?>? SingleLegJumpCm { get; init; }

    /// <summary>Knee-to-wall distance, cm, each side.</summary>
    public Sides<decimal?>? KneeToWallCm { get; init; }

    /// <summary>Hip internal rotation, degrees, each side.</summary>
    public Sides<decimal?>? HipInternalRotationDegrees { get; init; }

    /// <summary>Hip external rotation, degrees, each side.</summary>
    public Sides<decimal?>? HipExternalRotationDegrees { get; init; }

    /// <summary>Straight-leg raise, degrees, each side.</summary>
    public Sides<decimal?>? StraightLegRaiseDegrees { get; init; }

    /// <summary>Single hop for distance, cm, each side.</summary>
    public Sides<decimal?>? SingleHopCm { get; init; }

    /// <summary>Triple hop for distance, cm, each side.</summary>
    public Sides<decimal?>? TripleHopCm { get; init; }

    /// <summary>Single-leg calf raises to failure, repetitions, each side.</summary>
    public Sides<decimal?>? CalfRaiseRepetitions { get; init; }

    /// <summary>Single-leg bridges to failure, repetitions, each side.</summary>
    public Sides<decimal?>? SingleLegBridgeRepetitions { get; init; }

    /// <summary>Nordic lower peak force, N, each side.</summary>
    public Sides<decimal?>? NordicForceN { get; init; }

    /// <summary>Isokinetic knee-flexor torque, N m, each side.</summary>
    public Sides<decimal?>? IsokineticHamstringNm { get; init; }

    /// <summary>Adductor over abductor force, each side.</summary>
    public Sides<decimal?>? AdductorAbductorRatio { get; init; }

    /// <summary>Shoulder external-rotation force, N, each side.</summary>
    public Sides<decimal?>? ShoulderExternalRotationN { get; init; }

    /// <summary>Shoulder internal-rotation force, N, each side.</summary>
    public Sides<decimal?>? ShoulderInternalRotationN { get; init; }

    /// <summary>Modified Thomas test positive (hip flexors short), each side.</summary>
    public Sides<bool?>? ModifiedThomasPositive { get; init; }

    /// <summary>Single-leg squat rated good, fair or poor, each side.</summary>
    public Sides<string>? SingleLegSquatRating { get; init; }

    /// <summary>Drop jump.</summary>
    public DropJumpResult? DropJump { get; init; }

    /// <summary>Loaded jumps, up to 20.</summary>
    public IReadOnlyList<LoadedJump>? LoadedJumps { get; init; }

    /// <summary>Sprint splits, up to 40.</summary>
    public IReadOnlyList<SprintSplit>? SprintSplits { get; init; }

    /// <summary>How the sprint clock started: first-movement, gate or gun.</summary>
    public string? SprintStart { get; init; }

    /// <summary>Exercise id to a set taken to failure.</summary>
    public IReadOnlyDictionary<string, LiftToFailure>? RepetitionsToFailure { get; init; }

    /// <summary>Y-balance reaches.</summary>
    public YBalanceResult? YBalance { get; init; }

    /// <summary>Trunk endurance holds.</summary>
    public TrunkHolds? TrunkHoldSeconds { get; init; }

    /// <summary>Pain while testing, 0 to 10.</summary>
    public int? TestPain { get; init; }

    /// <summary>Whole days since the tests, 0 to 3,650. Left out: today.</summary>
    public int? DaysAgo { get; init; }

    /// <summary>Trials of each test, 1 to 50. Left out: unknown, and the results count half; a single trial raises nothing.</summary>
    public int? Trials { get; init; }

    /// <summary>Tests with a reading on each side.</summary>
    public static IReadOnlyList<string> Sided { get; } = [.. new TestResults().BySide().Select(s => s.Id)];

    /// <summary>Every numeric reading that has bounds, with its pointer below /tests; the order is fixed.</summary>
    public IEnumerable<(string Pointer, string Test, decimal Value)> Readings()
    {
        foreach (var (id, value) in Plain())
        {
            if (value is { } v)
            {
                yield return (id, id, v);
            }
        }

        foreach (var (id, pair) in BySide())
        {
            if (pair?.Left is { } left)
            {
                yield return ($"{id}/left", id, left);
            }

            if (pair?.Right is { } right)
            {
                yield return ($"{id}/right", id, right);
            }
        }
    }

    private IEnumerable<(string Id, decimal? Value)> Plain()
    {
        yield return ("counterMovementJumpCm", CounterMovementJumpCm);
        yield return ("counterMovementJumpFlightMs", CounterMovementJumpFlightMs);
        yield return ("squatJumpCm", SquatJumpCm);
        yield return ("reactiveStrengthIndex", ReactiveStrengthIndex);
        yield return ("pushOffDistanceCm", PushOffDistanceCm);
        yield return ("jumpPeakForceN", JumpPeakForceN);
        yield return ("isometricPeakForceN", IsometricPeakForceN);
        yield return ("dynamicStrengthIndex", DynamicStrengthIndex);
        yield return ("eccentricUtilisationRatio", EccentricUtilisationRatio);
        yield return ("forceVelocityImbalancePercent", ForceVelocityImbalancePercent);
        yield return ("adductorSqueezeN", AdductorSqueezeN);
        yield return ("dropJump/heightCm", DropJump?.HeightCm);
        yield return ("dropJump/flightMs", DropJump?.FlightMs);
        yield return ("dropJump/contactMs", DropJump?.ContactMs);
        yield return ("dropJump/dropCm", DropJump?.DropCm);
        yield return ("trunkHoldSeconds/flexor", TrunkHoldSeconds?.Flexor);
        yield return ("trunkHoldSeconds/extensor", TrunkHoldSeconds?.Extensor);
        yield return ("trunkHoldSeconds/sideLeft", TrunkHoldSeconds?.SideLeft);
        yield return ("trunkHoldSeconds/sideRight", TrunkHoldSeconds?.SideRight);
    }

    private IEnumerable<(string Id, Sides<decimal?>? Pair)> BySide()
    {
        yield return ("singleLegJumpCm", SingleLegJumpCm);
        yield return ("kneeToWallCm", KneeToWallCm);
        yield return ("hipInternalRotationDegrees", HipInternalRotationDegrees);
        yield return ("hipExternalRotationDegrees", HipExternalRotationDegrees);
        yield return ("straightLegRaiseDegrees", StraightLegRaiseDegrees);
        yield return ("singleHopCm", SingleHopCm);
        yield return ("tripleHopCm", TripleHopCm);
        yield return ("calfRaiseRepetitions", CalfRaiseRepetitions);
        yield return ("singleLegBridgeRepetitions", SingleLegBridgeRepetitions);
        yield return ("nordicForceN", NordicForceN);
        yield return ("isokineticHamstringNm", IsokineticHamstringNm);
        yield return ("adductorAbductorRatio", AdductorAbductorRatio);
        yield return ("shoulderExternalRotationN", ShoulderExternalRotationN);
        yield return ("shoulderInternalRotationN", ShoulderInternalRotationN);
    }
}

/// <summary>A reading on each side.</summary>
/// <typeparam name="T">Kind of reading.</typeparam>
/// <param name="Left">Left side, or null when not tested.</param>
/// <param name="Right">Right side, or null when not tested.</param>
public sealed record Sides<T>(T? Left = default, T? Right = default);

/// <summary>A drop jump; height or flight time.</summary>
/// <param name="HeightCm">Jump height, cm.</param>
/// <param name="FlightMs">Flight time, ms.</param>
/// <param name="ContactMs">Contact time, ms.</param>
/// <param name="DropCm">Height dropped from, cm.</param>
public sealed record DropJumpResult(decimal? HeightCm = null, decimal? FlightMs = null, decimal? ContactMs = null, decimal? DropCm = null);

/// <summary>One loaded jump.</summary>
/// <param name="LoadKg">Added load, kg.</param>
/// <param name="HeightCm">Jump height, cm.</param>
public sealed record LoadedJump(decimal? LoadKg = null, decimal? HeightCm = null);

/// <summary>One split of a sprint.</summary>
/// <param name="DistanceM">Distance from the start, m.</param>
/// <param name="Seconds">Time from the start, s.</param>
public sealed record SprintSplit(decimal? DistanceM = null, decimal? Seconds = null);

/// <summary>A set taken to failure.</summary>
/// <param name="LoadKg">Load, kg.</param>
/// <param name="Repetitions">Repetitions, 1 to 30.</param>
public sealed record LiftToFailure(decimal? LoadKg = null, int? Repetitions = null);

/// <summary>Y-balance reaches.</summary>
/// <param name="Left">Left leg standing.</param>
/// <param name="Right">Right leg standing.</param>
/// <param name="LegLengthCm">Leg length, cm.</param>
public sealed record YBalanceResult(YBalanceReach? Left = null, YBalanceReach? Right = null, decimal? LegLengthCm = null);

/// <summary>Reaches of one standing leg.</summary>
/// <param name="AnteriorCm">Forward, cm.</param>
/// <param name="PosteromedialCm">Backward and inward, cm.</param>
/// <param name="PosterolateralCm">Backward and outward, cm.</param>
public sealed record YBalanceReach(decimal? AnteriorCm = null, decimal? PosteromedialCm = null, decimal? PosterolateralCm = null);

/// <summary>Trunk endurance holds.</summary>
/// <param name="Flexor">Flexor hold, s.</param>
/// <param name="Extensor">Extensor hold, s.</param>
/// <param name="SideLeft">Left side bridge, s.</param>
/// <param name="SideRight">Right side bridge, s.</param>
public sealed record TrunkHolds(decimal? Flexor = null, decimal? Extensor = null, decimal? SideLeft = null, decimal? SideRight = null);
