using System.Globalization;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;

namespace Recommender.Pages.Ask;

/// <summary>Reads the form into a request. It only reads: what a value may be is for <see cref="RequestChecks"/> to say.</summary>
/// <param name="typed">The form.</param>
/// <param name="basis">The profile or earlier request it was filled from: what the form does not show goes along. Null when there is none.</param>
/// <param name="edition">Events' groups and the questions asked.</param>
public sealed class RequestForm(Typed typed, RecommendationRequest? basis, Edition edition)
{
    /// <summary>A list is exactly what is ticked; otherwise it is left to the usual.</summary>
    public const string Listed = "listed";

    /// <summary>A question answered with yes.</summary>
    public const string Yes = "yes";

    /// <summary>A question answered with no. One that was not asked has no value.</summary>
    public const string No = "no";

    /// <summary>Beside the questions of a list: all were asked, and what is not marked is no.</summary>
    public const string NoneOf = "none";

    /// <summary>Most complaints of a form.</summary>
    public const int MostComplaints = 12;

    private const int MostNeeds = 30;
    private const int MostMaxima = 200;
    private readonly List<Fault> faults = [];

    /// <summary>The red flags a set asks about, that of growing athletes last.</summary>
    public static IEnumerable<string> Asked(QuestionSet set) => set.Growing is null ? set.Flags : set.Flags.Append(set.Growing);

    /// <summary>The request, and what could not be read as a number.</summary>
    public (RecommendationRequest Request, IReadOnlyList<Fault> Faults) Read()
    {
        var weeks = Number("weeksToCompetition");
        var request = (basis ?? new RecommendationRequest()) with
        {
            Athlete = Athlete(basis?.Athlete ?? new AthleteFacts()),
            Phase = typed.Get("phase"),
            WeeksToCompetition = weeks,
            Competitions = weeks is null ? basis?.Competitions : null,
            Setting = Setting(basis?.Setting ?? new SettingFacts()),
            Complaints = Complaints(),
            RedFlags = Raised("redFlags", edition.Knowledge.Questions.General, basis?.RedFlags),
            Needs = Needs(),
            Count = Whole("count"),
        };
        return (request, faults);
    }

    /// <summary>The request for a whole session; faults point into it.</summary>
    public (SessionRequest Request, IReadOnlyList<Fault> Faults) ReadSession()
    {
        var (context, _) = Read();
        var unread = faults.Select(f => f with { Pointer = "/context" + f.Pointer }).ToList();
        faults.Clear();
        var slots = new SlotRange { Min = Whole("slots.min"), Max = Whole("slots.max") };
        return (new SessionRequest { Context = context with { Count = null }, Slots = slots == new SlotRange() ? null : slots }, [.. unread, .. faults]);
    }

    private AthleteFacts Athlete(AthleteFacts kept)
    {
        var chosen = typed.Get("athlete.event");
        var isGroup = chosen is not null && edition.Catalogue.Vocabulary.EventGroups.Has(chosen);
        return kept with
        {
            Ref = typed.Get("athlete.ref"),
            Event = isGroup ? null : chosen,
            EventGroup = isGroup ? chosen : chosen is null ? null : edition.Catalogue.Vocabulary.Events.Find(chosen)?.EventGroup,
            AgeYears = Whole("athlete.ageYears"),
            TrainingAgeYears = Number("athlete.trainingAgeYears"),
            Sex = typed.Get("athlete.sex"),
            BodyMassKg = Number("athlete.bodyMassKg"),
            TakeOffLeg = typed.Get("athlete.takeOffLeg"),
            Competence = Ticked("athlete.competence"),
            OneRepMaxKg = Maxima(),
        };
    }

    private Dictionary<string, decimal>? Maxima()
    {
        var maxima = new Dictionary<string, decimal>(StringComparer.Ordinal);
        foreach (var i in typed.Rows("athlete.oneRepMaxKg", "exercise", MostMaxima))
        {
            if (Number($"athlete.oneRepMaxKg.{i}.kg") is { } kg)
            {
                maxima[typed.Get($"athlete.oneRepMaxKg.{i}.exercise")!] = kg;
            }
        }

        return maxima.Count == 0 ? null : maxima;
    }

    private SettingFacts? Setting(SettingFacts kept)
    {
        var limits = typed.All("setting.limits");
        var setting = kept with
        {
            Place = typed.Get("setting.place"),
            Equipment = Ticked("setting.equipment"),
            Minutes = Number("setting.minutes"),
            Slot = typed.Get("setting.slot"),
            Limits = limits.Count == 0 ? null : limits,
        };
        return setting == new SettingFacts() ? null : setting;
    }

