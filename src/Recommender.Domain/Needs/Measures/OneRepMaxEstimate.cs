namespace Recommender.Domain.Needs.Measures;

/// <summary>
/// One-repetition maximum from a load lifted to failure. w is the load in kilograms, r the repetitions; every equation gives kilograms.
/// One repetition is the maximum itself: some of the equations would give more than was lifted.
/// </summary>
public static class OneRepMaxEstimate
{
    /// <summary>Most repetitions that the estimate is made from; beyond them the equations part ways.</summary>
    public const int MostRepetitions = 10;

    /// <summary>The lowest of the general equations, so that a load reckoned from it errs to the light side.</summary>
    /// <param name="loadKg">Load, kilograms, above 0.</param>
    /// <param name="repetitions">Repetitions to failure, from 1.</param>
    /// <returns>Kilograms, rounded down to a tenth, never below the load; null beyond <see cref="MostRepetitions"/>.</returns>
    public static decimal? Lowest(decimal loadKg, int repetitions)
    {
        if (repetitions is < 1 or > MostRepetitions || loadKg <= 0)
        {
            return null;
        }

        if (repetitions == 1)
        {
            return loadKg;
        }

        var load = (double)loadKg;
        double[] all = [Epley(load, repetitions), Brzycki(load, repetitions), Lombardi(load, repetitions), OConner(load, repetitions), Wathan(load, repetitions), Lander(load, repetitions)];

        // Rounded to a thousandth first, so that the last bit of a floating-point number never decides a tenth.
        var lowest = decimal.Round((decimal)all.Min(), 3);
        return Math.Max(loadKg, decimal.Floor(lowest * 10) / 10);
    }

    /// <summary>w (1 + r / 30). Source: epley-1985.</summary>
    public static double Epley(double loadKg, int repetitions) => loadKg * (1 + (repetitions / 30.0));

    /// <summary>36 w / (37 - r), for r below 37. Source: brzycki-1993.</summary>
    public static double Brzycki(double loadKg, int repetitions) => loadKg * 36 / (37 - repetitions);

    /// <summary>w r^0.10. Source: lombardi-1989.</summary>
    public static double Lombardi(double loadKg, int repetitions) => loadKg * Math.Pow(repetitions, 0.10);

    /// <summary>w (1 + 0.025 r). Source: oconner-1989.</summary>
    public static double OConner(double loadKg, int repetitions) => loadKg * (1 + (0.025 * repetitions));

    /// <summary>100 w / (48.8 + 53.8 e^(-0.075 r)). Source: wathan-1994.</summary>
    public static double Wathan(double loadKg, int repetitions) => 100 * loadKg / (48.8 + (53.8 * Math.Exp(-0.075 * repetitions)));

    /// <summary>100 w / (101.3 - 2.67123 r). Source: lander-1985.</summary>
    public static double Lander(double loadKg, int repetitions) => 100 * loadKg / (101.3 - (2.67123 * repetitions));
}
