namespace Recommender.Domain.Requests;

/// <content>The calendar, the rest of the week and the kit.</content>
public sealed partial class RequestChecks
{
    private void Week(RecommendationRequest request)
    {
        Each("/competitions", request.Competitions, 20, Competition);
        if (request is { Competitions.Count: > 0, WeeksToCompetition: not null })
        {
            Add("/weeksToCompetition", "contradiction", "both competitions and weeksToCompetition are given; give one of them.");
        }

        OneOf("/weekKind", request.WeekKind, [.. knowledge.Week.WeekKinds.Select(w => w.Id)]);
        Each("/training", request.Training, 60, Training);
        OneOf("/units", request.Units, "metric", "us");
        OneOf("/setting/slot", request.Setting?.Slot, [.. knowledge.Week.Slots.Select(s => s.Id)]);
        if (request.Setting?.Kit is { } kit)
        {
            Kit(kit);
        }
    }

    private void Competition(string at, Competition competition)
    {
        Required($"{at}/daysToStart", competition.DaysToStart, "whole days from -30 to 420");
        Range($"{at}/daysToStart", competition.DaysToStart, -30, 420, "days");
        Range($"{at}/days", competition.Days, 1, 30, "days");
        OneOf($"{at}/priority", competition.Priority, "main", "build-up", "training-through");
    }

    private void Training(string at, TrainingDay day)
    {
        string[] kinds = [.. knowledge.Week.Kinds.Select(k => k.Id)];
        if (day.Kind is null)
        {
            Add($"{at}/kind", "required", $"the kind is missing; give {string.Join(", ", kinds)}.");
        }

        OneOf($"{at}/kind", day.Kind, kinds);
        Required($"{at}/daysFromToday", day.DaysFromToday, "whole days from -14 to 14");
        Range($"{at}/daysFromToday", day.DaysFromToday, -14, 14, "days");
        Range($"{at}/minutes", day.Minutes, 1, 600, "minutes");
        Range($"{at}/contacts", day.Contacts, 0, 5000, "contacts");
        Range($"{at}/throws", day.Throws, 0, 1000, "throws");
        Range($"{at}/effort", day.Effort, 0, 10, "");
    }

    private void Kit(KitFacts kit)
    {
        if (kit.Dumbbell is { } dumbbell)
        {
            Required("/setting/kit/dumbbell/maxKg", dumbbell.MaxKg, "the heaviest, 0.5 to 100 kg");
            Range("/setting/kit/dumbbell/maxKg", dumbbell.MaxKg, 0.5m, 100, "kg");
            Range("/setting/kit/dumbbell/stepKg", dumbbell.StepKg, 0.25m, 20, "kg");
        }

        if (kit.Barbell is not { } barbell)
        {
            return;
        }

        Required("/setting/kit/barbell/barKg", barbell.BarKg, "the bar, 1 to 50 kg");
        Range("/setting/kit/barbell/barKg", barbell.BarKg, 1, 50, "kg");
        if (barbell.PlatesKg is null)
        {
            Add("/setting/kit/barbell/platesKg", "required", "platesKg is missing; give the plate sizes, an empty list for the bar alone.");
        }

        Each("/setting/kit/barbell/platesKg", barbell.PlatesKg, 12, (at, plate) => Range(at, plate, 0.25m, 50, "kg"));
    }

    private void Required<T>(string pointer, T? value, string wanted) where T : struct
    {
        if (value is null)
        {
            Add(pointer, "required", $"{pointer[(pointer.LastIndexOf('/') + 1)..]} is missing; give {wanted}.");
        }
    }
}
