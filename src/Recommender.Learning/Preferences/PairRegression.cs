using MathNet.Numerics.LinearAlgebra;
using Microsoft.ML;
using Microsoft.ML.Data;
using Microsoft.ML.Trainers;

namespace Recommender.Learning.Preferences;

/// <summary>The difference of two sides of a pair, the first of which was taken.</summary>
/// <param name="Indices">Numbers that differ, ascending.</param>
/// <param name="Values">By how much each differs, taken less left.</param>
/// <param name="Weight">Above 0.</param>
public sealed record PairDifference(int[] Indices, float[] Values, float Weight);

/// <summary>
/// Logistic regression on differences of pairs without an intercept: the log odds that the first is taken is the sum of number times difference. For pairs of players it is the model of
/// Bradley and Terry.
/// </summary>
/// <remarks>
/// Microsoft.ML (L-BFGS, one thread) finds the optimum in single precision; each pair goes in both ways round with half its weight, so that the intercept it always fits is 0. Steps of
/// Newton's method in double precision then take the last digits, so that the order of the pairs and the machine leave no trace.
/// </remarks>
public static class PairRegression
{
    /// <summary>More numbers than these are left as found: the matrix of the last steps grows with their square.</summary>
    private const int MostPolished = 2000;
    private const int MostSteps = 20;
    private const double Settled = 1e-10;

    /// <summary>Scale that single precision converges at; it changes no optimum.</summary>
    private const float Scale = 1000;

    /// <summary>Fits.</summary>
    /// <param name="pairs">Pairs; at least one.</param>
    /// <param name="size">How many numbers.</param>
    /// <param name="shrinkage">Weight of half the square of each number; 0 for none.</param>
    /// <returns>[number].</returns>
    public static double[] Fit(IReadOnlyList<PairDifference> pairs, int size, double shrinkage)
    {
        var context = new MLContext(seed: 1);
        var schema = SchemaDefinition.Create(typeof(Row));
        schema[nameof(Row.Features)].ColumnType = new VectorDataViewType(NumberDataViewType.Single, size);
        var data = context.Data.LoadFromEnumerable(pairs.SelectMany(p => BothWays(p, size)), schema);
        var trainer = context.BinaryClassification.Trainers.LbfgsLogisticRegression(new LbfgsLogisticRegressionBinaryTrainer.Options
        {
            LabelColumnName = nameof(Row.Label),
            FeatureColumnName = nameof(Row.Features),
            ExampleWeightColumnName = nameof(Row.Weight),
            L1Regularization = 0,
            L2Regularization = (float)shrinkage * Scale,
            OptimizationTolerance = 1e-4f,
            HistorySize = 20,
            NumberOfThreads = 1,
        });
        double[] found = [.. trainer.Fit(data).Model.SubModel.Weights.Select(w => (double)w)];
        return size <= MostPolished ? Polished(found, pairs, shrinkage) : found;
    }

    private static IEnumerable<Row> BothWays(PairDifference pair, int size)
    {
        yield return new Row { Label = true, Weight = pair.Weight * Scale / 2, Features = new VBuffer<float>(size, pair.Indices.Length, pair.Values, pair.Indices) };
        yield return new Row { Label = false, Weight = pair.Weight * Scale / 2, Features = new VBuffer<float>(size, pair.Indices.Length, [.. pair.Values.Select(v => -v)], pair.Indices) };
    }

    /// <summary>Newton's steps on the penalised log likelihood; halved where a step would lose.</summary>
    private static double[] Polished(double[] found, IReadOnlyList<PairDifference> pairs, double shrinkage)
    {
        var (numbers, loss) = (found, Loss(found, pairs, shrinkage));
        for (var step = 0; step < MostSteps; step++)
        {
            var move = Move(numbers, pairs, shrinkage);
            if (move.Max(Math.Abs) < Settled || move.Any(double.IsNaN))
            {
                break;
            }

            var share = 1.0;
            double[] next;
            double lossThere;
            do
            {
                next = [.. numbers.Zip(move, (n, m) => n - (share * m))];
                lossThere = Loss(next, pairs, shrinkage);
                share /= 2;
            }
            while (lossThere > loss && share > 1e-6);

            if (lossThere > loss)
            {
                break;
            }

            (numbers, loss) = (next, lossThere);
        }

        return numbers;
    }

    private static double[] Move(double[] numbers, IReadOnlyList<PairDifference> pairs, double shrinkage)
    {
        var n = numbers.Length;
        var slope = Vector<double>.Build.Dense(n, i => shrinkage * numbers[i]);
        var bend = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            bend[(i * n) + i] = shrinkage;
        }

        foreach (var pair in pairs)
        {
            var left = 1 / (1 + Math.Exp(LogOdds(numbers, pair)));
            var (pull, curve) = (pair.Weight * left, pair.Weight * left * (1 - left));
            for (var i = 0; i < pair.Indices.Length; i++)
            {
                slope[pair.Indices[i]] -= pull * pair.Values[i];
                for (var j = 0; j <= i; j++)
                {
                    bend[(pair.Indices[j] * n) + pair.Indices[i]] += curve * pair.Values[i] * pair.Values[j];
                }
            }
        }

        // Indices ascend, so the upper half was filled; the matrix is the same either way round.
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < i; j++)
            {
                bend[(i * n) + j] = bend[(j * n) + i];
            }
        }

        return [.. Matrix<double>.Build.Dense(n, n, bend).Cholesky().Solve(slope)];
    }

    private static double Loss(double[] numbers, IReadOnlyList<PairDifference> pairs, double shrinkage)
    {
        var loss = shrinkage / 2 * numbers.Sum(x => x * x);
        foreach (var pair in pairs)
        {
            var odds = LogOdds(numbers, pair);
            loss += pair.Weight * (odds > 0 ? Math.Log(1 + Math.Exp(-odds)) : Math.Log(1 + Math.Exp(odds)) - odds);
        }

        return loss;
    }

    private static double LogOdds(double[] numbers, PairDifference pair)
    {
        var sum = 0.0;
        for (var i = 0; i < pair.Indices.Length; i++)
        {
            sum += numbers[pair.Indices[i]] * pair.Values[i];
        }

        return sum;
    }

    private sealed class Row
    {
        public bool Label { get; set; }

        public float Weight { get; set; }

        public VBuffer<float> Features { get; set; }
    }
}
