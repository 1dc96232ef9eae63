using System.Globalization;
using Recommender.Answers.Wire;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Squad;

/// <summary>A row of a spreadsheet read into a profile: over the saved one where there is one, so that what the spreadsheet does not hold is kept.</summary>
/// <param name="Number">Number of the row in the spreadsheet, headings being 1.</param>
/// <param name="Profile">The profile as it would be saved.</param>
/// <param name="Before">The saved one, or null.</param>
/// <param name="Faults">Column id to what is wrong; the empty id for what is about none.</param>
/// <param name="Changes">What would change, in words; empty for a new athlete and when nothing does.</param>
public sealed record ImportRow(int Number, AthleteProfile Profile, AthleteProfile? Before, IReadOnlyList<(string Column, string Message)> Faults, IReadOnlyList<string> Changes)
{
    /// <summary>Reads a row.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="cells">Column id to cell, those that were mapped.</param>
    /// <param name="squad">Saved profiles.</param>
    /// <param name="words">Vocabulary.</param>
    /// <param name="check">Checks a profile.</param>
    /// <param name="today">Today; days are kept as counted from it.</param>
    public static ImportRow Read(int number, IReadOnlyDictionary<string, string> cells, IReadOnlyList<AthleteProfile> squad, Vocabulary words, Func<AthleteProfile, IReadOnlyList<Fault>> check, DateOnly today)
    {
        var faults = new List<(string Column, string Message)>();
        var name = cells.GetValueOrDefault("name", "");
        var reference = cells.GetValueOrDefault("ref", "");
        var before = squad.FirstOrDefault(p => reference.Length > 0 ? p.Ref == reference : name.Length > 0 && string.Equals(p.Name, name, StringComparison.OrdinalIgnoreCase));
        reference = before?.Ref ?? (reference.Length > 0 ? reference : Slug(name));
        var profile = before ?? new AthleteProfile(reference, name, new AthleteFacts());
        var athlete = profile.Athlete;
        if (Has("event", out var cell))
        {
            var (id, isGroup) = Event(cell);
            athlete = athlete with { Event = isGroup ? null : id, EventGroup = isGroup ? id : id is null ? athlete.EventGroup : words.Events.Find(id)?.EventGroup };
        }

        athlete = athlete with
        {
            AgeYears = Has("age", out cell) ? Whole("age", cell) : athlete.AgeYears,
            TrainingAgeYears = Has("trainingAge", out cell) ? Number("trainingAge", cell) : athlete.TrainingAgeYears,
            Sex = Has("sex", out cell) ? Sex(cell) : athlete.Sex,
            BodyMassKg = Has("bodyMass", out cell) ? Number("bodyMass", cell) : athlete.BodyMassKg,
            Layoff = Layoff(athlete.Layoff),
        };
        var setting = profile.Setting ?? new SettingFacts();
        if (Has("place", out cell))
        {
            var place = Word("place", cell, words.Places, "place");
            setting = setting with { Place = place, Equipment = place == setting.Place ? setting.Equipment : null };
        }

        setting = setting with { Minutes = Has("minutes", out cell) ? Number("minutes", cell) : setting.Minutes };
        profile = profile with
        {
            Name = name.Length > 0 ? name : profile.Name,
            Athlete = athlete,
            Phase = Has("phase", out cell) ? Word("phase", cell, words.Phases, "phase") : profile.Phase,
            WeeksToCompetition = Has("weeks", out cell) ? Number("weeks", cell) : profile.WeeksToCompetition,
            Setting = setting == new SettingFacts() ? null : setting,
            Competitions = Competitions(profile.Competitions),
            AsOf = today,
            Complaints = Complaints(),
            Needs = Has("need", out cell) ? Needs(cell) : profile.Needs,
        };
        foreach (var fault in check(profile).Where(f => faults.TrueForAll(x => x.Column != SquadColumn.Of(f)?.Id)))
        {
            faults.Add((SquadColumn.Of(fault)?.Id ?? "", char.ToUpperInvariant(fault.Message[0]) + fault.Message[1..]));
        }

        return new ImportRow(number, profile, before, faults, before is null ? [] : Differences(before, profile, words, today));

        bool Has(string column, out string cell)
        {
            var there = cells.TryGetValue(column, out var value);
            cell = value ?? "";
            return there;
        }

        (string? Id, bool IsGroup) Event(string text)
        {
            if (text.Length == 0)
            {
                return (null, false);
            }

            return Find(words.Events, text) is { } e ? (e, false) : Find(words.EventGroups, text) is { } g ? (g, true) : (Word("event", text, words.Events, "event"), false);
        }

        string? Word<T>(string column, string text, Terms<T> terms, string what) where T : Term
        {
            if (text.Length == 0)
            {
                return null;
            }

            if (Find(terms, text) is { } id)
            {
                return id;
            }

            faults.Add((column, $"\"{Cut(text)}\" is no {what} known here; give {(terms.Count <= 8 ? string.Join(", ", terms.Select(t => t.Label)) : $"one of the {terms.Count} of the ask page")}."));
            return null;
        }

        string? Sex(string text) => SquadColumn.Plain(text) switch { "" => null, "f" or "female" or "w" or "woman" => "female", "m" or "male" or "man" => "male", var other => other };

        LayoffFacts? Layoff(LayoffFacts? saved)
        {
            var weeks = Has("off", out var off) ? Number("off", off) : saved?.Weeks;
            var reason = Has("offReason", out var why) ? why.Length == 0 ? null : why.ToLowerInvariant() : saved?.Reason;
            return weeks is null or 0 ? null : new LayoffFacts { Weeks = weeks, Reason = reason };
        }

        // The column is the next main competition; others that are saved stay.
        IReadOnlyList<Competition>? Competitions(IReadOnlyList<Competition>? saved)
        {
            if (!Has("competition", out var date))
            {
                return saved;
            }

            var others = (saved ?? []).Where(c => c != SquadCsv.Main(saved)).ToList();
            var day = date.Length == 0 ? null : CellDate.Read(date);
            if (date.Length > 0 && day is null)
            {
                faults.Add(("competition", $"\"{Cut(date)}\" is no date that can be read in one way; write it as {today.Year}-11-28."));
            }

            List<Competition> all = [.. day is { } d ? [(SquadCsv.Main(saved) ?? new Competition()) with { DaysToStart = d.DayNumber - today.DayNumber }] : Array.Empty<Competition>(), .. others];
            return all.Count == 0 ? null : all;
        }

        IReadOnlyList<Complaint>? Complaints()
        {
            if (!Has("sore", out var region))
            {
                return profile.Complaints;
            }

            if (region.Length == 0)
            {
                return null;
            }

            var id = Word("sore", region, words.Regions, "region");
            var kept = profile.Complaints?.FirstOrDefault(c => c.Region == id) ?? new Complaint();
            var morning = Has("nextMorning", out var typed) ? typed.Length == 0 ? null : typed.ToLowerInvariant() : kept.NextMorning;
            var complaint = kept with
            {
                Region = id,
                Side = Has("side", out var side) ? SquadColumn.Plain(side) switch { "" => null, "l" or "left" => "left", "r" or "right" => "right", "b" or "both" => "both", var other => other } : kept.Side,
                Pain = Has("pain", out var pain) ? Whole("pain", pain) : kept.Pain,
                NextMorning = morning,
                Mornings = kept.Mornings is [{ } latest, ..] && latest == morning ? kept.Mornings : null,
            };
            return id is null ? profile.Complaints : [complaint, .. (profile.Complaints ?? []).Where(c => c.Region != id)];
        }

        IReadOnlyList<CoachNeed>? Needs(string text)
        {
            if (text.Length == 0)
            {
                return null;
            }

            var id = Find(words.Aliases, text) ?? Word("need", text, words.Qualities, "quality");
            return id is null || profile.Needs?.Any(n => n.Quality == id) == true ? profile.Needs : [new CoachNeed { Quality = id }, .. profile.Needs ?? []];
        }

        decimal? Number(string column, string text)
        {
            if (text.Length == 0)
            {
                return null;
            }

            if (decimal.TryParse(text.Replace(',', '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
            {
                return number;
            }

            faults.Add((column, $"\"{Cut(text)}\" is not a number."));
            return null;
        }

        int? Whole(string column, string text)
        {
            if (Number(column, text) is not { } number)
            {
                return null;
            }

            if (number == decimal.Truncate(number) && Math.Abs(number) < 1000)
            {
                return (int)number;
            }

            faults.Add((column, $"{Cut(text)} is not a whole number."));
            return null;
        }
    }

    /// <summary>The term by id or label, in any case and spelling of its gaps.</summary>
    private static string? Find<T>(Terms<T> terms, string text) where T : Term
    {
        var plain = SquadColumn.Plain(text);
        return terms.FirstOrDefault(t => SquadColumn.Plain(t.Id) == plain || SquadColumn.Plain(t.Label) == plain)?.Id;
    }

    private static List<string> Differences(AthleteProfile before, AthleteProfile after, Vocabulary words, DateOnly today) =>
        [.. SquadColumn.All
            .Select(c => (c, was: SquadCsv.Cell(before, c.Id, words, today), now: SquadCsv.Cell(after, c.Id, words, today)))
            .Where(d => d.was != d.now)
            .Select(d => d.was.Length == 0 ? $"{d.c.Label}: {d.now}" : d.now.Length == 0 ? $"{d.c.Label}: no longer {d.was}" : $"{d.c.Label}: {d.was} → {d.now}")];

    private static string Slug(string name) => string.Join('-', name.ToLowerInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(SquadColumn.Plain).Where(p => p.Length > 0)) is { Length: > 0 } slug ? slug[..Math.Min(60, slug.Length)] : "";

    private static string Cut(string text) => text.Length > 30 ? text[..30] + "..." : text;
}
