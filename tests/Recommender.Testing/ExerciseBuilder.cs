using Recommender.Domain.Catalogue;

namespace Recommender.Testing;

/// <summary>
/// A hand-made exercise. Unless told otherwise: double support, vertical, slow, moderate load, rated 3 for max-strength, loads nothing,
/// needs nothing, can be done everywhere by anyone, and takes three seconds a repetition without set-up.
/// </summary>
public sealed class ExerciseBuilder
{
    private readonly Dictionary<string, QualityRating> qualities = new(StringComparer.Ordinal);
    private readonly Dictionary<string, TissueLoad> loads = new(StringComparer.Ordinal);
    private Exercise exercise;

    private ExerciseBuilder(string id) => exercise = new Exercise(id, id, [], id, "squat", Support.Double, "vertical", "dynamic", LoadBand.Moderate, LoadingRate.Slow, qualities, loads,
        new ExerciseFacts(1, 0, 0, 0, 0, 0, 0, "flat", 0, 0, "none", "slow", 1, "quiet"), Basis.CommonPractice, [[]], [.. TestEdition.Vocabulary.Places.Select(p => p.Id)],
        1, [], 0, 0, 3, DoseUnit.Reps, false, 0, [], [], "How.", ["Cue."], ["Fault."], []);

    /// <summary>Starts an exercise; its family is its id.</summary>
    public static ExerciseBuilder Named(string id = "plain") => new(id);

    /// <summary>Rates it for a quality; the first call replaces the rating it had unasked.</summary>
    public ExerciseBuilder Rated(string quality, int rating, Basis basis = Basis.CommonPractice, string? source = null)
    {
        qualities[quality] = new QualityRating(rating, basis, source);
        return this;
    }

    /// <summary>Loads a region; the interval is the value alone unless an upper end is given.</summary>
    public ExerciseBuilder Loads(string region, decimal value, decimal? high = null, Basis basis = Basis.CommonPractice, string? source = null)
    {
        loads[region] = new TissueLoad(value, value, high ?? value, basis, source);
        return this;
    }

    /// <summary>Needs these things together; a second call gives an alternative.</summary>
    public ExerciseBuilder Needing(params string[] equipment)
    {
        IReadOnlyList<IReadOnlyList<string>> before = exercise.Equipment is [{ Count: 0 }] ? [] : exercise.Equipment;
        return But(e => e with { Equipment = [.. before, equipment] });
    }

    /// <summary>How quickly it loads; impact work gets one contact a repetition.</summary>
    public ExerciseBuilder At(LoadingRate rate) => But(e => e with { LoadingRate = rate, ImpactContacts = rate == LoadingRate.Impact ? 1 : 0 });

    /// <summary>How heavily it is loaded.</summary>
    public ExerciseBuilder At(LoadBand band) => But(e => e with { LoadBand = band });

    /// <summary>Family.</summary>
    public ExerciseBuilder OfFamily(string family) => But(e => e with { Family = family });

    /// <summary>Movement pattern.</summary>
    public ExerciseBuilder OfPattern(string pattern) => But(e => e with { Pattern = pattern });

    /// <summary>Competences it asks for.</summary>
    public ExerciseBuilder Asking(params string[] competences) => But(e => e with { Competences = competences });

    /// <summary>Any other change.</summary>
    public ExerciseBuilder But(Func<Exercise, Exercise> change)
    {
        exercise = change(exercise);
        return this;
    }

    /// <summary>A change of its plain facts.</summary>
    public ExerciseBuilder WithFacts(Func<ExerciseFacts, ExerciseFacts> change) => But(e => e with { Facts = change(e.Facts) });

    /// <summary>The exercise.</summary>
    public Exercise Build()
    {
        if (qualities.Count == 0)
        {
            Rated("max-strength", 3);
        }

        return exercise with { Qualities = qualities.ToDictionary(StringComparer.Ordinal), TissueLoad = loads.ToDictionary(StringComparer.Ordinal) };
    }

    /// <summary>The exercise.</summary>
    public static implicit operator Exercise(ExerciseBuilder builder) => builder.Build();

    /// <summary>The exercise.</summary>
    public Exercise ToExercise() => Build();
}
