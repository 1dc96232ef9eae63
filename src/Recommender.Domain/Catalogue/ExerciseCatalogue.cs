using System.Collections.Frozen;

namespace Recommender.Domain.Catalogue;

/// <summary>
/// The exercises, immutable and in memory: the records for people, and flat columns by position for gates and factors.
/// Positions follow the ordinal order of ids, so that the order of the files changes nothing.
/// </summary>
/// <remarks>Columns are laid out for the hot path; see tests/Recommender.Benchmarks.</remarks>
public sealed class ExerciseCatalogue
{
    private readonly Lazy<Traits[]> traits;
    private readonly FrozenDictionary<string, int> positions;
    private readonly int[][] strongFor; // [quality]

    /// <summary>Bit of every column mask, quality and region column follows the vocabulary's order.</summary>
    /// <param name="exercises">Exercises that passed the knowledge checks, in any order.</param>
    /// <param name="vocabulary">The vocabulary they were checked against.</param>
    /// <param name="tissueLoadModels">Models that speak for what was not measured; none when left out.</param>
    public ExerciseCatalogue(IEnumerable<Exercise> exercises, Vocabulary vocabulary, IReadOnlyList<TissueLoadModel>? tissueLoadModels = null)
    {
        traits = new Lazy<Traits[]>(() => [.. Exercises!.Select(e => Catalogue.Traits.Of(e, Vocabulary!))]);
        Vocabulary = vocabulary;
        TissueLoadModels = tissueLoadModels ?? [];
        Exercises = [.. exercises.OrderBy(e => e.Id, StringComparer.Ordinal)];
        positions = Exercises.Select((e, i) => KeyValuePair.Create(e.Id, i)).ToFrozenDictionary(StringComparer.Ordinal);

        var n = Exercises.Count;
        var families = new Dictionary<string, int>(StringComparer.Ordinal);
        RegionCount = vocabulary.Regions.Count;
        Families = new int[n];
        Patterns = new int[n];
        Directions = new int[n];
        Supports = new byte[n];
        Rates = new byte[n];
        Bands = new byte[n];
        Complexities = new byte[n];
        SorenessRisks = new byte[n];
        SetUpTenths = new int[n];
        PlaceMasks = new ulong[n];
        CompetenceMasks = new ulong[n];
        TissueHigh = new short[n * RegionCount];
        TissueValue = new short[n * RegionCount];
        RatingStart = new int[n + 1];
        EquipmentStart = new int[n + 1];
        var ratings = new List<QualityColumn>();
        var equipment = new List<ulong>();
        var strong = new List<int>[vocabulary.Qualities.Count];
        for (var q = 0; q < strong.Length; q++)
        {
            strong[q] = [];
        }

        for (var i = 0; i < n; i++)
        {
            var e = Exercises[i];
            Families[i] = families.TryGetValue(e.Family, out var f) ? f : families[e.Family] = families.Count;
            Patterns[i] = vocabulary.Patterns.IndexOf(e.Pattern);
            Directions[i] = vocabulary.Directions.IndexOf(e.Direction);
            Supports[i] = (byte)e.Support;
            Rates[i] = (byte)e.LoadingRate;
            Bands[i] = (byte)e.LoadBand;
            Complexities[i] = (byte)e.Complexity;
            SorenessRisks[i] = (byte)e.SorenessRisk;
            SetUpTenths[i] = (int)decimal.Round(e.SetUpMinutes * 10);
            PlaceMasks[i] = vocabulary.Places.Mask(e.Places);
            CompetenceMasks[i] = vocabulary.Competences.Mask(e.Competences);
            RatingStart[i] = ratings.Count;
            ratings.AddRange(e.Qualities
                .Select(q => new QualityColumn(vocabulary.Qualities.IndexOf(q.Key), q.Value.Value))
                .OrderBy(q => q.Quality));
            foreach (var (quality, rating) in ratings.Skip(RatingStart[i]))
            {
                if (rating >= QualityRating.Strong)
                {
                    strong[quality].Add(i);
                }
            }

            EquipmentStart[i] = equipment.Count;
            equipment.AddRange(e.Equipment.Select(set => vocabulary.Equipment.Mask(set)));
            for (var r = 0; r < RegionCount; r++)
            {
                if (LoadOn(e, vocabulary.Regions[r]) is { } load)
                {
                    TissueHigh[(i * RegionCount) + r] = (short)decimal.Round(load.High * 100);
                    TissueValue[(i * RegionCount) + r] = (short)decimal.Round(load.Value * 100);
                }
            }
        }

        RatingStart[n] = ratings.Count;
        EquipmentStart[n] = equipment.Count;
        Ratings = [.. ratings];
        strongFor = [.. strong.Select(s => s.ToArray())];
        EquipmentSets = [.. equipment];
    }

