namespace Recommender.Domain.Needs;

/// <summary>What the athlete needs: qualities with weights that sum to 1 exactly.</summary>
/// <param name="Needs">Heaviest first; equal weights in the vocabulary's order.</param>
/// <param name="Cautions">What should be read with it, in plain words.</param>
public sealed record NeedProfile(IReadOnlyList<Need> Needs, IReadOnlyList<string> Cautions)
{
    /// <summary>Weights are whole multiples of one over this.</summary>
    public const int WeightUnits = 10_000;

    /// <summary>Measures derived from tests, and tests that a threshold reads.</summary>
    public IReadOnlyList<DerivedMeasure> Derived { get; init; } = [];

    /// <summary>Sides that several tests show as weaker, beyond error and habit; a dose may give one of them a little more.</summary>
    public IReadOnlyList<WeakerSide> WeakerSides { get; init; } = [];
}

/// <summary>One needed quality.</summary>
/// <param name="Quality">Quality id.</param>
/// <param name="Position">Position in the vocabulary's qualities.</param>
/// <param name="WeightUnits">Weight in ten-thousandths; all needs sum to 10,000.</param>
/// <param name="From">Where it comes from; shares sum to 1.</param>
public sealed record Need(string Quality, int Position, int WeightUnits, IReadOnlyList<NeedOrigin> From)
{
    /// <summary>Weight, 0 to 1, four decimals.</summary>
    public decimal Weight => WeightUnits / (decimal)NeedProfile.WeightUnits;
}

/// <summary>Where part of a need comes from.</summary>
/// <param name="Source">event-profile, coach, test, complaint or history.</param>
/// <param name="Share">Share of the need's weight, 0 to 1, three decimals.</param>
/// <param name="Note">Which profile, test, complaint or earlier injury, in plain words.</param>
/// <param name="Basis">Where the number comes from.</param>
/// <param name="Reference">Source id, or null.</param>
public sealed record NeedOrigin(string Source, decimal Share, string Note, Catalogue.Basis Basis, string? Reference);
