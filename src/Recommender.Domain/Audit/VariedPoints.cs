using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Scoring.Factors;

namespace Recommender.Domain.Audit;

/// <summary>The points of every factor but the need match, by support, direction, rate, band, region and so on, drawn. The formulas are those of the factors; a property test holds them equal.</summary>
internal sealed class VariedPoints
{
    private static readonly LoadingRate[] Rates = Enum.GetValues<LoadingRate>();
    private readonly Situation situation;
    private readonly ScoringRules rules;
    private readonly VariedNumber[] correspondence; // max, support, direction, rate
    private readonly VariedNumber[] supportLike;
    private readonly VariedNumber[] directionLike;
    private readonly VariedNumber[] rateLike;
    private readonly VariedNumber[] phaseRate;
    private readonly VariedNumber[] phaseBand;
    private readonly VariedNumber[] tissue; // sore, floor, risk
    private readonly VariedNumber[] rateFactor;
    private readonly List<(int Region, int? Pain, VariedNumber? Weight)> rows = [];
    private readonly VariedNumber[] freshness; // max, fades
    private readonly VariedNumber[] bySoreness;
    private readonly VariedNumber[]? mass; // max, cost
    private readonly VariedNumber[] setUp; // per minute, max
    private readonly VariedNumber[] sameExercise;
    private readonly VariedNumber[] sameFamily;

    public VariedPoints(Situation situation, VariedNumbers numbers)
    {
        this.situation = situation;
        rules = situation.Knowledge.Scoring;
        var words = situation.Catalogue.Vocabulary;
        var (like, profile) = (situation.Profile.Correspondence, situation.Profile);
        var c = rules.Correspondence;
        correspondence = [Rule("correspondence/maxPoints", c.MaxPoints, c.Basis), Rule("correspondence/supportShare", c.SupportShare, c.Basis, 1), Rule("correspondence/directionShare", c.DirectionShare, c.Basis, 1), Rule("correspondence/loadingRateShare", c.LoadingRateShare, c.Basis, 1)];
        supportLike = [.. Enum.GetValues<Support>().Select(s => Like("support", words.Supports[(int)s].Id, like.Support.GetValueOrDefault(s)))];
        directionLike = [.. words.Directions.Select(d => Like("direction", d.Id, like.Direction.GetValueOrDefault(d.Id)))];
        rateLike = [.. Rates.Select(r => Like("loadingRate", words.LoadingRates[(int)r].Id, like.LoadingRate.GetValueOrDefault(r)))];
        var (p, column) = (rules.PhaseFit, (int)situation.Phase);
        phaseRate = [.. Rates.Select(r => Rule($"phaseFit/loadingRate/{words.LoadingRates[(int)r].Id}/{column}", p.LoadingRate[r][column], p.Basis))];
        phaseBand = [.. Enum.GetValues<LoadBand>().Select(b => Rule($"phaseFit/loadBand/{words.LoadBands[(int)b].Id}/{column}", p.LoadBand[b][column], p.Basis))];
        var t = rules.TissueCost;
        tissue = [Rule("tissueCost/sorePoints", t.SorePoints, t.Basis), Rule("tissueCost/sorePainFloor", t.SorePainFloor, t.Basis, 1), Rule("tissueCost/riskPoints", t.RiskPoints, t.Basis)];
        rateFactor = [.. Rates.Select(r => Rule($"tissueCost/rateFactor/{words.LoadingRates[(int)r].Id}", t.RateFactor[r], t.Basis))];
        foreach (var sore in situation.Complaints.SelectMany(x => x.Stands.Select(s => (Region: s.Region.Id, x.EffectivePain))).GroupBy(x => x.Region, StringComparer.Ordinal))
        {
            rows.Add((words.Regions.IndexOf(sore.Key), sore.Max(x => x.EffectivePain), null));
        }

        foreach (var risk in profile.RegionsAtRisk.Where(r => !rows.Exists(x => x.Region == words.Regions.IndexOf(r.Region))))
        {
            rows.Add((words.Regions.IndexOf(risk.Region), null, numbers.Of($"event-profiles/{profile.Event}/regionsAtRisk/{risk.Region}", risk.Weight, risk.Basis, 1)));
        }

        var f = rules.Freshness;
        freshness = [Rule("freshness/maxPoints", f.MaxPoints, f.Basis), Rule("freshness/fadesOverWeeks", f.FadesOverWeeks, f.Basis)];
        bySoreness = [.. f.BySorenessRisk.Select((share, i) => Rule($"freshness/bySorenessRisk/{i}", share, f.Basis, 1))];
        var m = rules.MassCost;
        mass = MassCost.Applies(situation) ? [Rule("massCost/maxPoints", m.MaxPoints, m.Basis), numbers.Of($"event-profiles/{profile.Event}/massCost", profile.MassCost, profile.Basis, 1)] : null;
        UpperBody = [.. words.Patterns.Select(x => m.UpperBodyOnlyPatterns.Contains(x.Id, StringComparer.Ordinal))];
        setUp = [Rule("setUp/pointsPerMinute", rules.SetUp.PointsPerMinute, rules.SetUp.Basis), Rule("setUp/maxPoints", rules.SetUp.MaxPoints, rules.SetUp.Basis)];
        var any = situation.LastDone.Count > 0;
        sameExercise = any ? Steps("sameExercise", rules.Continuity.SameExercise) : [];
        sameFamily = any ? Steps("sameFamily", rules.Continuity.SameFamily) : [];
        (Support, Direction, Rate, PhaseRate, PhaseBand, Soreness) = (new int[supportLike.Length], new int[directionLike.Length], new int[Rates.Length], new int[Rates.Length], new int[phaseBand.Length], new int[bySoreness.Length]);
        (SameExercise, SameFamily) = (new int[sameExercise.Length], new int[sameFamily.Length]);
        Tissue = new int[rows.Count * Rates.Length];

        VariedNumber Rule(string name, decimal value, Basis basis, decimal most = decimal.MaxValue) => numbers.Of("rules/scoring/" + name, value, basis, most);
        VariedNumber Like(string what, string id, decimal value) => numbers.Of($"event-profiles/{profile.Event}/correspondence/{what}/{id}", value, profile.Basis, 1);
        VariedNumber[] Steps(string name, IReadOnlyList<DaysStep> steps) => [.. steps.Select((s, i) => Rule($"continuity/{name}/{i}", s.Points, rules.Continuity.Basis))];
    }

