using Recommender.Domain.Catalogue;

namespace Recommender.Pages.Exercises;

/// <summary>The steps around an exercise, hardest first: what comes after it, itself, what comes before it.</summary>
/// <param name="Exercise">An exercise.</param>
/// <param name="Steps">Steps from the one in hand: above 0 harder, below 0 easier, 0 itself.</param>
public sealed record Rung(Exercise Exercise, int Steps)
{
    private const int Reach = 2;

    /// <summary>The rungs within two steps either way; each exercise stands once, at its shortest way.</summary>
    public static IReadOnlyList<Rung> Around(Exercise exercise, ExerciseCatalogue catalogue) =>
        [.. Walk(exercise, catalogue, e => e.Progressions, 1).Reverse(), new Rung(exercise, 0), .. Walk(exercise, catalogue, e => e.Regressions, -1)];

    private static IEnumerable<Rung> Walk(Exercise from, ExerciseCatalogue catalogue, Func<Exercise, IReadOnlyList<string>> next, int direction)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal) { from.Id };
        IReadOnlyList<Exercise> at = [from];
        for (var step = 1; step <= Reach; step++)
        {
            at = [.. at.SelectMany(next).Where(seen.Add).Select(catalogue.Find).OfType<Exercise>().OrderBy(e => e.Name, StringComparer.Ordinal)];
            foreach (var exercise in at)
            {
                yield return new Rung(exercise, step * direction);
            }
        }
    }
}
