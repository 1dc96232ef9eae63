using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;
using Recommender.Pages.Words;

namespace Recommender.Pages.Decisions;

/// <summary>A request in lines that a person reads; the chief ones, since the whole stands below as data.</summary>
internal static class RequestLines
{
    /// <summary>Name and value of each that was sent.</summary>
    public static IEnumerable<(string Name, string Value)> Of(RecommendationRequest request, ExerciseCatalogue catalogue)
    {
        var (words, athlete, setting) = (catalogue.Vocabulary, request.Athlete!, request.Setting);
        if (athlete.Ref is { } reference)
        {
            yield return ("Ref", reference);
        }

        if (request.Coach is { } coach)
        {
            yield return ("Coach", coach);
        }

        var person = new[] { athlete.AgeYears is { } age ? $"{age} years old" : null, athlete.TrainingAgeYears is { } years ? $"{Say.Number(years)} years of strength training" : null, athlete.Sex }.OfType<string>().ToList();
        if (person.Count > 0)
        {
            yield return ("Athlete", string.Join(", ", person));
        }

        if (setting?.Equipment is { } equipment)
        {
            yield return ("With", equipment.Count == 0 ? "nothing" : string.Join(", ", equipment.Select(e => Say.InSentence(words.Equipment, e))));
        }

        if (setting?.Minutes is { } minutes)
        {
            yield return ("Minutes", Say.Number(minutes));
        }

        foreach (var complaint in request.Complaints ?? [])
        {
            yield return ("Sore", Complaint(complaint, words));
        }

        if (request.RedFlags is { Count: > 0 } flags)
        {
            yield return ("Red flags", string.Join(", ", flags.Select(f => Say.InSentence(words.RedFlags, f))));
        }

        foreach (var restriction in athlete.Restrictions ?? [])
        {
            yield return ("Restriction", $"{Say.InSentence(words.Regions, restriction.Region ?? "")}{(restriction.By is { } by ? $", by {by}" : "")}{(restriction.ReviewInDays is { } days ? $", {(days < 0 ? "review overdue" : $"review in {days} days")}" : "")}");
        }

        if (request.Needs is { Count: > 0 } needs)
        {
            yield return ("Wanted", string.Join(", ", needs.Select(n => $"{words.Qualities.Find(n.Quality ?? "")?.Label.ToLowerInvariant() ?? words.Aliases.Find(n.Quality ?? "")?.Label.ToLowerInvariant() ?? n.Quality}{(n.Importance is { } importance ? $" ({importance})" : "")}")));
        }

        if (request.Exclude is { Count: > 0 } exclude)
        {
            yield return ("Not wanted", string.Join(", ", exclude.Select(e => catalogue.Find(e)?.Name ?? e)));
        }

        if (request.Recent is { Count: > 0 } recent)
        {
            yield return ("Done lately", string.Join(", ", recent.Take(8).Select(r => $"{catalogue.Find(r.Exercise ?? "")?.Name ?? r.Exercise} {r.DaysAgo} d ago")) + (recent.Count > 8 ? $" and {recent.Count - 8} more" : ""));
        }
    }

    private static string Complaint(Complaint c, Vocabulary words)
    {
        var parts = new List<string> { $"{(c.Side is "left" or "right" ? c.Side + " " : "")}{Say.InSentence(words.Regions, c.Region!)}, pain {c.Pain} of 10" };
        if (c.NextMorning is { } morning)
        {
            parts.Add($"next morning {morning}");
        }

        parts.Add(c.RedFlags is null ? "red flags not asked" : c.RedFlags.Count == 0 ? "no red flag" : string.Join(", ", c.RedFlags.Select(f => Say.InSentence(words.RedFlags, f))));
        return string.Join("; ", parts) + (c.Note is { Length: > 0 } note ? $". “{note}”" : "");
    }
}
