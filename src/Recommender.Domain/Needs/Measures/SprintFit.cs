namespace Recommender.Domain.Needs.Measures;

/// <summary>
/// Speed of a sprint as v(t) = vmax (1 - e^(-t / tau)), so x(t) = vmax (t + tau e^(-t / tau)) - vmax tau. Fitted to split times as functions of distance with equal weights.
/// Source: samozino-2016; fit as in jovanovic-vescovi-2022.
/// </summary>
/// <param name="TopSpeed">vmax, metres per second.</param>
/// <param name="TimeConstant">tau, seconds: the time to 63 percent of top speed.</param>
/// <param name="Misfit">Root mean square of the time residuals, seconds.</param>
public readonly record struct SprintFit(double TopSpeed, double TimeConstant, double Misfit)
{
    private const double ShortestLength = 0.2;
    private const double LongestLength = 400;
    private const int Grid = 60;
    private const int Cuts = 55;
    private static readonly double Golden = (Math.Sqrt(5) - 1) / 2;

    /// <summary>The fit of corrected splits.</summary>
    /// <param name="splits">Distance in metres above 0 and time in seconds since the first push; at least two.</param>
    /// <returns>Null when the best fit lies at the edge of what is searched: the splits do not show an acceleration that levels off.</returns>
    /// <remarks>
    /// With L = vmax tau the time at a distance d is tau u(d / L), where u + e^-u - 1 = d / L. For a given L the best tau is linear, so one number is left to search: a grid over
    /// its logarithm finds the valley, golden sections its bottom. Fixed counts, no randomness.
    /// </remarks>
    public static SprintFit? Of(IReadOnlyList<(double Metres, double Seconds)> splits)
    {
        var (low, high) = (Math.Log(ShortestLength), Math.Log(LongestLength));
        var step = (high - low) / Grid;
        var best = 0;
        var least = double.PositiveInfinity;
        for (var i = 0; i <= Grid; i++)
        {
            var squares = At(splits, low + (i * step)).Squares;
            (best, least) = squares < least ? (i, squares) : (best, least);
        }

        if (best is 0 or Grid || !double.IsFinite(least))
        {
            return null;
        }

        var (a, b) = (low + ((best - 1) * step), low + ((best + 1) * step));
        var (left, right) = (b - (Golden * (b - a)), a + (Golden * (b - a)));
        var (atLeft, atRight) = (At(splits, left).Squares, At(splits, right).Squares);
        for (var i = 0; i < Cuts; i++)
        {
            if (atLeft <= atRight)
            {
                (b, right, atRight) = (right, left, atLeft);
                left = b - (Golden * (b - a));
                atLeft = At(splits, left).Squares;
            }
            else
            {
                (a, left, atLeft) = (left, right, atRight);
                right = a + (Golden * (b - a));
                atRight = At(splits, right).Squares;
            }
        }

        var (length, constant, squared) = At(splits, (a + b) / 2);
        return new SprintFit(length / constant, constant, Math.Sqrt(squared / splits.Count));
    }

    /// <summary>Speed after a time, metres per second.</summary>
    public double SpeedAt(double seconds) => TopSpeed * (1 - Math.Exp(-seconds / TimeConstant));

    /// <summary>Acceleration after a time, metres per second squared.</summary>
    public double AccelerationAt(double seconds) => TopSpeed / TimeConstant * Math.Exp(-seconds / TimeConstant);

    /// <summary>Time at a distance, seconds.</summary>
    public double TimeAt(double metres) => TimeConstant * Scaled(metres / (TopSpeed * TimeConstant));

    private static (double Length, double Constant, double Squares) At(IReadOnlyList<(double Metres, double Seconds)> splits, double logLength)
    {
        var length = Math.Exp(logLength);
        Span<double> scaled = splits.Count <= 64 ? stackalloc double[splits.Count] : new double[splits.Count];
        var (tu, uu) = (0.0, 0.0);
        for (var i = 0; i < scaled.Length; i++)
        {
            var u = scaled[i] = Scaled(splits[i].Metres / length);
            (tu, uu) = (tu + (splits[i].Seconds * u), uu + (u * u));
        }

        var constant = tu / uu;
        var squares = 0.0;
        for (var i = 0; i < scaled.Length; i++)
        {
            var residual = splits[i].Seconds - (constant * scaled[i]);
            squares += residual * residual;
        }

        return (length, constant, squares);
    }

    /// <summary>The root u of u + e^-u - 1 = s for s above 0. Newton from the right of it: the function is convex, so the steps only shrink.</summary>
    private static double Scaled(double s)
    {
        var u = Math.Min(s + 1, Math.Sqrt(2 * s) + s);
        for (var i = 0; i < 40; i++)
        {
            var next = u - ((u + Math.Exp(-u) - 1 - s) / (1 - Math.Exp(-u)));
            if (next >= u)
            {
                break;
            }

            u = next;
        }

        return u;
    }
}
