using MathNet.Numerics.LinearRegression;
using MathNet.Numerics.Statistics;
using Recommender.Domain.Catalogue;

namespace Recommender.Learning;

/// <summary>Fits the constants of a tissue-load model to the measured exercises by least squares, and tells each by the others.</summary>
public static class TissueLoadFit
{
    private const int ConstantDecimals = 3;
    private const int PredictionDecimals = 2;

    /// <summary>Fits.</summary>
    /// <param name="model">What is given: mechanics, domains, coverage. Its former fit is not looked at.</param>
    /// <param name="exercises">Exercises as written; those whose load on the region is published are rows when they lie in the domain of the fit.</param>
    /// <returns>The model with a new fit. Rows by measured load, highest first, then by id; so the order of the exercises changes nothing.</returns>
    /// <exception cref="InvalidFitException">Too few rows for three constants, or a constant below 0, which no mechanics allow.</exception>
    public static TissueLoadModel Fit(TissueLoadModel model, IEnumerable<Exercise> exercises)
    {
        var measured = exercises.Where(model.IsMeasured)
            .OrderByDescending(e => e.TissueLoad[model.Region].Value).ThenBy(e => e.Id, StringComparer.Ordinal).ToList();
        var rows = measured.Where(model.FittedWithin.Holds).ToList();
        var leftOut = measured.Where(e => !model.FittedWithin.Holds(e))
            .Select(e => new UnfittedRow(e.Id, e.TissueLoad[model.Region].Value, model.FittedWithin.OutsideBecause(e)!));
        var terms = rows.Select(e => Row(model.Mechanics.TermsOf(e.Facts))).ToArray();
        var loads = rows.Select(e => (double)e.TissueLoad[model.Region].Value).ToArray();
        if (rows.Count <= terms.FirstOrDefault()?.Length + 1 || rows.Count == 0)
        {
            throw new InvalidFitException($"{rows.Count} measured exercises lie in the domain of the fit; three constants need at least five.");
        }

        var solved = LeastSquares(terms, loads);
        if (solved.Any(c => c < 0))
        {
            throw new InvalidFitException($"a constant of {model.Region} came out below 0 ({string.Join(", ", solved.Select(c => c.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture)))}); moment, bend and rate can only add load. Look at the facts of the measured exercises.");
        }

        var constants = new TissueLoadConstants(Rounded(solved[0], ConstantDecimals), Rounded(solved[1], ConstantDecimals), Rounded(solved[2], ConstantDecimals));

        // Rounded before they are ranked, so that anyone can recompute the figures from the rows that are kept.
        var told = rows.Select((_, i) => (double)Rounded(Dot(LeastSquares(Without(terms, i), Without(loads, i)), terms[i]), PredictionDecimals)).ToArray();
        var residuals = told.Select((t, i) => Math.Abs(t - loads[i])).Order().ToArray();
        var rank = Math.Min(rows.Count, (int)decimal.Ceiling(model.Coverage * (rows.Count + 1)));
        var error = new LeaveOneOutError(
            Rounded(Correlation.Spearman(told, loads), ConstantDecimals),
            Rounded(residuals.Average(), PredictionDecimals),
            decimal.Ceiling(Rounded(residuals[rank - 1], PredictionDecimals) * 10) / 10,
            rank);
        return model with
        {
            Fitted = new TissueLoadFitted(constants, error,
                [.. rows.Select((e, i) => new FittedRow(e.Id, e.TissueLoad[model.Region].Value,
                    Rounded(constants.ValueOf(model.Mechanics.TermsOf(e.Facts)), PredictionDecimals), Rounded(told[i], PredictionDecimals)))],
                [.. leftOut]),
        };
    }

    private static double[] Row(TissueLoadTerms terms) => [terms.KneeMoment, terms.LoadedBend, terms.RateClass];

    private static double[] LeastSquares(double[][] terms, double[] loads) => MultipleRegression.QR(terms, loads);

    private static double Dot(double[] constants, double[] terms) => constants.Zip(terms, (c, t) => c * t).Sum();

    private static T[] Without<T>(T[] all, int at) => [.. all.Where((_, i) => i != at)];

    private static decimal Rounded(double value, int decimals) => decimal.Round((decimal)value, decimals, MidpointRounding.AwayFromZero);
}

/// <summary>A fit cannot be made or makes no sense.</summary>
/// <param name="message">Why.</param>
public sealed class InvalidFitException(string message) : Exception(message);
