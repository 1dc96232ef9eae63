using Recommender.Domain.Catalogue;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Audit;

/// <summary>Scores of exercises with their ratings, loads, times and every number of the rules drawn. Refuses and lets in nothing: what the gates said stays.</summary>
/// <remarks>Runs a thousand times for one answer: flat arrays, no allocation for an exercise. Benchmark: tests/Recommender.Benchmarks, audit.</remarks>
internal sealed class VariedExercises
{
    private const int FullLoad = 1000;
    private const int RateCount = 4;
    private readonly ExerciseCatalogue catalogue;
    private readonly VariedNeeds needs;
    private readonly VariedPoints? points;
    private readonly int[] positions;
    private readonly int[] regions;
    private readonly int mass;
    private readonly int[] ratingStart;
    private readonly List<Rating> ratings = [];
    private readonly Load[] loads; // [exercise, row]
    private readonly Rating[] soreness;
    private readonly SetUp[] setUps;
    private readonly (int Own, int Family)[] lastDone;
    private readonly uint halfMoves;
    private readonly int[] top; // scratch of the need match, highest first

    /// <param name="situation">The situation.</param>
    /// <param name="positions">Catalogue positions, ascending.</param>
    /// <param name="numbers">Takes the numbers.</param>
    /// <param name="scored">Whether scores are asked; without them only needs and ratings are drawn.</param>
    public VariedExercises(Situation situation, int[] positions, VariedNumbers numbers, bool scored = true)
    {
        this.positions = positions;
        catalogue = situation.Catalogue;
        needs = new VariedNeeds(situation, numbers);
        points = scored ? new VariedPoints(situation, numbers) : null;
        halfMoves = numbers.HalfMoves;
        regions = [.. points?.Regions ?? []];
        var words = catalogue.Vocabulary;
        mass = words.Qualities.IndexOf("muscle-mass");
        top = new int[words.Qualities.Count];
        var n = positions.Length;
        (ratingStart, loads, soreness, setUps, lastDone) = (new int[n + 1], new Load[n * regions.Length], new Rating[n], new SetUp[n], new (int, int)[n]);
        (Scores, NeedPoints) = (new int[n], new int[n]);
        for (var i = 0; i < n; i++)
        {
            var (position, exercise) = (positions[i], catalogue.Exercises[positions[i]]);
            var own = Draws.KeyOf(exercise.Id);
            ratingStart[i] = ratings.Count;
            foreach (var (quality, value) in catalogue.RatingsOf(position))
            {
                var id = words.Qualities[quality].Id;
                ratings.Add(new Rating(Draws.KeyOf("/qualities/" + id, own), quality, value, numbers.Count(exercise.Qualities[id].Basis, moves: true)));
            }

            if (points is null)
            {
                continue;
            }

            for (var row = 0; row < regions.Length; row++)
            {
                loads[(i * regions.Length) + row] = LoadOf(exercise, own, words.Regions[regions[row]], numbers);
            }

            soreness[i] = new Rating(Draws.KeyOf("/sorenessRisk", own), -1, exercise.SorenessRisk, numbers.Count(exercise.FactsBasis, moves: true));
            var (low, high) = (exercise.SetUpMinutes * (1 - situation.Knowledge.Audit.Sensitivity.WithoutInterval), exercise.SetUpMinutes * (1 + situation.Knowledge.Audit.Sensitivity.WithoutInterval));
            var varied = numbers.Count(exercise.FactsBasis, low != high);
            setUps[i] = new SetUp(Draws.KeyOf("/setUpMinutes", own), catalogue.SetUpTenths[position], varied ? (int)decimal.Round(low * 1000) : 0, varied ? (int)decimal.Round(high * 1000) : 0);
            lastDone[i] = LastDone(situation, position);
        }

        ratingStart[n] = ratings.Count;
        Drawn = new int[ratings.Count];
    }

    private readonly record struct Rating(ulong Key, int Quality, int Value, bool Varied);

    private readonly record struct Load(ulong Key, int Value, int Low, int High);

    private readonly record struct SetUp(ulong Key, int Tenths, int Low, int High);

