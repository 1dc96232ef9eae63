using Microsoft.Net.Http.Headers;
using Recommender.Answers.ExerciseFiles;

namespace Recommender.Api.Exercises;

/// <summary>Whether a caller wants the table.</summary>
public static class ExerciseFormat
{
    private const string Csv = ExerciseCsv.MediaType;
    private const string Json = "application/json";

    /// <summary>Whether Accept prefers text/csv to JSON. On a tie the one that is named wins, then JSON.</summary>
    public static bool WantsCsv(HttpRequest request)
    {
        if (!MediaTypeHeaderValue.TryParseList([.. request.Headers.Accept.OfType<string>()], out var accepted))
        {
            return false;
        }

        var (csv, json) = (Wish(accepted, Csv), Wish(accepted, Json));
        return csv.Quality > json.Quality || (csv.Quality > 0 && csv.Quality == json.Quality && csv.Named && !json.Named);
    }

    private static (double Quality, bool Named) Wish(IList<MediaTypeHeaderValue> accepted, string type)
    {
        var wanted = new MediaTypeHeaderValue(type);
        return accepted.Where(a => wanted.IsSubsetOf(new MediaTypeHeaderValue(a.MediaType)))
            .OrderBy(a => a.MatchesAllTypes ? 2 : a.MatchesAllSubTypes ? 1 : 0)
            .Select(a => (a.Quality ?? 1, !a.MatchesAllTypes && !a.MatchesAllSubTypes))
            .FirstOrDefault();
    }
}
