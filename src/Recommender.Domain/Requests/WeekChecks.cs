using System.Globalization;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Requests;

/// <summary>Faults of the calendar, the rest of the week and the kit.</summary>
internal static class WeekChecks
{
    private static readonly string[] Priorities = ["main", "build-up", "training-through"];
    private static readonly string[] Units = ["metric", "us"];

    /// <summary>Adds every fault, in the order of the body.</summary>
    public static void Of(RecommendationRequest request, WeekRules rules, List<Fault> faults)
    {
        Each("/competitions", request.Competitions, 20, faults, (at, competition) => Competition(at, competition, faults));
        if (request is { Competitions.Count: > 0, WeeksToCompetition: not null })
        {
            faults.Add(new Fault("/weeksToCompetition", "contradiction", "both competitions and weeksToCompetition are given; give one of them."));
        }

        OneOf("/weekKind", request.WeekKind, rules.WeekKinds.Select(w => w.Id), faults);
        Each("/training", request.Training, 60, faults, (at, day) => Training(at, day, rules, faults));
        OneOf("/units", request.Units, Units, faults);
        OneOf("/setting/slot", request.Setting?.Slot, rules.Slots.Select(s => s.Id), faults);
        if (request.Setting?.Kit is { } kit)
        {
            Kit(kit, faults);
        }
    }

    private static void Competition(string at, Competition competition, List<Fault> faults)
    {
        Required($"{at}/daysToStart", competition.DaysToStart, "whole days from -30 to 420", faults);
        Range($"{at}/daysToStart", competition.DaysToStart, -30, 420, "days", faults);
        Range($"{at}/days", competition.Days, 1, 30, "days", faults);
        OneOf($"{at}/priority", competition.Priority, Priorities, faults);
    }

    private static void Training(string at, TrainingDay day, WeekRules rules, List<Fault> faults)
    {
        var kinds = rules.Kinds.Select(k => k.Id).ToList();
        if (day.Kind is null)
        {
            faults.Add(new Fault($"{at}/kind", "required", $"the kind is missing; give {string.Join(", ", kinds)}."));
        }

        OneOf($"{at}/kind", day.Kind, kinds, faults);
        Required($"{at}/daysFromToday", day.DaysFromToday, "whole days from -14 to 14", faults);
        Range($"{at}/daysFromToday", day.DaysFromToday, -14, 14, "days", faults);
        Range($"{at}/minutes", day.Minutes, 1, 600, "minutes", faults);
        Range($"{at}/contacts", day.Contacts, 0, 5000, "contacts", faults);
        Range($"{at}/throws", day.Throws, 0, 1000, "throws", faults);
        Range($"{at}/effort", day.Effort, 0, 10, "", faults);
    }

    private static void Kit(KitFacts kit, List<Fault> faults)
    {
        if (kit.Dumbbell is { } dumbbell)
        {
            Required("/setting/kit/dumbbell/maxKg", dumbbell.MaxKg, "the heaviest, 0.5 to 100 kg", faults);
            Range("/setting/kit/dumbbell/maxKg", dumbbell.MaxKg, 0.5m, 100, "kg", faults);
            Range("/setting/kit/dumbbell/stepKg", dumbbell.StepKg, 0.25m, 20, "kg", faults);
        }

        if (kit.Barbell is { } barbell)
        {
            Required("/setting/kit/barbell/barKg", barbell.BarKg, "the bar, 1 to 50 kg", faults);
            Range("/setting/kit/barbell/barKg", barbell.BarKg, 1, 50, "kg", faults);
            if (barbell.PlatesKg is null)
            {
                faults.Add(new Fault("/setting/kit/barbell/platesKg", "required", "platesKg is missing; give the plate sizes, an empty list for the bar alone."));
            }
            else if (barbell.PlatesKg.Count > 12)
            {
                faults.Add(new Fault("/setting/kit/barbell/platesKg", "too-many", $"{barbell.PlatesKg.Count} sizes; give at most 12."));
            }

            for (var i = 0; i < Math.Min(12, barbell.PlatesKg?.Count ?? 0); i++)
            {
                Range($"/setting/kit/barbell/platesKg/{i}", barbell.PlatesKg![i], 0.25m, 50, "kg", faults);
            }
        }
    }

    private static void Each<T>(string at, IReadOnlyList<T>? items, int most, List<Fault> faults, Action<string, T> check) where T : class
    {
        if (items?.Count > most)
        {
            faults.Add(new Fault(at, "too-many", $"{items.Count} entries; give at most {most}."));
            return;
        }

        for (var i = 0; i < (items?.Count ?? 0); i++)
        {
            if (items![i] is { } item)
            {
                check($"{at}/{i}", item);
            }
            else
            {
                faults.Add(new Fault($"{at}/{i}", "required", "the entry is null; give a value or leave it out."));
            }
        }
    }

    private static void Required<T>(string at, T? value, string wanted, List<Fault> faults) where T : struct
    {
        if (value is null)
        {
            faults.Add(new Fault(at, "required", $"{at[(at.LastIndexOf('/') + 1)..]} is missing; give {wanted}."));
        }
    }

    private static void OneOf(string at, string? value, IEnumerable<string> allowed, List<Fault> faults)
    {
        if (value is not null && !allowed.Contains(value, StringComparer.Ordinal))
        {
            var said = value.Length > 60 ? value[..60] + "..." : value;
            faults.Add(new Fault(at, "unknown-id", $"\"{said}\" is not known here; give {string.Join(", ", allowed)}."));
        }
    }

    private static void Range(string at, decimal? value, decimal low, decimal high, string unit, List<Fault> faults)
    {
        if (value < low || value > high)
        {
            faults.Add(new Fault(at, "out-of-range",
                string.Create(CultureInfo.InvariantCulture, $"{at[(at.LastIndexOf('/') + 1)..]} is {value:0.####}; give {low:0.####} to {high:0.####}{(unit.Length == 0 ? "" : " " + unit)}.")));
        }
    }
}