    /// <summary>[exercise] thousandths of what was learned from choices; it is left as it stands. Null where nothing was.</summary>
    public int[]? Leans { get; init; }

    /// <summary>Catalogue positions, ascending.</summary>
    public IReadOnlyList<int> Positions => positions;

    /// <summary>[exercise] thousandths of the last draw.</summary>
    public int[] Scores { get; }

    /// <summary>[exercise] thousandths that the need match alone brings.</summary>
    public int[] NeedPoints { get; }

    /// <summary>Ratings of the last draw, exercise after exercise; 0 where it does not train the quality.</summary>
    public int[] Drawn { get; }

    /// <summary>Points of the needs in the last draw.</summary>
    public NeedTable Table { get; private set; } = null!;

    /// <summary>The needs.</summary>
    public VariedNeeds Needs => needs;

    /// <summary>Draws everything and scores.</summary>
    public void In(Draws draws)
    {
        Table = needs.In(draws);
        for (var k = 0; k < Drawn.Length; k++)
        {
            Drawn[k] = Step(ratings[k], draws);
        }

        if (points is null)
        {
            return;
        }

        points.In(draws);
        for (var i = 0; i < positions.Length; i++)
        {
            NeedPoints[i] = NeedMatch(i);
            Scores[i] = NeedPoints[i] + Others(i, points, draws) + (Leans is { } leans ? leans[i] : 0);
        }
    }

    /// <summary>Where an exercise's ratings start in <see cref="Drawn"/>.</summary>
    public int StartOf(int i) => ratingStart[i];

    /// <summary>The quality of a rating.</summary>
    public int QualityAt(int k) => ratings[k].Quality;

    /// <summary>Keys and names of the varied numbers of one exercise that its score can hang on.</summary>
    public IEnumerable<(ulong Key, string Name, Basis Basis, decimal Low, decimal High)> NumbersOf(int i)
    {
        var exercise = catalogue.Exercises[positions[i]];
        for (var k = ratingStart[i]; k < ratingStart[i + 1]; k++)
        {
            var id = catalogue.Vocabulary.Qualities[ratings[k].Quality].Id;
            if (ratings[k].Varied && needs.Asks(ratings[k].Quality))
            {
                yield return (ratings[k].Key, $"exercises/{exercise.Id}/qualities/{id}", exercise.Qualities[id].Basis, Math.Max(0, ratings[k].Value - 1), Math.Min(3, ratings[k].Value + 1));
            }
        }

        for (var row = 0; row < regions.Length; row++)
        {
            var load = loads[(i * regions.Length) + row];
            if (load.Low != load.High)
            {
                var region = catalogue.Vocabulary.Regions[regions[row]];
                yield return (load.Key, $"exercises/{exercise.Id}/tissueLoad/{region.Id}", ExerciseCatalogue.LoadOn(exercise, region)!.Basis, load.Low / 100m, load.High / 100m);
            }
        }

        if (soreness[i].Varied)
        {
            yield return (soreness[i].Key, $"exercises/{exercise.Id}/sorenessRisk", exercise.FactsBasis, Math.Max(0, soreness[i].Value - 1), Math.Min(3, soreness[i].Value + 1));
        }

        if (setUps[i].Low != setUps[i].High)
        {
            yield return (setUps[i].Key, $"exercises/{exercise.Id}/setUpMinutes", exercise.FactsBasis, setUps[i].Low / 1000m, setUps[i].High / 1000m);
        }
    }

    private static Load LoadOf(Exercise exercise, ulong own, RegionTerm region, VariedNumbers numbers)
    {
        if (ExerciseCatalogue.LoadOn(exercise, region) is not { } load)
        {
            return default;
        }

        // A region that leans on another has that one's load, and the same draw.
        var stated = exercise.TissueLoad.ContainsKey(region.Id) ? region.Id : region.LeansOn!;
        var (value, low, high) = ((int)decimal.Round(load.Value * 100), (int)decimal.Round(load.Low * 100), (int)decimal.Round(load.High * 100));
        return numbers.Count(load.Basis, low != high) ? new Load(Draws.KeyOf("/tissueLoad/" + stated, own), value, low, high) : new Load(0, value, value, value);
    }