    /// <summary>One rated quality of one exercise.</summary>
    /// <param name="Quality">Position in the vocabulary's qualities.</param>
    /// <param name="Rating">1 to 3.</param>
    public readonly record struct QualityColumn(int Quality, int Rating);

    /// <summary>The vocabulary the columns refer to.</summary>
    public Vocabulary Vocabulary { get; }

    /// <summary>Models that speak for what was not measured, by file; may be empty.</summary>
    public IReadOnlyList<TissueLoadModel> TissueLoadModels { get; }

    /// <summary>By position, ordinal by id.</summary>
    public IReadOnlyList<Exercise> Exercises { get; }

    /// <summary>How many exercises there are.</summary>
    public int Count => Exercises.Count;

    /// <summary>Columns of a tissue row.</summary>
    public int RegionCount { get; }

    /// <summary>[exercise] family number, from 0.</summary>
    public int[] Families { get; }

    /// <summary>[exercise] position in the vocabulary's patterns.</summary>
    public int[] Patterns { get; }

    /// <summary>[exercise] position in the vocabulary's directions.</summary>
    public int[] Directions { get; }

    /// <summary>[exercise] <see cref="Support"/>.</summary>
    public byte[] Supports { get; }

    /// <summary>[exercise] <see cref="LoadingRate"/>.</summary>
    public byte[] Rates { get; }

    /// <summary>[exercise] <see cref="LoadBand"/>.</summary>
    public byte[] Bands { get; }

    /// <summary>[exercise] 1 to 4.</summary>
    public byte[] Complexities { get; }

    /// <summary>[exercise] 0 to 3.</summary>
    public byte[] SorenessRisks { get; }

    /// <summary>[exercise] tenths of a minute.</summary>
    public int[] SetUpTenths { get; }

    /// <summary>[exercise] bit per place.</summary>
    public ulong[] PlaceMasks { get; }

    /// <summary>[exercise] bit per competence asked for.</summary>
    public ulong[] CompetenceMasks { get; }

    /// <summary>[exercise, region] upper load in hundredths; borrowed loads resolved; 0 where not loaded.</summary>
    public short[] TissueHigh { get; }

    /// <summary>[exercise, region] load in hundredths; borrowed loads resolved; 0 where not loaded.</summary>
    public short[] TissueValue { get; }

    /// <summary>[exercise] where its rows of <see cref="Ratings"/> start; one more entry closes the last.</summary>
    public int[] RatingStart { get; }

    /// <summary>Rated qualities, exercise after exercise.</summary>
    public QualityColumn[] Ratings { get; }

    /// <summary>[exercise] where its rows of <see cref="EquipmentSets"/> start; one more entry closes the last.</summary>
    public int[] EquipmentStart { get; }

    /// <summary>Bit per thing needed, alternative after alternative.</summary>
    public ulong[] EquipmentSets { get; }

    /// <summary>Position of the exercise, or -1.</summary>
    public int PositionOf(string id) => positions.TryGetValue(id, out var i) ? i : -1;

    /// <summary>[exercise] what exercises are compared by; made when first asked for.</summary>
    public IReadOnlyList<Traits> Traits => traits.Value;

    /// <summary>The exercise with this id, or null.</summary>
    public Exercise? Find(string id) => positions.TryGetValue(id, out var i) ? Exercises[i] : null;

    /// <summary>Rated qualities of the exercise at <paramref name="position"/>.</summary>
    public ReadOnlySpan<QualityColumn> RatingsOf(int position) =>
        Ratings.AsSpan(RatingStart[position], RatingStart[position + 1] - RatingStart[position]);

    /// <summary>Positions of the exercises that train a quality strongly, ascending.</summary>
    public ReadOnlySpan<int> StrongFor(int quality) => strongFor[quality];

    /// <summary>Rating of the exercise for a quality; 0 when it does not train it.</summary>
    public int RatingOf(int position, int quality)
    {
        foreach (var column in RatingsOf(position))
        {
            if (column.Quality == quality)
            {
                return column.Rating;
            }
        }

        return 0;
    }

    /// <summary>Whether the exercise trains at least one of some qualities strongly: so it answers what a coach asked for.</summary>
    public bool IsStrongForAny(int position, IReadOnlyList<int> qualities)
    {
        for (var i = 0; i < qualities.Count; i++)
        {
            if (RatingOf(position, qualities[i]) >= QualityRating.Strong)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The load of the exercise on a region, its own or, where it states none, the one it leans on; null when not loaded.</summary>
    public static TissueLoad? LoadOn(Exercise exercise, RegionTerm region) =>
        exercise.TissueLoad.TryGetValue(region.Id, out var own) ? own
        : region.LeansOn is { } other && exercise.TissueLoad.TryGetValue(other, out var borrowed) ? borrowed
        : null;
}
