using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;

namespace Recommender.Domain.Substitutions;

/// <summary>How alike exercises are to a replaced one, for one athlete's needs; whole thousandths, 1,000 for the exercise itself.</summary>
/// <remarks>Setting, pain and calendar play no part: they only take candidates away. With equal needs the same pair is as alike for every athlete.</remarks>
public sealed class Likeness
{
    private const int Whole = 1000;

    /// <summary>What stands for the share of the purpose kept where an exercise is not of the replaced one's kind, or hardly like it: no bound lets it in.</summary>
    internal const int Unrelated = -1;

    private readonly SubstitutionRules rules;
    private readonly Units units;
    private readonly int contractionElse;
    private readonly int leastLikeness;
    private readonly int[] rateByDistance;
    private readonly int[] bandByDistance;
    private readonly long[] worth; // [quality, rating] weight of the quality times fit of the rating
    private readonly int[] patternKin; // [pattern, pattern]
    private readonly int[] supportKin;
    private readonly ulong[]? partsOfPattern; // [pattern] bit per part of the body; null where the rules know none
    private readonly ulong[] partsOfQuality; // [quality]
    private readonly int patterns;
    private readonly int supports;

    /// <param name="rules">Rules.</param>
    /// <param name="fitByRating">Fit of ratings 0 to 3, each 0 to 1.</param>
    /// <param name="profile">What is needed.</param>
    /// <param name="vocabulary">Vocabulary.</param>
    public Likeness(SubstitutionRules rules, IReadOnlyList<decimal> fitByRating, NeedProfile profile, Vocabulary vocabulary)
    {
        this.rules = rules;
        units = new Units(rules.Shares);
        contractionElse = Thousandths(rules.ContractionElse);
        leastLikeness = Thousandths(rules.LeastLikeness);
        rateByDistance = [.. rules.RateByDistance.Select(Thousandths)];
        bandByDistance = [.. rules.BandByDistance.Select(Thousandths)];
        var floor = (long)decimal.Round(rules.Purpose.FloorWeight * NeedProfile.WeightUnits);
        worth = new long[vocabulary.Qualities.Count * 4];
        var needed = new long[vocabulary.Qualities.Count];
        foreach (var need in profile.Needs)
        {
            needed[need.Position] = need.WeightUnits;
        }

        for (var rating = 1; rating <= 3; rating++)
        {
            var fit = (long)decimal.Round(fitByRating[rating] * 100);
            for (var q = 0; q < needed.Length; q++)
            {
                worth[(q * 4) + rating] = (floor + needed[q]) * fit;
            }
        }

        (patterns, supports) = (vocabulary.Patterns.Count, vocabulary.Supports.Count);
        patternKin = Table(vocabulary.Patterns, rules.PatternKin);
        supportKin = Table(vocabulary.Supports, rules.SupportKin);
        partsOfPattern = rules.BodyParts is null ? null : [.. vocabulary.Patterns.Select(p => Bits(rules.BodyParts, b => b.Patterns.Contains(p.Id, StringComparer.Ordinal)))];
        partsOfQuality = [.. vocabulary.Qualities.Select(q => Bits(rules.BodyParts ?? [], b => b.Qualities.Contains(q.Id, StringComparer.Ordinal)))];
    }

    /// <summary>Share of what <paramref name="replaced"/> was there for that <paramref name="other"/> keeps; thousandths.</summary>
    public int Kept(Traits replaced, Traits other)
    {
        var (had, both) = Worth(replaced, other);
        return Share(both, had);
    }

    /// <summary>How alike they are; thousandths, 0 to 1,000. The same in both directions where both are worth as much.</summary>
    public int Of(Traits replaced, Traits other) => Of(replaced, other, out _);

    /// <summary>How alike they are, and the share of the purpose kept; thousandths, or <see cref="Unrelated"/>.</summary>
    internal int Of(Traits replaced, Traits other, out int kept)
    {
        var (had, both) = Worth(replaced, other);
        kept = Share(both, had);
        var parts = new Sum();
        parts.Add(units.Purpose, Purpose(had, both, other, kept));
        parts.Add(units.Pattern, patternKin[(replaced.Pattern * patterns) + other.Pattern]);
        parts.Add(units.Support, supportKin[(replaced.Support * supports) + other.Support]);
        parts.Add(Known(units.Direction, replaced.Direction, other.Direction), replaced.Direction == other.Direction ? Whole : 0);
        parts.Add(Known(units.Contraction, replaced.Contraction, other.Contraction), replaced.Contraction == other.Contraction ? Whole : contractionElse);
        parts.Add(Known(units.LoadingRate, replaced.LoadingRate, other.LoadingRate), ByDistance(rateByDistance, replaced.LoadingRate, other.LoadingRate));
        parts.Add(Known(units.LoadBand, replaced.LoadBand, other.LoadBand), ByDistance(bandByDistance, replaced.LoadBand, other.LoadBand));
        parts.Add(replaced.Family is null || other.Family is null ? 0 : units.Family, Kin(replaced, other) ? Whole : 0);
        var alike = parts.Thousandths;
        kept = alike >= leastLikeness && IsRelated(replaced, other) ? kept : Unrelated;
        return alike;
    }

