using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;
using Recommender.Pages.Words;

namespace Recommender.Pages.Answers;

/// <summary>What a request asked, in one line.</summary>
internal static class SituationLine
{
    /// <summary>Event, phase, weeks, place and what hurts; what was left out is not said.</summary>
    public static string Of(RecommendationRequest request, Vocabulary words)
    {
        var athlete = request.Athlete!;
        var parts = new List<string> { athlete.Event is { } e ? Say.Label(words.Events, e) : Say.Label(words.EventGroups, athlete.EventGroup!), Say.InSentence(words.Phases, request.Phase!) };
        if (request.WeeksToCompetition is { } weeks)
        {
            parts.Add($"{Say.Number(weeks)} {(weeks == 1 ? "week" : "weeks")} out");
        }

        else if (request.Competitions is { Count: > 0 } ahead && ahead.Min(c => c.DaysToStart) is { } days)
        {
            parts.Add($"competition {Dates.Away(Math.Max(0, days))}");
        }

        if (request.Setting?.Place is { } place)
        {
            parts.Add(Say.InSentence(words.Places, place));
        }

        parts.AddRange((request.Complaints ?? []).Select(c => $"{(c.Side is "left" or "right" ? c.Side + " " : "")}{Say.InSentence(words.Regions, c.Region!)} {c.Pain}/10"));
        return string.Join(", ", parts);
    }
}
