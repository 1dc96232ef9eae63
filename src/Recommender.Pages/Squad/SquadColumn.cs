using Recommender.Domain.Requests;

namespace Recommender.Pages.Squad;

/// <summary>What a column of a coach's spreadsheet may hold.</summary>
/// <param name="Id">Id in forms and in the header of an export.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Pointers">Places in a profile that its faults point to.</param>
/// <param name="Headings">Headings that are taken for it, lower case, letters and digits only.</param>
public sealed record SquadColumn(string Id, string Label, IReadOnlyList<string> Pointers, IReadOnlyList<string> Headings)
{
    /// <summary>Every column, in the order of an export.</summary>
    public static IReadOnlyList<SquadColumn> All { get; } =
    [
        new("ref", "Ref", ["/ref"], ["ref", "id", "reference", "number", "bib", "athleteid", "squadno"]),
        new("name", "Name", ["/name"], ["name", "athlete", "fullname"]),
        new("event", "Event", ["/athlete/event", "/athlete/eventGroup", "/athlete"], ["event", "mainevent", "discipline", "eventgroup", "group"]),
        new("phase", "Phase", ["/phase"], ["phase", "block", "period"]),
        new("weeks", "Weeks to the competition", ["/weeksToCompetition"], ["weeks", "weekstocompetition", "weeksout", "weekstogo"]),
        new("competition", "Competition", ["/competitions/0/daysToStart", "/competitions"], ["competition", "comp", "nextcomp", "nextcompetition", "competitiondate", "compdate", "meet", "race"]),
        new("place", "Place", ["/setting/place"], ["place", "gym", "where", "venue"]),
        new("minutes", "Minutes", ["/setting/minutes"], ["minutes", "min", "time"]),
        new("age", "Age", ["/athlete/ageYears"], ["age", "ageyears", "years"]),
        new("trainingAge", "Years of strength training", ["/athlete/trainingAgeYears"], ["trainingage", "trainingageyears", "yearsoftraining", "yearslifting", "yrslifting"]),
        new("sex", "Sex", ["/athlete/sex"], ["sex", "gender"]),
        new("bodyMass", "Body mass, kg", ["/athlete/bodyMassKg"], ["bodymass", "bodymasskg", "mass", "weight", "weightkg", "kg"]),
        new("sore", "Sore region", ["/complaints/0/region"], ["sore", "soreregion", "complaint", "injury", "region", "hurts"]),
        new("side", "Sore side", ["/complaints/0/side"], ["side", "soreside"]),
        new("pain", "Pain, 0 to 10", ["/complaints/0/pain"], ["pain", "painscore", "painoutof10", "pain10"]),
        new("nextMorning", "Next morning", ["/complaints/0/nextMorning"], ["nextmorning", "morning"]),
        new("off", "Weeks off training", ["/athlete/layoff/weeks"], ["weeksoff", "off", "layoff", "weeksoftraining", "missedweeks"]),
        new("offReason", "Off because of", ["/athlete/layoff/reason"], ["offbecauseof", "offbecause", "reasonoff", "whyoff", "layoffreason"]),
        new("need", "Need", ["/needs/0/quality"], ["need", "needs", "focus", "priority"]),
    ];

    /// <summary>The column for a heading of a spreadsheet, or null.</summary>
    public static SquadColumn? Guess(string heading) => All.FirstOrDefault(c => c.Headings.Contains(Plain(heading), StringComparer.Ordinal));

    /// <summary>The column that a fault is about, or null.</summary>
    public static SquadColumn? Of(Fault fault) => All.FirstOrDefault(c => c.Pointers.Contains(fault.Pointer, StringComparer.Ordinal));

    /// <summary>A text by its letters and digits alone, lower case.</summary>
    public static string Plain(string text) => new([.. text.Where(char.IsLetterOrDigit).Select(char.ToLowerInvariant)]);
}
