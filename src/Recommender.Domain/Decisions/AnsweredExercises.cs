using System.Text;
using System.Text.Json;

namespace Recommender.Domain.Decisions;

/// <summary>Reads from the JSON of an answer, of any kind and engine, what other tables repeat of it.</summary>
public static class AnsweredExercises
{
    /// <summary>Ids of the exercises that an answer picks, and of the one that it replaces, each once.</summary>
    /// <param name="answer">An answer's bytes.</param>
    /// <exception cref="JsonException">They are no JSON.</exception>
    public static IReadOnlyCollection<string> Of(ReadOnlyMemory<byte> answer)
    {
        using var document = JsonDocument.Parse(answer);
        var root = document.RootElement;
        var found = new HashSet<string>(StringComparer.Ordinal);
        if (root.TryGetProperty("picks", out var picks))
        {
            found.UnionWith(picks.EnumerateArray().Select(p => p.GetProperty("exercise").GetProperty("id").GetString()!));
        }

        if (root.TryGetProperty("replaced", out var replaced) && replaced.GetProperty("exercise").GetString() is { } id)
        {
            found.Add(id);
        }

        return found;
    }

    /// <summary>Decisions whose answers stand in a response, alone or in a batch: id and bytes. Other responses hold none.</summary>
    /// <param name="response">A response's bytes.</param>
    /// <exception cref="JsonException">They are no JSON.</exception>
    public static IEnumerable<(string Id, byte[] Answer)> Decisions(ReadOnlyMemory<byte> response)
    {
        using var document = JsonDocument.Parse(response);
        var root = document.RootElement;
        if (root.TryGetProperty("answers", out var answers))
        {
            return [.. answers.EnumerateArray().Where(a => a.TryGetProperty("answer", out _)).Select(a => a.GetProperty("answer")).Select(a => (Id(a), Encoding.UTF8.GetBytes(a.GetRawText())))];
        }

        // What tells of a decision without being its answer, such as a report of what was done with it, names the decision too, but no versions.
        return root.TryGetProperty("decisionId", out _) && root.TryGetProperty("versions", out _) ? [(Id(root), Encoding.UTF8.GetBytes(root.GetRawText()))] : [];

        static string Id(JsonElement answer) => answer.GetProperty("decisionId").GetString()!;
    }
}

/// <summary>Reads from the JSON of a personal part what the search index repeats of it.</summary>
public static class PersonalFields
{
    /// <summary>Ref and coach.</summary>
    /// <exception cref="JsonException">It is no JSON.</exception>
    public static (string? AthleteRef, string? Coach) Of(ReadOnlyMemory<byte> personal)
    {
        using var document = JsonDocument.Parse(personal);
        return (Text("ref"), Text("coach"));

        string? Text(string name) => document.RootElement.TryGetProperty(name, out var value) ? value.GetString() : null;
    }
}
