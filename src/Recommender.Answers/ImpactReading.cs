using System.Globalization;
using System.Text.Json;
using Recommender.Domain.Decisions;

namespace Recommender.Answers;

/// <summary>Reads two answers to one request as staff would: which picks go and come, and why the first one moved.</summary>
internal static class ImpactReading
{
    /// <summary>What differs; null when picks, order, doses and referral are the same.</summary>
    public static ImpactLine? Of(DecisionRecord record, byte[] before, byte[] after)
    {
        using var was = JsonDocument.Parse(before);
        using var now = JsonDocument.Parse(after);
        var (old, next) = (Picks(was), Picks(now));
        var (leave, enter) = (old.Keys.Except(next.Keys).ToList(), next.Keys.Except(old.Keys).ToList());
        var doses = old.Keys.Intersect(next.Keys).Count(id => !JsonElement.DeepEquals(old[id].GetProperty("dose"), next[id].GetProperty("dose")));
        var (statusWas, statusIs) = (Status(was), Status(now));
        if (old.Keys.SequenceEqual(next.Keys) && doses == 0 && statusWas == statusIs)
        {
            return null;
        }

        var (topWas, topIs) = (old.Keys.FirstOrDefault(), next.Keys.FirstOrDefault());
        return new ImpactLine(record.DecisionId, record.Kind, record.AthleteRef, topWas, topIs, leave, enter, doses, Why(topWas, topIs, old, next, was, now, statusWas, statusIs));
    }

    private static string Why(string? topWas, string? topIs, Dictionary<string, JsonElement> old, Dictionary<string, JsonElement> next, JsonDocument was, JsonDocument now, string statusWas, string statusIs)
    {
        if (statusWas != statusIs)
        {
            return $"The answer was {statusWas} and is {statusIs}.";
        }

        if (topWas == topIs)
        {
            var why = Refused(old, now, next.Keys, "is refused now") ?? Refused(next, was, old.Keys, "was refused before")
                ?? next.Keys.Select(id => Moved(id, old, next)).OfType<(decimal Points, string Sentence)>().OrderByDescending(m => Math.Abs(m.Points)).Select(m => m.Sentence).FirstOrDefault();
            var what = old.Keys.Order(StringComparer.Ordinal).SequenceEqual(next.Keys.Order(StringComparer.Ordinal)) ? "order or doses differ" : "others change";
            return why is null ? $"The first pick stays; {what}." : $"The first pick stays; {what}. {why}";
        }

        if (topWas is not null && !next.ContainsKey(topWas))
        {
            return Refusal(now, topWas) is { } reason ? $"{Name(old[topWas])} is refused now: {reason}." : $"{Name(old[topWas])} is no longer among the picks.";
        }

        // The one that moved most in points tells the story: the old first fell, or the new first rose.
        var (fell, rose) = (Moved(topWas, old, next), Moved(topIs, old, next));
        return (fell is null ? rose : rose is null || Math.Abs(fell.Value.Points) >= Math.Abs(rose.Value.Points) ? fell : rose)?.Sentence
            ?? (topIs is not null && Refusal(was, topIs) is { } before ? $"{Name(next[topIs])} was refused before: {before}." : "The order of the picks differs.");
    }

    /// <summary>The first pick that the other answer refuses, in a sentence; null where none is among its nearest misses.</summary>
    private static string? Refused(Dictionary<string, JsonElement> picks, JsonDocument other, IEnumerable<string> otherPicks, string how) =>
        picks.Where(p => !otherPicks.Contains(p.Key)).Select(p => Refusal(other, p.Key) is { } reason ? $"{Name(p.Value)} {how}: {reason}." : null).FirstOrDefault(s => s is not null);

    /// <summary>How a pick's score moved, and the contribution that moved most.</summary>
    private static (decimal Points, string Sentence)? Moved(string? id, Dictionary<string, JsonElement> old, Dictionary<string, JsonElement> next)
    {
        if (id is null || !old.TryGetValue(id, out var was) || !next.TryGetValue(id, out var now) || !was.TryGetProperty("score", out var scoreWas))
        {
            return null;
        }

        var moved = now.GetProperty("score").GetDecimal() - scoreWas.GetDecimal();
        if (moved == 0)
        {
            return null;
        }

        var before = was.GetProperty("contributions").EnumerateArray().ToDictionary(c => c.GetProperty("factor").GetString()!, c => c.GetProperty("points").GetDecimal(), StringComparer.Ordinal);
        var most = now.GetProperty("contributions").EnumerateArray()
            .Select(c => (Label: c.GetProperty("label").GetString()!, Points: c.GetProperty("points").GetDecimal() - before.GetValueOrDefault(c.GetProperty("factor").GetString()!)))
            .MaxBy(c => Math.Abs(c.Points));
        return (moved, string.Create(CultureInfo.InvariantCulture, $"{Name(now)} {(moved < 0 ? "loses" : "gains")} {Math.Abs(moved):0.###} points, most of it by {most.Label} ({most.Points:+0.###;-0.###})."));
    }

    private static string? Refusal(JsonDocument answer, string id) => answer.RootElement.GetProperty("leftOut").GetProperty("nearest").EnumerateArray()
        .Where(n => n.GetProperty("exercise").GetString() == id).Select(n => n.GetProperty("reason").GetString()).FirstOrDefault();

    private static string Name(JsonElement pick) => pick.GetProperty("exercise").GetProperty("name").GetString()!;

    private static string Status(JsonDocument answer) => answer.RootElement.GetProperty("status").GetString()!;

    /// <summary>Picks by exercise, in their order.</summary>
    private static Dictionary<string, JsonElement> Picks(JsonDocument answer) =>
        answer.RootElement.GetProperty("picks").EnumerateArray().ToDictionary(p => p.GetProperty("exercise").GetProperty("id").GetString()!, p => p, StringComparer.Ordinal);
}
