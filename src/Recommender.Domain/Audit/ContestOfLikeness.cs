using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Substitutions;

namespace Recommender.Domain.Audit;

/// <summary>By likeness to the replaced exercise, among what keeps enough of its purpose; in whole thousandths, equal ones by points as they stand.</summary>
internal sealed class ContestOfLikeness : Contest
{
    /// <summary>Places in the ranking fit into so many bits.</summary>
    private const int Bits = 20;
    private readonly SubstitutionRules rules;
    private readonly VariedNumber[] shares;
    private readonly VariedNumber[] purpose; // kept share, floor weight
    private readonly VariedNumber[] patternKin;
    private readonly VariedNumber[] supportKin;
    private readonly VariedNumber[] byDistance; // rates, then bands
    private readonly VariedNumber contractionElse;
    private readonly VariedNumber[] offers; // keeps, offered, nearest
    private readonly VariedNumber[] order; // sore per load, harder per step
    private readonly string? reason;
    private readonly int replacedAt;
    private readonly Traits replaced;
    private readonly Traits[] traits;
    private readonly int[][] ratings;
    private readonly int[] highest; // [exercise] upper load on a sore region, hundredths
    private readonly int[] harder; // [exercise] steps of complexity above
    private readonly long[] values;
    private readonly int[] kept;
    private readonly int[] tie;
    private readonly Vocabulary vocabulary;

    public ContestOfLikeness(SubstitutionAsked question, Trial trial, int first, VariedNumbers numbers, IReadOnlySet<int>? only = null)
    {
        var situation = trial.Situation;
        var edition = situation.Edition;
        vocabulary = edition.Catalogue.Vocabulary;
        rules = situation.Knowledge.Substitution;
        reason = question.Request.Reason;
        var ranking = trial.Ranking();
        var original = question.Replaced(edition);
        var own = original.Id is { } id ? edition.Catalogue.PositionOf(id) : -1;
        var positions = ranking.Positions.Where(p => p == first || only?.Contains(p) != false).Append(own).Where(p => p >= 0).Distinct().Order().ToArray();
        Exercises = new VariedExercises(situation, positions, numbers, scored: false);
        First = Array.IndexOf(positions, first);
        replacedAt = Array.IndexOf(positions, own);
        ratings = [.. positions.Select(_ => new int[vocabulary.Qualities.Count])];
        traits = [.. positions.Select((p, i) => edition.Catalogue.Traits[p] with { Ratings = ratings[i] })];
        replaced = replacedAt >= 0 ? traits[replacedAt] : original;
        var complexity = own >= 0 ? edition.Catalogue.Exercises[own].Complexity : int.MaxValue;
        highest = [.. positions.Select(p => trial.Limits.Rows.Select(r => (int)edition.Catalogue.TissueHigh[(p * edition.Catalogue.RegionCount) + r.Region]).DefaultIfEmpty(0).Max())];
        harder = [.. positions.Select(p => Math.Max(0, edition.Catalogue.Exercises[p].Complexity - complexity))];
        values = new long[positions.Length];
        kept = new int[positions.Length];
        tie = [.. positions.Select(p => Array.IndexOf(ranking.Positions, p))];

        var s = rules.Shares;
        shares = [Of("shares/purpose", s.Purpose, rules.SharesBasis.Basis), Of("shares/pattern", s.Pattern, rules.SharesBasis.Basis), Of("shares/support", s.Support, rules.SharesBasis.Basis), Of("shares/direction", s.Direction, rules.SharesBasis.Basis),
            Of("shares/contraction", s.Contraction, rules.SharesBasis.Basis), Of("shares/loadingRate", s.LoadingRate, rules.SharesBasis.Basis), Of("shares/loadBand", s.LoadBand, rules.SharesBasis.Basis), Of("shares/family", s.Family, rules.SharesBasis.Basis)];
        purpose = [Of("purpose/keptShare", rules.Purpose.KeptShare, rules.Purpose.Basis), Of("purpose/floorWeight", rules.Purpose.FloorWeight, rules.Purpose.Basis)];
        patternKin = [.. rules.PatternKin.Select((k, i) => Of($"patternKin/{i}", k.Likeness, rules.LikenessBasis.Basis))];
        supportKin = [.. rules.SupportKin.Select((k, i) => Of($"supportKin/{i}", k.Likeness, rules.LikenessBasis.Basis))];
        byDistance = [.. rules.RateByDistance.Select((v, i) => Of($"rateByDistance/{i}", v, rules.LikenessBasis.Basis)), .. rules.BandByDistance.Select((v, i) => Of($"bandByDistance/{i}", v, rules.LikenessBasis.Basis))];
        contractionElse = Of("contractionElse", rules.ContractionElse, rules.LikenessBasis.Basis);
        offers = [Of("keepsFrom", rules.KeepsFrom, rules.OfferBasis.Basis), Of("offeredFrom", rules.OfferedFrom, rules.OfferBasis.Basis), Of("nearestFrom", rules.NearestFrom, rules.OfferBasis.Basis)];
        order = [numbers.Of("rules/substitution/order/sorePerLoad", rules.Order.SorePerLoad, rules.Order.Basis), numbers.Of("rules/substitution/order/harderPerStep", rules.Order.HarderPerStep, rules.Order.Basis)];

        VariedNumber Of(string name, decimal value, Basis basis) => numbers.Of("rules/substitution/" + name, value, basis, most: 1);
    }