    private (int Own, int Family) LastDone(Situation situation, int position)
    {
        var (own, family) = (int.MaxValue, int.MaxValue);
        foreach (var done in situation.LastDone)
        {
            if (done.Position == position)
            {
                own = done.DaysAgo;
            }
            else if (catalogue.Families[done.Position] == catalogue.Families[position])
            {
                family = Math.Min(family, done.DaysAgo);
            }
        }

        return (StepAt(situation.Knowledge.Scoring.Continuity.SameExercise, own), StepAt(situation.Knowledge.Scoring.Continuity.SameFamily, family));
    }

    private static int StepAt(IReadOnlyList<Knowledge.DaysStep> steps, int daysAgo)
    {
        for (var i = 0; i < steps.Count; i++)
        {
            if (daysAgo >= steps[i].FromDays && daysAgo <= steps[i].ToDays)
            {
                return i;
            }
        }

        return -1;
    }

    private int Step(Rating rating, Draws draws) => rating.Varied ? Math.Clamp(rating.Value + draws.StepOf(rating.Key, halfMoves), 0, 3) : rating.Value;

    private int NeedMatch(int i)
    {
        var n = 0;
        for (var k = ratingStart[i]; k < ratingStart[i + 1]; k++)
        {
            var p = Drawn[k] == 0 ? 0 : Table.At(ratings[k].Quality, Drawn[k]);
            if (p == 0)
            {
                continue;
            }

            var at = n++;
            while (at > 0 && top[at - 1] < p)
            {
                top[at] = top[at - 1];
                at--;
            }

            top[at] = p;
        }

        var sum = 0;
        var nth = needs.NthPerMille;
        for (var k = 0; k < n; k++)
        {
            sum += (int)(((long)top[k] * nth[Math.Min(k, nth.Length - 1)]) / 1000);
        }

        return sum;
    }

    private int Others(int i, VariedPoints points, Draws draws)
    {
        var position = positions[i];
        int rate = catalogue.Rates[position];
        var sum = points.Support[catalogue.Supports[position]] + points.Direction[catalogue.Directions[position]] + points.Rate[rate] + points.PhaseRate[rate] + points.PhaseBand[catalogue.Bands[position]];
        for (var row = 0; row < regions.Length; row++)
        {
            var load = loads[(i * regions.Length) + row];
            var value = load.Value;
            if (load.Low != load.High && draws.PlaceOf(load.Key) is >= 0 and var place)
            {
                value = load.Low + ((((load.High - load.Low) * place) + (Draws.Places / 2)) / Draws.Places);
            }

            sum -= points.Tissue[(row * RateCount) + rate] * value / FullLoad;
        }

        sum += points.Soreness[Step(soreness[i], draws)];
        if (points.MassPerRating != 0 && points.UpperBody[catalogue.Patterns[position]])
        {
            for (var k = ratingStart[i]; k < ratingStart[i + 1]; k++)
            {
                sum -= ratings[k].Quality == mass ? points.MassPerRating * Drawn[k] : 0;
            }
        }

        sum -= Math.Min(points.SetUpMost, SetUpTenths(setUps[i], draws) * points.SetUpPerTenth);
        var (own, family) = lastDone[i];
        return sum + (own < 0 || points.SameExercise.Length == 0 ? 0 : points.SameExercise[own]) + (family < 0 || points.SameFamily.Length == 0 ? 0 : points.SameFamily[family]);
    }

    /// <summary>Tenths of a minute, halves to even as where the catalogue is read.</summary>
    private static int SetUpTenths(SetUp setUp, Draws draws)
    {
        if (setUp.Low == setUp.High || draws.PlaceOf(setUp.Key) is not (>= 0 and var place))
        {
            return setUp.Tenths;
        }

        var thousandths = setUp.Low + ((setUp.High - setUp.Low) * place / Draws.Places);
        var (tenths, rest) = (thousandths / 100, thousandths % 100);
        return tenths + (rest > 50 || (rest == 50 && tenths % 2 == 1) ? 1 : 0);
    }
}