    /// <summary>Whether one may stand in for the other at all: of kin patterns, of one family or ladder, or for the same part of the body.</summary>
    public bool IsRelated(Traits replaced, Traits other) =>
        partsOfPattern is null || patternKin[(replaced.Pattern * patterns) + other.Pattern] > 0 || Kin(replaced, other) || (PartsOf(replaced) & PartsOf(other)) != 0;

    /// <summary>The quality that an exercise is there for: of those it is rated highest for the one worth most; equal ones by the vocabulary's order.</summary>
    public int PurposeOf(Traits traits)
    {
        var best = 0;
        for (var q = 1; q < traits.Ratings.Length; q++)
        {
            var higher = traits.Ratings[q] > traits.Ratings[best];
            best = higher || (traits.Ratings[q] == traits.Ratings[best] && worth[(q * 4) + traits.Ratings[q]] > worth[(best * 4) + traits.Ratings[best]]) ? q : best;
        }

        return best;
    }

    private ulong PartsOf(Traits traits)
    {
        var parts = partsOfPattern![traits.Pattern];
        foreach (var q in traits.Rated)
        {
            parts |= traits.Ratings[q] >= QualityRating.Strong ? partsOfQuality[q] : 0;
        }

        return parts;
    }

    private static ulong Bits(IReadOnlyList<BodyPartRule> parts, Func<BodyPartRule, bool> holds) =>
        parts.Select((part, i) => holds(part) ? 1UL << i : 0).Aggregate(0UL, (all, bit) => all | bit);

    private static bool Kin(Traits a, Traits b) => a.Family == b.Family || (b.Id is { } id && a.Neighbours.Contains(id, StringComparer.Ordinal));

    /// <summary>What the replaced exercise is worth, and what both are: the lower rating of each quality.</summary>
    private (long Had, long Both) Worth(Traits replaced, Traits other)
    {
        long had = 0, both = 0;
        foreach (var q in replaced.Rated)
        {
            had += worth[(q * 4) + replaced.Ratings[q]];
            both += worth[(q * 4) + Math.Min(replaced.Ratings[q], other.Ratings[q])];
        }

        return (had, both);
    }

    private int Purpose(long had, long both, Traits other, int kept)
    {
        // What either is worth, the higher rating of each quality: both together less what they share.
        var either = had - both;
        foreach (var q in other.Rated)
        {
            either += worth[(q * 4) + other.Ratings[q]];
        }

        return (int)((kept * rules.Purpose.KeptShare) + (Share(both, either) * (1 - rules.Purpose.KeptShare)));
    }

    private static int Share(long part, long whole) => whole == 0 ? Whole : (int)(part * Whole / whole);

    private static long Known(long share, int a, int b) => a < 0 || b < 0 ? 0 : share;

    private static int ByDistance(int[] byDistance, int a, int b) => a < 0 || b < 0 ? 0 : byDistance[Math.Abs(a - b)];

    private static int Thousandths(decimal share) => (int)decimal.Round(share * Whole);

    private static int[] Table<T>(Terms<T> terms, IReadOnlyList<Kin> kin) where T : Term
    {
        var table = new int[terms.Count * terms.Count];
        for (var i = 0; i < terms.Count; i++)
        {
            table[(i * terms.Count) + i] = Whole;
        }

        foreach (var pair in kin)
        {
            var (a, b) = (terms.IndexOf(pair.Of[0]), terms.IndexOf(pair.Of[1]));
            table[(a * terms.Count) + b] = table[(b * terms.Count) + a] = Thousandths(pair.Likeness);
        }

        return table;
    }

    /// <summary>A mean of parts by their shares; a part that is not known has no share.</summary>
    private struct Sum
    {
        private long total;
        private long shares;

        public void Add(long units, int thousandths)
        {
            shares += units;
            total += units * thousandths;
        }

        public readonly int Thousandths => (int)(total / shares);
    }

    /// <summary>Shares in ten-thousandths.</summary>
    private sealed class Units(LikenessShares shares)
    {
        public long Purpose { get; } = Of(shares.Purpose);

        public long Pattern { get; } = Of(shares.Pattern);

        public long Support { get; } = Of(shares.Support);

        public long Direction { get; } = Of(shares.Direction);

        public long Contraction { get; } = Of(shares.Contraction);

        public long LoadingRate { get; } = Of(shares.LoadingRate);

        public long LoadBand { get; } = Of(shares.LoadBand);

        public long Family { get; } = Of(shares.Family);

        private static long Of(decimal share) => (long)decimal.Round(share * 10_000);
    }
}