    private IReadOnlyList<Complaint>? Complaints()
    {
        var rows = typed.Rows("complaints", "region", MostComplaints);
        return rows.Count == 0 ? null : [.. rows.Select(Complaint)];
    }

    private Complaint Complaint(int row, int index)
    {
        var at = $"complaints.{row}";
        var region = typed.Get(at + ".region")!;
        var side = typed.Get(at + ".side");
        var morning = typed.Get(at + ".nextMorning");

        // The course that was saved goes along only with the complaint that it is about.
        var before = basis?.Complaints?.FirstOrDefault(c => c.Region == region && (c.Side ?? "both") == (side ?? "both"));
        var kept = before ?? new Complaint();
        var set = edition.Knowledge.Questions.Sets.FirstOrDefault(s => s.Regions.Contains(region, StringComparer.Ordinal));
        return kept with
        {
            Region = region,
            Side = side,
            Pain = Whole(at + ".pain", $"/complaints/{index}/pain"),
            NextMorning = morning,
            Mornings = kept.Mornings is [{ } latest, ..] && morning == latest ? kept.Mornings : null,
            Kind = typed.Get(at + ".kind"),
            Note = typed.Get(at + ".note"),
            RedFlags = set is null ? kept.RedFlags : Raised($"{at}.redFlags.{set.Id}", Asked(set), kept.RedFlags),
        };
    }

    private IReadOnlyList<CoachNeed>? Needs()
    {
        // A weight cannot be typed; it goes along with the need that it was sent for, the first with the first where one quality was sent twice.
        var weights = (basis?.Needs ?? []).Where(n => n.Importance is null).ToLookup(n => n.Quality, n => n.Weight).ToDictionary(g => g.Key!, g => new Queue<decimal?>(g), StringComparer.Ordinal);
        var rows = typed.Rows("needs", "quality", MostNeeds);
        return rows.Count == 0 ? null : [.. rows.Select(i =>
        {
            var quality = typed.Get($"needs.{i}.quality")!;
            var importance = typed.Get($"needs.{i}.importance");
            var weight = importance is null && weights.TryGetValue(quality, out var sent) && sent.TryDequeue(out var first) ? first : null;
            return new CoachNeed { Quality = quality, Importance = importance, Weight = weight };
        })];
    }

    /// <summary>Flags answered with yes; none when every question was answered with no; null when that is not known, which differs from none.</summary>
    private List<string>? Raised(string at, IEnumerable<string> asked, IReadOnlyList<string>? before)
    {
        var answers = asked.Select(flag => (flag, answer: typed.Get($"{at}.{flag}"))).ToList();

        // A flag that was sent before and is not among the questions stays: it was raised by someone who asked more.
        List<string> yes = [.. answers.Where(a => a.answer == Yes).Select(a => a.flag)];
        List<string> stay = [.. (before ?? []).Where(f => yes.Contains(f) || answers.All(a => a.flag != f))];
        List<string> raised = [.. stay, .. yes.Except(stay, StringComparer.Ordinal)];
        var all = typed.Get($"{at}.{NoneOf}") is not null || (answers.Exists(a => a.answer == No) && answers.Count(a => a.answer is null) <= Optional(answers.Count));
        return raised.Count > 0 ? raised : all ? [] : null;
    }

    /// <summary>The question for growing athletes, the sixth, may stay unanswered.</summary>
    private static int Optional(int questions) => questions > 5 ? 1 : 0;

    private IReadOnlyList<string>? Ticked(string name) => typed.Get(name + ".is") == Listed ? typed.All(name) : null;

    private int? Whole(string name, string? pointer = null)
    {
        if (Number(name, pointer) is not { } number)
        {
            return null;
        }

        if (number == decimal.Truncate(number) && Math.Abs(number) <= int.MaxValue)
        {
            return (int)number;
        }

        faults.Add(new Fault(pointer ?? Pointer(name), "wrong-type", $"{Last(name)} is {typed.Get(name)}; give a whole number."));
        return null;
    }

    private decimal? Number(string name, string? pointer = null)
    {
        if (typed.Get(name) is not { } text)
        {
            return null;
        }

        // A comma is what half of Europe types for a point.
        if (decimal.TryParse(text.Replace(',', '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
        {
            return number;
        }

        faults.Add(new Fault(pointer ?? Pointer(name), "wrong-type", $"\"{(text.Length > 20 ? text[..20] + "..." : text)}\" is not a number; give one, such as 5 or 2.5."));
        return null;
    }

    private static string Pointer(string name) => "/" + name.Replace('.', '/');

    private static string Last(string name) => name[(name.LastIndexOf('.') + 1)..];
}
