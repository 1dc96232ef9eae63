using System.Runtime.CompilerServices;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Scoring;

/// <summary>A preference as plain arrays of one edition, made once and kept with it.</summary>
internal sealed class LeanTable
{
    private const int Thousand = 1000;

    /// <summary>What spares tissue is never learned away, whatever the rules say.</summary>
    private const string NeverLess = "tissue-cost";

    // By the preference itself, not by its version: whoever makes numbers up for a trial need not name them.
    private static readonly PerEdition<ConditionalWeakTable<Preference, LeanTable>> Kept = new(_ => []);

    private LeanTable(Preference preference, Edition edition)
    {
        var (numbers, bounds, catalogue) = (preference.Numbers, edition.Knowledge.Outcomes!.Bounds, edition.Catalogue);
        Shares = SharesOf(numbers, bounds);
        Families = [.. catalogue.Exercises.Select(e => Points.Of(numbers.Families.GetValueOrDefault(e.Family)).Thousandths)];
        Most = Points.Of(bounds.MostPoints).Thousandths;
        ShareLabels = [.. ScoringEngine.Factors.Select((f, i) => $"{catalogue.Vocabulary.Factors.Find(f.Id)!.Label} counts {(Shares[i] < 0 ? "less" : "more")} by {Math.Abs(Shares[i]) / 10m:0.#} %")];
    }

    /// <summary>[factor] thousandths of the factor's points that are added.</summary>
    public int[] Shares { get; }

    /// <summary>[factor] labels of those rows.</summary>
    public string[] ShareLabels { get; }

    /// <summary>[exercise] thousandths of its family.</summary>
    public int[] Families { get; }

    /// <summary>Thousandths that all of it adds or takes at most.</summary>
    public int Most { get; }

    /// <summary>Which factor is the cost of load on tissue.</summary>
    public static int TissueCost { get; } = ScoringEngine.Factors.TakeWhile(f => f.Id != NeverLess).Count();

    /// <summary>The table of a preference on an edition whose rules know of learning.</summary>
    public static LeanTable Of(Preference preference, Edition edition)
    {
        var ofEdition = Kept.Of(edition);
        return ofEdition.TryGetValue(preference, out var made) ? made : ofEdition.GetValue(preference, p => new LeanTable(p, edition));
    }

    /// <summary>What a factor's points add.</summary>
    /// <param name="factor">Factor, in the order of the engine.</param>
    /// <param name="thousandths">Its points.</param>
    public int Part(int factor, int thousandths) => Share(Shares[factor], thousandths);

    /// <summary>A share, in thousandths, of points.</summary>
    public static int Share(int share, int thousandths) => (int)((long)share * thousandths / Thousand);

    /// <summary>Held to the bound.</summary>
    public int Bounded(int lean) => Math.Clamp(lean, -Most, Most);

    /// <summary>What is left of a lean while something is sore.</summary>
    /// <param name="lean">Thousandths.</param>
    /// <param name="growth">Of them, those that make the tissue cost larger.</param>
    /// <param name="loadsSore">Whether the exercise loads what is sore; null where nothing is.</param>
    public static int Held(int lean, int growth, bool? loadsSore) => loadsSore switch { null => lean, true => growth, false => Math.Max(0, lean) };

    /// <summary>[factor] thousandths of the factor's points that are added: those that may only grow are not taken from.</summary>
    public static int[] SharesOf(PreferenceNumbers numbers, PreferenceBounds bounds)
    {
        var shares = new int[ScoringEngine.Factors.Count];
        for (var f = 0; f < shares.Length - 1; f++)
        {
            var id = ScoringEngine.Factors[f].Id;
            var share = (int)decimal.Round(numbers.Factors.GetValueOrDefault(id) * Thousand, MidpointRounding.AwayFromZero);
            shares[f] = id == NeverLess || bounds.OnlyGrow.Contains(id, StringComparer.Ordinal) ? Math.Max(0, share) : share;
        }

        return shares;
    }
}
