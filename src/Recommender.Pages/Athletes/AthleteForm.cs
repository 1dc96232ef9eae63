using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Primitives;
using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Pages.Ask;
using Recommender.Pages.Words;

namespace Recommender.Pages.Athletes;

/// <summary>A profile as a form and back: what the form does not show stays as it is saved. Days are typed as dates and kept as counted from today.</summary>
/// <param name="profile">The saved profile, as it stands today.</param>
/// <param name="edition">Words, questions and tests.</param>
/// <param name="today">Today.</param>
internal sealed class AthleteForm(AthleteProfile profile, Edition edition, DateOnly today)
{
    /// <summary>Most competitions of a form.</summary>
    public const int MostCompetitions = 20;

    /// <summary>Most restrictions of a form.</summary>
    public const int MostRestrictions = 20;

    private const int Far = 420;
    private const int Past = -30;
    private const int MostReview = 3650;
    private readonly List<Fault> faults = [];

    /// <summary>The fields as the profile fills them.</summary>
    public Typed Filled()
    {
        var fields = new Dictionary<string, StringValues>(StringComparer.Ordinal);
        var asked = TypedWriter.Of(AskSource.Of(profile), edition.Knowledge.Questions);
        foreach (var name in asked.Names)
        {
            fields[name] = new StringValues([.. asked.All(name)]);
        }

        Put("name", profile.Name);
        Put("nextTestOn", profile.NextTestOn is { } next ? Dates.Field(next) : null);
        foreach (var (c, i) in (profile.Competitions ?? []).OrderBy(c => c.DaysToStart).Select((c, i) => (c, i)))
        {
            Put($"competitions.{i}.date", Day(c.DaysToStart));
            Put($"competitions.{i}.days", Text(c.Days));
            Put($"competitions.{i}.priority", c.Priority);
        }

        foreach (var (c, i) in (profile.Complaints ?? []).Select((c, i) => (c, i)))
        {
            Put($"complaints.{i}.since", Day(-c.DaysSinceOnset));
        }

        foreach (var (r, i) in (profile.Athlete.Restrictions ?? []).Select((r, i) => (r, i)))
        {
            var at = $"athlete.restrictions.{i}";
            Put(at + ".region", r.Region);
            Put(at + ".side", r.Side);
            Put(at + ".maxTissueLoad", Text(r.MaxTissueLoad));
            Put(at + ".maxLoadingRate", r.MaxLoadingRate);
            Put(at + ".noImpact", r.NoImpact == true ? RequestForm.Yes : null);
            Put(at + ".stage", r.Stage);
            Put(at + ".review", Day(r.ReviewInDays));
            Put(at + ".by", r.By);
        }

        Put("layoff.weeks", Text(profile.Athlete.Layoff?.Weeks));
        Put("layoff.reason", profile.Athlete.Layoff?.Reason);
        Put("tests.on", profile.Tests is { } tests ? Day(-(tests.DaysAgo ?? 0)) : null);
        Put("tests.trials", Text(profile.Tests?.Trials));
        foreach (var (pointer, _, value) in profile.Tests?.Readings() ?? [])
        {
            Put("tests." + pointer.Replace('/', '.'), Text(value));
        }

        return new Typed(fields);

        void Put(string name, string? value)
        {
            if (value is not null)
            {
                fields[name] = value;
            }
        }

        string? Day(int? away) => away is { } days ? Dates.Field(today.AddDays(days)) : null;
    }

    /// <summary>The fields with the rows of each list moved together, so that a row stands where its fault will point.</summary>
    public static Typed Compact(Typed typed)
    {
        var fields = typed.Names.ToDictionary(n => n, n => new StringValues([.. typed.All(n)]), StringComparer.Ordinal);
        foreach (var (list, field, most) in new[] { ("competitions", "date", MostCompetitions), ("athlete.restrictions", "region", MostRestrictions) })
        {
            var rows = typed.Rows(list, field, most);
            foreach (var name in typed.Names.Where(n => n.StartsWith(list + ".", StringComparison.Ordinal)))
            {
                fields.Remove(name);
            }

            foreach (var (row, at) in rows.Select((r, i) => (r, i)))
            {
                var prefix = $"{list}.{row}.";
                foreach (var name in typed.Names.Where(n => n.StartsWith(prefix, StringComparison.Ordinal)))
                {
                    fields[$"{list}.{at}.{name[prefix.Length..]}"] = new StringValues([.. typed.All(name)]);
                }
            }
        }

        return new Typed(fields);
    }

