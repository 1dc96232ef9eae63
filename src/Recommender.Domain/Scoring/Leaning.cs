using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Scoring;

/// <summary>
/// What a learned preference adds to a score in one request: shares of the other factors' points and points of the family, inside a bound. Hot path, whole numbers, no allocation per
/// exercise. Benchmark: tests/Recommender.Benchmarks, learning.
/// </summary>
/// <remarks>
/// While something is sore it may never speak for load: an exercise that loads a sore region gets only what makes its tissue cost larger, one that does not is never leaned away from.
/// So it moves no exercise that loads what is sore ahead of one that does not, nor of one whose tissue cost is smaller.
/// </remarks>
internal sealed class Leaning
{
    private static readonly string[] Codes = [.. ScoringEngine.Factors.Select(f => "lean:" + f.Id)];
    private readonly LeanTable table;
    private readonly ExerciseCatalogue catalogue;
    private readonly SoreRegions sore;

    private Leaning(LeanTable table, Situation situation)
    {
        this.table = table;
        catalogue = situation.Catalogue;
        sore = SoreRegions.Of(situation);
    }

    /// <summary>That of a situation; null while there is no preference.</summary>
    public static Leaning? Of(Situation situation) => situation.Preference is { } preference ? new Leaning(LeanTable.Of(preference, situation.Edition), situation) : null;

    /// <summary>[exercise] what factors add whose points are added up already.</summary>
    public int[] Standing(StandingScores standing) => standing.Leant(table);

    /// <summary>What a factor's points add.</summary>
    public int Part(int factor, int thousandths) => table.Part(factor, thousandths);

    /// <summary>What is added to the score.</summary>
    /// <param name="position">Catalogue position.</param>
    /// <param name="parts">Sum of the factors' parts.</param>
    /// <param name="growth">Of them, the tissue cost's.</param>
    public int Total(int position, int parts, int growth) => table.Bounded(LeanTable.Held(parts + table.Families[position], growth, sore.LoadedBy(position)));

    /// <summary>The same, each part noted.</summary>
    /// <param name="position">Catalogue position.</param>
    /// <param name="points">[factor] thousandths of the other factors.</param>
    /// <param name="sink">Takes the points and their parts.</param>
    public void Explain(int position, ReadOnlySpan<int> points, ref PointSink sink)
    {
        var sum = 0;
        for (var f = 0; f < points.Length; f++)
        {
            // A part of nothing says nothing; with a row for each the answer would be a tenth longer.
            if (table.Shares[f] != 0 && table.Part(f, points[f]) is var part and not 0)
            {
                Write(Codes[f], table.ShareLabels[f], part, ref sink);
                sum += part;
            }
        }

        if (table.Families[position] is var family and not 0)
        {
            var id = catalogue.Exercises[position].Family;
            Write("lean-family:" + id, $"Choices within the family {id}", family, ref sink);
            sum += family;
        }

        var loads = sore.LoadedBy(position);
        var held = LeanTable.Held(sum, table.Part(LeanTable.TissueCost, points[LeanTable.TissueCost]), loads);
        if (held != sum)
        {
            Write("lean-sore", loads == true ? "While something is sore, nothing speaks for what loads it" : "While something is sore, nothing speaks against what spares it", held - sum, ref sink);
        }

        if (table.Bounded(held) is var bounded && bounded != held)
        {
            Write("lean-bound", $"Held to {table.Most / 1000m:0.###} points", bounded - held, ref sink, Math.Abs(held) / 1000m, table.Most / 1000m);
        }
    }

    private static void Write(string code, string label, int thousandths, ref PointSink sink, decimal? value = null, decimal? limit = null)
    {
        sink.Add(thousandths);
        sink.Note(code, label, thousandths, Basis.CommonPractice, null, value, limit);
    }
}