    public override int First { get; }

    public override VariedExercises Exercises { get; }

    public override Standing In(Draws draws)
    {
        Exercises.In(draws);
        for (var i = 0; i < ratings.Length; i++)
        {
            for (var k = Exercises.StartOf(i); k < Exercises.StartOf(i + 1); k++)
            {
                ratings[i][Exercises.QualityAt(k)] = Exercises.Drawn[k];
            }
        }

        var likeness = Likeness(draws);
        var (perLoad, perStep) = (order[0].In(draws), (int)decimal.Round(order[1].In(draws)));
        var mostKept = 0;
        for (var i = 0; i < traits.Length; i++)
        {
            if (i == replacedAt)
            {
                continue;
            }

            var takes = reason switch { "pain" => (int)(perLoad * highest[i] / 100), "competence" => perStep * harder[i], _ => 0 };
            var like = likeness.Of(replaced, traits[i], out kept[i]);
            mostKept = Math.Max(mostKept, kept[i]);
            values[i] = (((long)like - takes) << (2 * Bits)) + ((long)like << Bits) + ((1L << Bits) - 1 - tie[i]);
        }

        var least = (int)((mostKept >= (int)(offers[0].In(draws) * 1000) ? offers[1] : offers[2]).In(draws) * 1000);
        return Winner(least);
    }

    protected override long ValueOf(int index) => index == replacedAt ? long.MinValue : values[index];

    private Standing Winner(int least)
    {
        var (rival, above) = (-1, 0);
        for (var i = 0; i < values.Length; i++)
        {
            if (i == First || i == replacedAt || kept[i] < least)
            {
                continue;
            }

            above += values[i] > values[First] ? 1 : 0;
            rival = rival < 0 || values[i] > values[rival] ? i : rival;
        }

        return kept[First] < least ? new Standing(rival, null, int.MaxValue)
            : rival < 0 ? new Standing(First, null, 0)
            : new Standing(above == 0 ? First : rival, (int)(Order(values[First]) - Order(values[rival])), above);

        // Thousandths of likeness, less what the reason takes.
        static long Order(long value) => value >> (2 * Bits);
    }

    private Likeness Likeness(Draws draws)
    {
        decimal At(int i) => shares[i].In(draws);
        var drawn = rules with
        {
            Shares = new LikenessShares(At(0), At(1), At(2), At(3), At(4), At(5), At(6), At(7)),
            Purpose = rules.Purpose with { KeptShare = purpose[0].In(draws), FloorWeight = purpose[1].In(draws) },
            PatternKin = [.. rules.PatternKin.Select((k, i) => k with { Likeness = patternKin[i].In(draws) })],
            SupportKin = [.. rules.SupportKin.Select((k, i) => k with { Likeness = supportKin[i].In(draws) })],
            RateByDistance = [.. rules.RateByDistance.Select((_, i) => byDistance[i].In(draws))],
            BandByDistance = [.. rules.BandByDistance.Select((_, i) => byDistance[rules.RateByDistance.Count + i].In(draws))],
            ContractionElse = contractionElse.In(draws),
        };
        return new Likeness(drawn, Exercises.Needs.Fits, Exercises.Needs.Profile, vocabulary);
    }
}
