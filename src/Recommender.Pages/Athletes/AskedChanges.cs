using System.Globalization;
using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Audit;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Pages.Words;

namespace Recommender.Pages.Athletes;

/// <summary>What was asked differently from one request to the next, in words, and which knowledge it was answered on. Every difference is told, those without words of their own by their name.</summary>
internal static class AskedChanges
{
    /// <summary>Parts of a request by what a person calls them. Parts that change no answer are empty.</summary>
    private static readonly Dictionary<string, string> Names = new(StringComparer.Ordinal)
    {
        ["coach"] = "",
        ["units"] = "",
        ["count"] = "how many exercises",
        ["perFamily"] = "how many of one family",
        ["setting"] = "place and equipment",
        ["redFlags"] = "red flags",
        ["tests"] = "test results",
        ["recent"] = "what was done lately",
        ["sessionRatings"] = "session ratings",
        ["training"] = "the week’s other training",
        ["exclude"] = "exercises not wanted",
        ["only"] = "kinds of exercise asked for",
        ["weekKind"] = "kind of week",
        ["needs"] = "the coach’s needs",
    };

    private static readonly Dictionary<string, string> AthleteNames = new(StringComparer.Ordinal)
    {
        ["ref"] = "",
        ["ageYears"] = "age",
        ["trainingAgeYears"] = "years of strength training",
        ["bodyMassKg"] = "body mass",
        ["statureCm"] = "stature",
        ["oneRepMaxKg"] = "best single lifts",
        ["competence"] = "what can be done safely",
        ["restrictions"] = "a clinician’s restrictions",
        ["clearances"] = "a clinician’s clearance",
        ["history"] = "earlier injuries",
        ["layoff"] = "time off training",
        ["growthSpurt"] = "growth spurt",
        ["limitations"] = "",
        ["eventGroup"] = "event",
        ["event"] = "event",
        ["takeOffLeg"] = "take-off leg",
    };

    /// <summary>The differences; empty when both asked the same of the same knowledge.</summary>
    public static IReadOnlyList<string> Of(RecommendationRequest before, RecommendationRequest after, VersionStamp was, VersionStamp now, Vocabulary words)
    {
        var said = new List<string>();
        if (before.Phase != after.Phase)
        {
            said.Add($"phase: {Say.InSentence(words.Phases, before.Phase!)} → {Say.InSentence(words.Phases, after.Phase!)}");
        }

        if (Weeks(before) is var weeks && Weeks(after) is var weeksNow && weeks != weeksNow)
        {
            said.Add(weeksNow is null ? "no competition is named any more" : $"competition: {(weeks is null ? "not named" : Out(weeks.Value))} → {Out(weeksNow.Value)}");
        }
        else if (Named(before) != Named(after))
        {
            said.Add("other competitions");
        }

        Complaints(before, after, words, said);
        if (before.Setting?.Place != after.Setting?.Place)
        {
            said.Add($"place: {Place(before)} → {Place(after)}");
        }

        said.AddRange(Others(before, after));
        if (was.Rules != now.Rules)
        {
            said.Add("other rules are in force");
        }

        if (was.Catalogue != now.Catalogue)
        {
            said.Add("another catalogue is in force");
        }

        if (was.Engine != now.Engine)
        {
            said.Add("another version of the arithmetic");
        }

        return said;

        string Place(RecommendationRequest r) => r.Setting?.Place is { } place ? Say.InSentence(words.Places, place) : "the usual";
    }

    /// <summary>A complaint with its side.</summary>
    public static string Where(Complaint complaint, Vocabulary words) => $"{(complaint.Side is "left" or "right" ? complaint.Side + " " : "")}{Say.InSentence(words.Regions, complaint.Region ?? "")}";

    private static void Complaints(RecommendationRequest before, RecommendationRequest after, Vocabulary words, List<string> said)
    {
        var (was, now) = (before.Complaints ?? [], after.Complaints ?? []);
        foreach (var complaint in now)
        {
            if (was.FirstOrDefault(c => Same(c, complaint)) is not { } earlier)
            {
                said.Add($"new: {Where(complaint, words)} {complaint.Pain}/10");
            }
            else if (earlier.Pain != complaint.Pain)
            {
                said.Add($"{Where(complaint, words)}: pain {earlier.Pain} → {complaint.Pain}");
            }
            else if ((earlier.NextMorning ?? earlier.Mornings?[0]) != (complaint.NextMorning ?? complaint.Mornings?[0]))
            {
                said.Add($"{Where(complaint, words)}: next morning {earlier.NextMorning ?? "not known"} → {complaint.NextMorning ?? "not known"}");
            }
            else if (Text(earlier) != Text(complaint))
            {
                said.Add($"{Where(complaint, words)}: its course or what was asked about it");
            }
        }

        said.AddRange(was.Where(c => !now.Any(n => Same(n, c))).Select(c => $"no longer: {Where(c, words)}"));

        static bool Same(Complaint a, Complaint b) => a.Region == b.Region && (a.Side ?? "both") == (b.Side ?? "both");
        static string Text(Complaint c) => JsonSerializer.Serialize(new RecommendationRequest { Complaints = [c with { Note = null }] }, WireJson.Compact.RecommendationRequest);
    }

    /// <summary>What differs beside what has words of its own.</summary>
    private static IEnumerable<string> Others(RecommendationRequest before, RecommendationRequest after)
    {
        var changes = JsonDifference.Of(Element(Rest(before)), Element(Rest(after)), orderCounts: false);
        return changes
            .Select(c => c.Steps[0].Name == "athlete" && c.Steps.Count > 1 ? AthleteNames.GetValueOrDefault(c.Steps[1].Name!, c.Steps[1].Name!) : Names.GetValueOrDefault(c.Steps[0].Name!, c.Steps[0].Name!))
            .Where(n => n.Length > 0)
            .Distinct(StringComparer.Ordinal);

        // How long ago, and how far away, move by themselves; who wrote it is nobody's business here.
        static RecommendationRequest Rest(RecommendationRequest r) => r with
        {
            Phase = null,
            WeeksToCompetition = null,
            Competitions = null,
            Complaints = null,
            Setting = r.Setting is { } setting && setting with { Place = null } is var rest && rest != new SettingFacts() ? rest : null,
            Athlete = r.Athlete! with { Restrictions = r.Athlete.Restrictions is { } restrictions ? [.. restrictions.Select(x => x with { By = null, ReviewInDays = null })] : null },
            Tests = r.Tests is { } tests ? tests with { DaysAgo = null } : null,
        };
    }

    private static JsonElement Element(RecommendationRequest request) => JsonSerializer.SerializeToElement(request, WireJson.Compact.RecommendationRequest);

    // Days move by themselves; a competition that was put in or taken out does not.
    private static string Named(RecommendationRequest r) => JsonSerializer.Serialize(new RecommendationRequest { Competitions = r.Competitions is { } all ? [.. all.Select(c => c with { DaysToStart = null })] : null }, WireJson.Compact.RecommendationRequest);

    /// <summary>Weeks to the competition as they were sent.</summary>
    private static decimal? Weeks(RecommendationRequest r) =>
        r.WeeksToCompetition ?? (r.Competitions is { Count: > 0 } all && all.Where(c => c.DaysToStart >= 0).Select(c => c.DaysToStart).Min() is { } days ? decimal.Round(days / 7m, 1) : null);

    private static string Out(decimal weeks) => weeks == 0 ? "this very day" : $"{weeks.ToString("0.#", CultureInfo.InvariantCulture)} {(weeks == 1 ? "week" : "weeks")} out";
}
