namespace Recommender.Domain.Needs.Measures;

/// <summary>A straight line y = intercept + slope x through points by least squares.</summary>
/// <param name="Intercept">y at x = 0.</param>
/// <param name="Slope">Rise of y per x.</param>
/// <param name="Fit">Share of the variance of y that the line accounts for (R squared), 0 to 1.</param>
public readonly record struct LinearFit(double Intercept, double Slope, double Fit)
{
    /// <summary>The line of least squares.</summary>
    /// <param name="x">At least two different values.</param>
    /// <param name="y">As many values.</param>
    /// <exception cref="ArgumentException">The lists differ in length, or x does not vary.</exception>
    public static LinearFit Of(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        if (x.Count != y.Count || x.Count < 2)
        {
            throw new ArgumentException("Give as many y as x, at least two.", nameof(y));
        }

        var (meanX, meanY) = (x.Average(), y.Average());
        var (xx, xy, yy) = (0.0, 0.0, 0.0);
        for (var i = 0; i < x.Count; i++)
        {
            var (dx, dy) = (x[i] - meanX, y[i] - meanY);
            (xx, xy, yy) = (xx + (dx * dx), xy + (dx * dy), yy + (dy * dy));
        }

        if (xx <= 0)
        {
            throw new ArgumentException("x must vary.", nameof(x));
        }

        var slope = xy / xx;
        return new LinearFit(meanY - (slope * meanX), slope, yy > 0 ? xy * xy / (xx * yy) : 1);
    }
}