    /// <summary>The profile that the form holds, and what could not be read.</summary>
    /// <param name="typed">Fields, rows moved together.</param>
    public (AthleteProfile Profile, IReadOnlyList<Fault> Faults) Read(Typed typed)
    {
        var (request, unread) = new RequestForm(typed, AskSource.Of(profile), edition).Read();
        faults.AddRange(unread);
        var complaintRows = typed.Rows("complaints", "region", RequestForm.MostComplaints);
        var before = profile.Setting ?? new SettingFacts();
        var place = typed.Get("setting.place");
        var setting = before with { Place = place, Equipment = place == before.Place ? before.Equipment : null, Minutes = request.Setting?.Minutes };
        var competitions = typed.Rows("competitions", "date", MostCompetitions).Select(i => Competition(typed, i)).ToList();
        var restrictions = typed.Rows("athlete.restrictions", "region", MostRestrictions).Select(i => Restriction(typed, i)).ToList();
        var next = typed.Get("nextTestOn") is { } text ? Date("/nextTestOn", text) : null;
        return (profile with
        {
            Name = typed.Get("name") ?? "",
            Athlete = request.Athlete! with
            {
                Ref = profile.Athlete.Ref,
                Competence = profile.Athlete.Competence,
                OneRepMaxKg = profile.Athlete.OneRepMaxKg,
                Restrictions = restrictions.Count == 0 ? null : restrictions,
                Layoff = Number(typed, "layoff.weeks", "/athlete/layoff/weeks") is { } weeks ? new LayoffFacts { Weeks = weeks, Reason = typed.Get("layoff.reason") } : null,
            },
            Phase = request.Phase,
            WeeksToCompetition = request.WeeksToCompetition,
            Setting = setting == new SettingFacts() ? null : setting,
            Complaints = request.Complaints is { } complaints ? [.. complaints.Select((c, i) => c with { DaysSinceOnset = Ago(typed, $"complaints.{complaintRows[i]}.since", $"/complaints/{i}/since") })] : null,
            Needs = request.Needs,
            Competitions = competitions.Count == 0 ? null : competitions,
            Tests = Tests(typed),
            NextTestOn = next,
            AsOf = today,
        }, faults);
    }

    /// <summary>A fault of the checks, pointing to the field that holds it here.</summary>
    public static Fault Placed(Fault fault) => fault.Pointer.Split('/') is [_, "athlete", "restrictions", _]
        ? fault with { Pointer = fault.Pointer + "/maxTissueLoad", Message = "The restriction says no limit; give a tissue load, a fastest loading, no landings or a stage." }
        : Moved(fault);

    private static Fault Moved(Fault fault) => FormWords.Plain(fault with
    {
        Pointer = fault.Pointer
            .Replace("/daysToStart", "/date", StringComparison.Ordinal)
            .Replace("/reviewInDays", "/review", StringComparison.Ordinal)
            .Replace("/daysSinceOnset", "/since", StringComparison.Ordinal)
            .Replace("/tests/daysAgo", "/tests/on", StringComparison.Ordinal)
            .Replace("/athlete/layoff", "/layoff", StringComparison.Ordinal),
        Message = fault is { Pointer: "/weeksToCompetition", Code: "contradiction" } ? "Both a competition and weeks are given; leave the weeks empty." : fault.Message.Replace("maxTissueLoad", "the highest tissue load", StringComparison.Ordinal),
    });

    private Competition Competition(Typed typed, int i)
    {
        var at = $"competitions.{i}";
        var days = Date($"/competitions/{i}/date", typed.Get(at + ".date")!) is { } date ? date.DayNumber - today.DayNumber : (int?)null;
        if (days is < Past or > Far)
        {
            faults.Add(new Fault($"/competitions/{i}/date", "out-of-range", days > 0 ? "This is more than 60 weeks away; give a nearer one." : "This is more than a month ago; take it out."));
            days = 0;
        }

        return new Competition { DaysToStart = days ?? 0, Days = (int?)Number(typed, at + ".days", $"/competitions/{i}/days"), Priority = typed.Get(at + ".priority") };
    }

