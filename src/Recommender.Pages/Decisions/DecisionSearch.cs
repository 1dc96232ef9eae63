using Microsoft.AspNetCore.Http;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Catalogue;
using Recommender.Storage.Decisions;

namespace Recommender.Pages.Decisions;

/// <summary>A search of the record as it was typed: names do as well as ids, and what cannot be used is told and left out.</summary>
/// <param name="Typed">What stands in the fields.</param>
/// <param name="Filter">What is searched for.</param>
/// <param name="After">Where the page before ended, or null.</param>
/// <param name="Faults">Field to what is wrong with it.</param>
public sealed record DecisionSearch(IReadOnlyDictionary<string, string> Typed, DecisionFilter Filter, DecisionPlace? After, IReadOnlyDictionary<string, string> Faults)
{
    /// <summary>Name of the field that carries the place.</summary>
    public const string Place = "after";

    /// <summary>Fields in the order of the form.</summary>
    public static IReadOnlyList<string> Fields { get; } = ["athlete", "exercise", "kind", "status", "coach", "from", "to", "version"];

    /// <summary>Words of the answer's status.</summary>
    public static IReadOnlyList<(string Id, string Label)> Statuses { get; } = [("answered", "answered"), ("referred", "referred to a clinician"), ("nothing-eligible", "nothing eligible")];

    /// <summary>Whether anything is searched for.</summary>
    public bool Any => Typed.Count > 0;

    /// <summary>Reads a query.</summary>
    /// <param name="query">Query.</param>
    /// <param name="squad">Saved athletes; a name stands for its ref.</param>
    /// <param name="catalogue">Exercises; a name stands for its id.</param>
    /// <param name="versions">Kept versions; the beginning of one stands for it where no other begins so.</param>
    public static DecisionSearch Of(IQueryCollection query, IReadOnlyList<AthleteProfile> squad, ExerciseCatalogue catalogue, IReadOnlyList<string> versions)
    {
        var typed = Fields.Select(f => (Field: f, Value: query[f].FirstOrDefault()?.Trim() ?? "")).Where(f => f.Value.Length is > 0 and <= 200).ToDictionary(f => f.Field, f => f.Value, StringComparer.Ordinal);
        var faults = new Dictionary<string, string>(StringComparer.Ordinal);
        var (from, to) = (Day("from", wholeDay: false), Day("to", wholeDay: true));
        if (from >= to)
        {
            faults["to"] = "lies before the first day; no decision can be found.";
        }

        DecisionPlace? after = null;
        if (query[Place].FirstOrDefault() is { Length: > 0 } place && (after = FindDecisions.PlaceOf(place)) is null)
        {
            faults[Place] = "The link to this page of the record was cut short; this is the first page.";
        }

        var filter = new DecisionFilter
        {
            Athlete = typed.TryGetValue("athlete", out var athlete) ? squad.FirstOrDefault(a => a.Name.Equals(athlete, StringComparison.OrdinalIgnoreCase))?.Ref ?? athlete : null,
            // An exercise may have left the catalogue since; so any id may be asked for.
            Exercise = typed.TryGetValue("exercise", out var exercise) ? ExerciseNamed.Id(exercise, catalogue) ?? exercise : null,
            Kind = One("kind", [.. DecisionKind.All.Select(k => k.Id)]),
            Status = One("status", [.. Statuses.Select(s => s.Id)]),
            Coach = typed.GetValueOrDefault("coach"),
            From = from,
            To = to,
            Version = typed.TryGetValue("version", out var version) ? versions.Where(v => v.StartsWith(version, StringComparison.Ordinal)).Distinct(StringComparer.Ordinal).ToList() is [var only] ? only : version : null,
        };
        return new DecisionSearch(typed, filter, after, faults);

        DateTimeOffset? Day(string field, bool wholeDay)
        {
            if (!typed.TryGetValue(field, out var text))
            {
                return null;
            }

            var day = FindDecisions.MomentOf(text, wholeDay);
            if (day is null)
            {
                faults[field] = "is no day; write it like 2026-03-01.";
            }

            return day;
        }

        string? One(string field, IReadOnlyList<string> words)
        {
            if (typed.TryGetValue(field, out var word) && !words.Contains(word, StringComparer.Ordinal))
            {
                faults[field] = $"is none that there is: {string.Join(", ", words)}.";
                return null;
            }

            return typed.GetValueOrDefault(field);
        }
    }

    /// <summary>The page of the record with this search, as an address.</summary>
    /// <param name="after">Where it goes on; null for the first page.</param>
    public string Address(DecisionPlace? after) => "/decisions" + Query([.. Fields.Where(Typed.ContainsKey).Select(f => (f, Typed[f])), .. after is { } place ? [(Place, FindDecisions.TextOf(place))] : Array.Empty<(string, string)>()]);

    /// <summary>The record as a file, with this search.</summary>
    /// <param name="format">csv or ndjson.</param>
    public string Export(string format) => "/v1/decisions/export" + Query(
        [.. new (string Name, string? Value)[]
        {
            ("format", format), ("athlete", Filter.Athlete), ("exercise", Filter.Exercise), ("kind", Filter.Kind), ("status", Filter.Status), ("coach", Filter.Coach),
            ("from", Filter.From is null ? null : Typed["from"]), ("to", Filter.To is null ? null : Typed["to"]), ("version", Filter.Version),
        }.Where(p => p.Value is not null).Select(p => (p.Name, p.Value!))]);

    private static string Query(IReadOnlyList<(string Name, string Value)> parts) => parts.Count == 0 ? "" : "?" + string.Join('&', parts.Select(p => $"{p.Name}={Uri.EscapeDataString(p.Value)}"));
}

/// <summary>Exercises by what a person types.</summary>
internal static class ExerciseNamed
{
    /// <summary>The id of an exercise that is typed by its id, its name or another of its names; null when the catalogue has none.</summary>
    public static string? Id(string typed, ExerciseCatalogue catalogue)
    {
        var text = typed.Trim();
        return catalogue.PositionOf(text) >= 0 ? text
            : (catalogue.Exercises.FirstOrDefault(e => e.Name.Equals(text, StringComparison.OrdinalIgnoreCase))
                ?? catalogue.Exercises.FirstOrDefault(e => e.Synonyms.Contains(text, StringComparer.OrdinalIgnoreCase)))?.Id;
    }
}
