using System.Numerics;
using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>
/// The dose rows as bits, so that the first row whose conditions all hold is the first bit that exercise, quality and athlete share.
/// </summary>
/// <remarks>Hot path: flat columns, no allocation per exercise. Benchmark: tests/Recommender.Benchmarks.</remarks>
public sealed class DoseTable
{
    private const int BitsPerWord = 64;

    /// <summary>Times are whole ten-thousandths of a second: amounts in tenths, seconds of a unit in thousandths.</summary>
    private const long PerSecond = 10_000;

    private static readonly Phase[] Phases = Enum.GetValues<Phase>();

    private readonly DoseRow[] rows;
    private readonly int words;
    private readonly ulong[] byExercise; // [exercise, word]
    private readonly ulong[] byQuality; // [quality, word]
    private readonly ulong[] byEventGroup; // [event group, word]
    private readonly ulong[] bySoreRegion; // [region, word]; the last row holds those that do not ask for one
    private readonly Terms<Term> eventGroups;
    private readonly Terms<RegionTerm> regions;
    private readonly long[] leastAmount; // [row, phase] sets x amount, tenths of a dose unit
    private readonly long[] leastRest; // [row, phase]
    private readonly int[] unitTime; // [exercise] thousandths of a second, both sides
    private readonly int[] setUpTenths; // [exercise] tenths of a minute
    private readonly Lazy<int[]>[] mostTenths; // [phase][exercise]

    /// <param name="rules">Checked dose rules.</param>
    /// <param name="catalogue">Exercises the rows are about.</param>
    public DoseTable(DoseRules rules, ExerciseCatalogue catalogue)
    {
        rows = [.. rules.Rows];
        words = (rows.Length + BitsPerWord - 1) / BitsPerWord;
        var qualities = catalogue.Vocabulary.Qualities;
        byExercise = Bits(catalogue.Count, (e, row) => row.HoldsFor(catalogue.Exercises[e]));
        byQuality = Bits(qualities.Count, (q, row) => rules.Goals.TryGetValue(qualities[q].Id, out var goal) && row.Goals.Contains(goal, StringComparer.Ordinal));
        eventGroups = catalogue.Vocabulary.EventGroups;
        regions = catalogue.Vocabulary.Regions;
        byEventGroup = Bits(eventGroups.Count, (g, row) => row.EventGroups is null || row.EventGroups.Contains(eventGroups[g].Id, StringComparer.Ordinal));
        bySoreRegion = Bits(regions.Count + 1, (r, row) => r == regions.Count ? row.SoreRegions is null : row.SoreRegions?.Contains(regions[r].Id, StringComparer.Ordinal) == true);
        leastAmount = [.. rows.SelectMany(row => Phases.Select(p => (long)decimal.Round(row.LeastSets(p) * row.Amount[(int)p] * 10)))];
        leastRest = [.. rows.SelectMany(row => Phases.Select(p => ((row.LeastSets(p) - 1) * row.RestSeconds * PerSecond) + WarmUpTime(rules, row)))];
        unitTime = [.. catalogue.Exercises.Select(e => (int)decimal.Round(e.SecondsPerRepetition * 1000) * (e.PerSide ? 2 : 1))];
        setUpTenths = catalogue.SetUpTenths;
        mostTenths = [.. Phases.Select(p => new Lazy<int[]>(() => [.. Enumerable.Range(0, catalogue.Count).Select(e => MostTenths(catalogue, e, p))]))];
    }

    /// <summary>Bits of the rows whose conditions on the athlete hold.</summary>
    public ulong[] InForce(in DoseCircumstances circumstances)
    {
        var bits = bySoreRegion.AsSpan(regions.Count * words, words).ToArray();
        foreach (var region in circumstances.SoreRegions)
        {
            for (var w = 0; w < words; w++)
            {
                bits[w] |= bySoreRegion[(regions.IndexOf(region) * words) + w];
            }
        }

        var group = eventGroups.IndexOf(circumstances.EventGroup);
        for (var w = 0; w < words; w++)
        {
            bits[w] &= byEventGroup[(group * words) + w];
        }

        for (var r = 0; r < rows.Length; r++)
        {
            if (circumstances.AgeYears < rows[r].MinAgeYears || circumstances.TrainingAgeYears < rows[r].MinTrainingAgeYears)
            {
                bits[r / BitsPerWord] &= ~(1UL << (r % BitsPerWord));
            }
        }

        return bits;
    }

    /// <summary>The first row whose conditions all hold.</summary>
    /// <param name="position">Exercise.</param>
    /// <param name="quality">Position of the quality it was chosen for.</param>
    /// <param name="inForce">Rows whose conditions on the athlete hold.</param>
    /// <exception cref="InvalidOperationException">No row holds; the knowledge checks make sure that one always does.</exception>
    public DoseRow RowFor(int position, int quality, ulong[] inForce) => rows[IndexOf(position, quality, inForce)];

    /// <summary>Tenths of a minute that the smallest dose worth doing takes: set-up, warm-up sets, work on each side, rest between sets, rounded up.</summary>
    /// <remarks>The whole-number form of <see cref="SessionTime.Minutes"/> at the fewest sets, with the warm-up.</remarks>
    public int LeastTenths(int position, int quality, ulong[] inForce, Phase phase) => TenthsAt(position, IndexOf(position, quality, inForce), phase);

    private int TenthsAt(int position, int row, Phase phase)
    {
        var cell = (row * Phases.Length) + (int)phase;
        var time = (leastAmount[cell] * unitTime[position]) + leastRest[cell];
        const long PerTenth = 6 * PerSecond;
        return setUpTenths[position] + (int)((time + PerTenth - 1) / PerTenth);
    }

    /// <summary>[exercise] what <see cref="LeastTenths"/> is at most, whoever the athlete is and whatever the exercise is picked for.</summary>
    public int[] MostTenths(Phase phase) => mostTenths[(int)phase].Value;

    private int MostTenths(ExerciseCatalogue catalogue, int position, Phase phase)
    {
        var most = 0;
        foreach (var column in catalogue.RatingsOf(position))
        {
            for (var w = 0; w < words; w++)
            {
                for (var bits = byExercise[(position * words) + w] & byQuality[(column.Quality * words) + w]; bits != 0; bits &= bits - 1)
                {
                    most = Math.Max(most, TenthsAt(position, (w * BitsPerWord) + BitOperations.TrailingZeroCount(bits), phase));
                }
            }
        }

        return most;
    }

    private static long WarmUpTime(DoseRules rules, DoseRow row) => (long)decimal.Round((rules.WarmUpOf(row)?.Minutes ?? 0) * 60 * PerSecond);

    private int IndexOf(int position, int quality, ulong[] inForce)
    {
        for (var w = 0; w < inForce.Length; w++)
        {
            var common = byExercise[(position * words) + w] & byQuality[(quality * words) + w] & inForce[w];
            if (common != 0)
            {
                return (w * BitsPerWord) + BitOperations.TrailingZeroCount(common);
            }
        }

        throw new InvalidOperationException($"No dose row for exercise {position}, quality {quality}.");
    }

    private ulong[] Bits(int count, Func<int, DoseRow, bool> holds)
    {
        var bits = new ulong[count * words];
        for (var i = 0; i < count; i++)
        {
            for (var r = 0; r < rows.Length; r++)
            {
                if (holds(i, rows[r]))
                {
                    bits[(i * words) + (r / BitsPerWord)] |= 1UL << (r % BitsPerWord);
                }
            }
        }

        return bits;
    }
}
