namespace Recommender.Domain.Catalogue;

/// <summary>Finds the exercise that was probably meant.</summary>
public static class NearestExercise
{
    private const int Longest = 100;

    /// <summary>Shorter texts are held by too many names to tell which was meant.</summary>
    private const int Telling = 3;

    /// <summary>The exercise whose id, else name, else synonym holds what was written, of several the one with the shortest id; else the one whose id, name or synonym needs the fewest single changes of letters (Levenshtein distance) to become the text; of equal ones the first by id.</summary>
    /// <param name="text">What was written; case does not count, and only its beginning where it is very long.</param>
    /// <param name="catalogue">A catalogue with at least one exercise.</param>
    public static string To(string text, ExerciseCatalogue catalogue)
    {
        var meant = Plain(text.Length > Longest ? text[..Longest] : text);
        var holding = meant.Length < Telling ? null
            : catalogue.Exercises.Where(e => e.Synonyms.Prepend(e.Name).Prepend(e.Id).Any(name => Holds(name, meant)))
                .OrderBy(e => Holds(e.Id, meant) ? 0 : Holds(e.Name, meant) ? 1 : 2).ThenBy(e => e.Id.Length).FirstOrDefault();
        return holding?.Id ?? catalogue.Exercises.MinBy(e => e.Synonyms.Prepend(e.Name).Prepend(e.Id).Min(name => Distance(meant, Plain(name))))!.Id;
    }

    /// <summary>Single insertions, deletions and exchanges from one text to the other.</summary>
    public static int Distance(string one, string other)
    {
        var row = new int[other.Length + 1];
        for (var j = 0; j < row.Length; j++)
        {
            row[j] = j;
        }

        for (var i = 1; i <= one.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j < row.Length; j++)
            {
                var above = row[j];
                row[j] = Math.Min(Math.Min(above, row[j - 1]) + 1, diagonal + (one[i - 1] == other[j - 1] ? 0 : 1));
                diagonal = above;
            }
        }

        return row[^1];
    }

    private static bool Holds(string name, string meant) => Plain(name).Contains(meant, StringComparison.Ordinal);

    private static string Plain(string text) => text.ToLowerInvariant().Replace('-', ' ').Replace('_', ' ');
}