    private Restriction Restriction(Typed typed, int i)
    {
        var at = $"athlete.restrictions.{i}";
        var review = typed.Get(at + ".review") is { } text && Date($"/athlete/restrictions/{i}/review", text) is { } date ? Math.Clamp(date.DayNumber - today.DayNumber, -MostReview, MostReview) : (int?)null;
        return new Restriction
        {
            Region = typed.Get(at + ".region"),
            Side = typed.Get(at + ".side"),
            MaxTissueLoad = Number(typed, at + ".maxTissueLoad", $"/athlete/restrictions/{i}/maxTissueLoad"),
            MaxLoadingRate = typed.Get(at + ".maxLoadingRate"),
            NoImpact = typed.Get(at + ".noImpact") is null ? null : true,
            Stage = typed.Get(at + ".stage"),
            ReviewInDays = review,
            By = typed.Get(at + ".by"),
        };
    }

    /// <summary>Tests: readings of the form over those that it does not show.</summary>
    private TestResults? Tests(Typed typed)
    {
        var kept = profile.Tests is { } saved ? JsonSerializer.SerializeToNode(new RecommendationRequest { Tests = saved }, WireJson.Compact.RecommendationRequest)!["tests"]!.AsObject() : [];
        foreach (var pointer in edition.Knowledge.Tests.Tests.SelectMany(Pointers))
        {
            var value = Number(typed, "tests." + pointer.Replace('/', '.'), "/tests/" + pointer);
            var steps = pointer.Split('/');
            var at = kept;
            if (steps.Length == 2)
            {
                if (at[steps[0]] is not JsonObject inner)
                {
                    if (value is null)
                    {
                        continue;
                    }

                    at[steps[0]] = inner = [];
                }

                at = inner;
            }

            if (value is { } number)
            {
                at[steps[^1]] = number;
            }
            else
            {
                at.Remove(steps[^1]);
            }
        }

        foreach (var empty in kept.Where(m => m.Value is JsonObject { Count: 0 }).Select(m => m.Key).ToList())
        {
            kept.Remove(empty);
        }

        kept.Remove("daysAgo");
        kept.Remove("trials");
        if (kept.Count == 0)
        {
            return null;
        }

        var results = new JsonObject { ["tests"] = kept.DeepClone() }.Deserialize(WireJson.Default.RecommendationRequest)!.Tests!;
        return results with { DaysAgo = Ago(typed, "tests.on", "/tests/on"), Trials = (int?)Number(typed, "tests.trials", "/tests/trials") };
    }

    /// <summary>Fields of a test: one, or one a side.</summary>
    public static IEnumerable<string> Pointers(TestDefinition test) => TestResults.Sided.Contains(test.Id, StringComparer.Ordinal) ? [test.Id + "/left", test.Id + "/right"] : [test.Id];

    private int? Ago(Typed typed, string name, string pointer)
    {
        if (typed.Get(name) is not { } text || Date(pointer, text) is not { } date)
        {
            return null;
        }

        if (date > today)
        {
            faults.Add(new Fault(pointer, "out-of-range", "This day is still to come."));
            return null;
        }

        return today.DayNumber - date.DayNumber;
    }

    private DateOnly? Date(string pointer, string text)
    {
        if (Dates.Read(text) is { } date)
        {
            return date;
        }

        faults.Add(new Fault(pointer, "wrong-type", "This is no date; give year, month and day."));
        return null;
    }

    private decimal? Number(Typed typed, string name, string pointer)
    {
        if (typed.Get(name) is not { } text)
        {
            return null;
        }

        if (decimal.TryParse(text.Replace(',', '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) && Math.Abs(number) < 1_000_000)
        {
            return number;
        }

        faults.Add(new Fault(pointer, "wrong-type", $"\"{(text.Length > 20 ? text[..20] + "..." : text)}\" is not a number; give one, such as 5 or 2.5."));
        return null;
    }

    private static string? Text(decimal? number) => number?.ToString("0.####", CultureInfo.InvariantCulture);
}
