namespace Recommender.Domain.Catalogue;

/// <summary>
/// Estimates the load on one tissue from the facts of an exercise: mechanics with a few constants fitted to the measured exercises.
/// One file of data/models; the fit lives in Recommender.Learning, this is only its evaluation.
/// </summary>
/// <param name="Region">Region id.</param>
/// <param name="Note">What it is and what it leaves out.</param>
/// <param name="Source">Id of the study whose index it continues.</param>
/// <param name="Mechanics">Given parameters.</param>
/// <param name="FittedWithin">Measured exercises inside are fitted to.</param>
/// <param name="UsedWithin">Exercises inside any of these, and not measured, are estimated.</param>
/// <param name="LeastSpearman">Rank correlation, leave-one-out, below which it is not used.</param>
/// <param name="Coverage">Share of leave-one-out residuals that the interval is to hold, 0 to 1.</param>
/// <param name="Fitted">What the fit gave.</param>
public sealed record TissueLoadModel(
    string Region,
    string Note,
    string Source,
    TissueLoadMechanics Mechanics,
    TissueLoadDomain FittedWithin,
    IReadOnlyList<TissueLoadDomain> UsedWithin,
    decimal LeastSpearman,
    decimal Coverage,
    TissueLoadFitted Fitted)
{
    private const double Most = 10;

    /// <summary>Whether the fit ranks well enough to be used at all.</summary>
    public bool RanksWellEnough => Fitted.LeaveOneOut.Spearman >= LeastSpearman;

    /// <summary>Whether the exercise's load on the region was measured; then the measurement stands.</summary>
    public bool IsMeasured(Exercise exercise) => exercise.TissueLoad.TryGetValue(Region, out var load) && load.Basis == Basis.Published;

    /// <summary>Whether the model speaks for this exercise: it ranks well enough, the exercise lies in a domain and was not measured.</summary>
    public bool SpeaksFor(Exercise exercise) => RanksWellEnough && !IsMeasured(exercise) && UsedWithin.Any(d => d.Holds(exercise));

    /// <summary>The load that the constants give, 0 to 10, wherever the exercise lies.</summary>
    public double ValueOf(ExerciseFacts facts) => Math.Clamp(Fitted.Constants.ValueOf(Mechanics.TermsOf(facts)), 0, Most);

    /// <summary>The estimate with its interval, cut to 0 to 10; one decimal, since the residuals allow no more.</summary>
    public TissueLoad Estimate(ExerciseFacts facts)
    {
        var value = decimal.Round((decimal)ValueOf(facts), 1, MidpointRounding.AwayFromZero);
        var half = Fitted.LeaveOneOut.HalfWidth;
        return new TissueLoad(value, Math.Max(0, value - half), Math.Min((decimal)Most, value + half), Basis.Modelled, Source);
    }

    /// <summary>The exercise with the estimate in place of what was agreed; the same exercise where the model does not speak.</summary>
    public Exercise Apply(Exercise exercise) => SpeaksFor(exercise)
        ? exercise with
        {
            TissueLoad = exercise.TissueLoad.ToDictionary(l => l.Key, l => l.Key == Region ? Estimate(exercise.Facts) : l.Value, StringComparer.Ordinal),
        }
        : exercise;
}

/// <summary>Fitted weights of the three terms.</summary>
/// <param name="PerKneeMoment">Load per body weight x stature of knee moment.</param>
/// <param name="PerLoadedBend">Load per unit of loaded bend.</param>
/// <param name="PerRateClass">Load per rate class.</param>
public sealed record TissueLoadConstants(decimal PerKneeMoment, decimal PerLoadedBend, decimal PerRateClass)
{
    /// <summary>The weighted sum, before it is cut to the scale.</summary>
    public double ValueOf(TissueLoadTerms terms) =>
        ((double)PerKneeMoment * terms.KneeMoment) + ((double)PerLoadedBend * terms.LoadedBend) + ((double)PerRateClass * terms.RateClass);
}

/// <summary>What a fit gave.</summary>
/// <param name="Constants">Fitted constants.</param>
/// <param name="LeaveOneOut">How well an exercise is told by the others.</param>
/// <param name="Rows">Measured exercises that were fitted to, highest first.</param>
/// <param name="LeftOut">Measured exercises that the mechanics do not cover.</param>
public sealed record TissueLoadFitted(TissueLoadConstants Constants, LeaveOneOutError LeaveOneOut, IReadOnlyList<FittedRow> Rows, IReadOnlyList<UnfittedRow> LeftOut);

/// <summary>Each row told by a fit to the others.</summary>
/// <param name="Spearman">Rank correlation of told and measured, -1 to 1, three decimals.</param>
/// <param name="MeanAbsoluteError">Mean distance of told and measured, two decimals.</param>
/// <param name="HalfWidth">Half width of the interval, one decimal, rounded up.</param>
/// <param name="HalfWidthRank">The half width is the residual of this rank, smallest first: ceiling of coverage x (rows + 1).</param>
public sealed record LeaveOneOutError(decimal Spearman, decimal MeanAbsoluteError, decimal HalfWidth, int HalfWidthRank);

/// <summary>One measured exercise of a fit.</summary>
/// <param name="Exercise">Exercise id.</param>
/// <param name="Measured">Measured load.</param>
/// <param name="InSample">What the fit to all rows says.</param>
/// <param name="LeaveOneOut">What the fit to the other rows says.</param>
public sealed record FittedRow(string Exercise, decimal Measured, decimal InSample, decimal LeaveOneOut);

/// <summary>One measured exercise that was not fitted to.</summary>
/// <param name="Exercise">Exercise id.</param>
/// <param name="Measured">Measured load.</param>
/// <param name="Because">Why not.</param>
public sealed record UnfittedRow(string Exercise, decimal Measured, string Because);