    /// <summary>[row] regions that cost points.</summary>
    public IReadOnlyList<int> Regions => [.. rows.Select(r => r.Region)];

    /// <summary>[pattern] whether mass costs there.</summary>
    public bool[] UpperBody { get; }

    /// <summary>[support].</summary>
    public int[] Support { get; }

    /// <summary>[direction].</summary>
    public int[] Direction { get; }

    /// <summary>[rate] for likeness to the event.</summary>
    public int[] Rate { get; }

    /// <summary>[rate] for the phase.</summary>
    public int[] PhaseRate { get; }

    /// <summary>[band] for the phase.</summary>
    public int[] PhaseBand { get; }

    /// <summary>[row, rate] at full load.</summary>
    public int[] Tissue { get; }

    /// <summary>[risk].</summary>
    public int[] Soreness { get; }

    /// <summary>Taken for each rating of muscle mass.</summary>
    public int MassPerRating { get; private set; }

    /// <summary>Taken for each tenth of a minute.</summary>
    public int SetUpPerTenth { get; private set; }

    /// <summary>Taken at most.</summary>
    public int SetUpMost { get; private set; }

    /// <summary>[step].</summary>
    public int[] SameExercise { get; }

    /// <summary>[step].</summary>
    public int[] SameFamily { get; }

    /// <summary>Draws all tables.</summary>
    public void In(Draws draws)
    {
        var max = correspondence[0].In(draws);
        Likeness(Support, supportLike, max * correspondence[1].In(draws));
        Likeness(Direction, directionLike, max * correspondence[2].In(draws));
        Likeness(Rate, rateLike, max * correspondence[3].In(draws));
        Likeness(PhaseRate, phaseRate, 1);
        Likeness(PhaseBand, phaseBand, 1);
        var (sore, floor, risk) = (tissue[0].In(draws), tissue[1].In(draws), tissue[2].In(draws));
        for (var row = 0; row < rows.Count; row++)
        {
            var points = rows[row].Pain is { } pain ? sore * (floor + ((1 - floor) * pain / 10m)) : risk * rows[row].Weight!.In(draws);
            for (var r = 0; r < Rates.Length; r++)
            {
                Tissue[(row * Rates.Length) + r] = Points.Of(points * rateFactor[r].In(draws)).Thousandths;
            }
        }

        var near = Math.Max(0, 1 - (situation.WeeksToCompetition / freshness[1].In(draws)));
        for (var i = 0; i < Soreness.Length; i++)
        {
            Soreness[i] = -Points.Of(freshness[0].In(draws) * bySoreness[i].In(draws) * near).Thousandths;
        }

        MassPerRating = mass is null ? 0 : Points.Of(mass[0].In(draws) * mass[1].In(draws) / 3).Thousandths;
        SetUpPerTenth = Points.Of(setUp[0].In(draws) / 10).Thousandths;
        SetUpMost = Points.Of(setUp[1].In(draws)).Thousandths;
        Likeness(SameExercise, sameExercise, 1);
        Likeness(SameFamily, sameFamily, 1);

        void Likeness(int[] table, VariedNumber[] numbers, decimal times)
        {
            for (var i = 0; i < table.Length; i++)
            {
                table[i] = Points.Of(times * numbers[i].In(draws)).Thousandths;
            }
        }
    }
}
