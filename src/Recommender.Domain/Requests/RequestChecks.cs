using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using static Recommender.Domain.Requests.FaultText;

namespace Recommender.Domain.Requests;

/// <summary>Collects every fault of a request that was understood: required fields, ranges, unknown ids, contradictions.</summary>
public sealed partial class RequestChecks
{
    private readonly Vocabulary vocabulary;
    private readonly ExerciseCatalogue catalogue;
    private readonly KnowledgeBase knowledge;
    private readonly List<Fault> faults = [];

    private RequestChecks(ExerciseCatalogue catalogue, KnowledgeBase knowledge)
    {
        vocabulary = catalogue.Vocabulary;
        this.catalogue = catalogue;
        this.knowledge = knowledge;
    }

    /// <summary>All faults of a request, in the order of the body; empty when it can be answered.</summary>
    public static IReadOnlyList<Fault> Of(RecommendationRequest request, ExerciseCatalogue catalogue, KnowledgeBase knowledge)
    {
        var checks = new RequestChecks(catalogue, knowledge);
        checks.Check(request);
        return checks.faults;
    }

    private void Check(RecommendationRequest request)
    {
        Athlete(request.Athlete);
        if (request.Phase is null)
        {
            Add("/phase", "required", $"phase is missing; give one of {List(vocabulary.Phases)}.");
        }
        else
        {
            Known("/phase", request.Phase, vocabulary.Phases, "phase");
        }

        Reference("/coach", request.Coach, "coach");
        Range("/weeksToCompetition", request.WeeksToCompetition, 0, 60, "weeks");
        Week(request);
        Setting(request.Setting);
        Each("/complaints", request.Complaints, 12, Complaint);
        Ids("/redFlags", request.RedFlags, vocabulary.RedFlags, "red flag", 50);
        Each("/needs", request.Needs, 30, Need);
        if (request.Tests is { } tests)
        {
            Tests(tests);
        }

        Each("/recent", request.Recent, 200, Recent);
        Each("/sessionRatings", request.SessionRatings, 60, Rating);
        Each("/exclude", request.Exclude, 1000, (pointer, id) => KnownExercise(pointer, id));
        if (request.Only is { } only)
        {
            Ids("/only/support", only.Support, vocabulary.Supports, "support", 10);
            Ids("/only/pattern", only.Pattern, vocabulary.Patterns, "pattern", 50);
            Each("/only/quality", only.Quality, 50, Quality);
            Ids("/only/loadingRate", only.LoadingRate, vocabulary.LoadingRates, "loading rate", 10);
        }

        Range("/count", request.Count, 1, 30, "picks");
        Range("/perFamily", request.PerFamily, 1, 10, "picks of one family");
    }

    /// <summary>An id of the caller's own.</summary>
    private void Reference(string pointer, string? value, string name)
    {
        if (value is not null && (value.Length is 0 or > 100 || value.Any(char.IsControl)))
        {
            Add(pointer, "out-of-range", $"{name} is empty, longer than 100 characters or holds control characters; give 1 to 100 printable characters.");
        }
    }

    /// <summary>The ref of an athlete stands in addresses, where dots alone lead elsewhere however they are written (RFC 3986, 5.2.4).</summary>
    private void AthleteRef(string? value)
    {
        Reference("/athlete/ref", value, "ref");
        if (value is "." or "..")
        {
            Add("/athlete/ref", "out-of-range", "ref is . or .. alone; give another, since it stands in addresses and these lead elsewhere there.");
        }
    }

    private void Athlete(AthleteFacts? athlete)
    {
        if (athlete is null || (athlete.EventGroup is null && athlete.Event is null))
        {
            Add(athlete is null ? "/athlete" : "/athlete/eventGroup", "required", $"the event group is missing; give athlete.eventGroup, one of {List(vocabulary.EventGroups)}, or athlete.event.");
            if (athlete is null)
            {
                return;
            }
        }

        AthleteRef(athlete.Ref);
        var groupKnown = Known("/athlete/eventGroup", athlete.EventGroup, vocabulary.EventGroups, "event group");
        if (Known("/athlete/event", athlete.Event, vocabulary.Events, "event") && groupKnown
            && athlete.Event is { } eventId && athlete.EventGroup is { } group
            && vocabulary.Events.Find(eventId)!.EventGroup is { } right && right != group)
        {
            Add("/athlete/event", "contradiction", $"{eventId} is not an event of {group}; its group is {right}.");
        }

        Range("/athlete/ageYears", athlete.AgeYears, 5, 100, "years");
        Range("/athlete/trainingAgeYears", athlete.TrainingAgeYears, 0, 80, "years");
        if (athlete.AgeYears is { } age && athlete.TrainingAgeYears is { } trained && trained > age)
        {
            Add("/athlete/trainingAgeYears", "contradiction", $"training age {Text(trained)} is above age {age}; give at most the age.");
        }

        OneOf("/athlete/sex", athlete.Sex, "female", "male");
        Range("/athlete/bodyMassKg", athlete.BodyMassKg, 20, 250, "kg");
        Range("/athlete/statureCm", athlete.StatureCm, 100, 250, "cm");
        if (athlete.OneRepMaxKg is { } maxima)
        {
            if (maxima.Count > 200)
            {
                Add("/athlete/oneRepMaxKg", "too-many", $"{maxima.Count} maxima; give at most 200.");
            }

            foreach (var (exercise, kg) in maxima.Take(200))
            {
                var pointer = $"/athlete/oneRepMaxKg/{Escape(exercise)}";
                KnownExercise(pointer, exercise);
                Range(pointer, kg, 1, 600, "kg");
            }
        }

        Ids("/athlete/competence", athlete.Competence, vocabulary.Competences, "competence", 50);
        OneOf("/athlete/takeOffLeg", athlete.TakeOffLeg, "left", "right");
        OneOf("/athlete/leadLeg", athlete.LeadLeg, "left", "right");
        OneOf("/athlete/throwingSide", athlete.ThrowingSide, "left", "right");
        OneOf("/athlete/startFrontFoot", athlete.StartFrontFoot, "left", "right");
        Care(athlete);
    }

    private void Setting(SettingFacts? setting)
    {
        if (setting is null)
        {
            return;
        }

        Known("/setting/place", setting.Place, vocabulary.Places, "place");
        Ids("/setting/equipment", setting.Equipment, vocabulary.Equipment, "equipment", 100);
        Range("/setting/minutes", setting.Minutes, 1, 600, "minutes");
        Ids("/setting/limits", setting.Limits, vocabulary.SettingLimits, "setting limit", 10);
    }

    private void Complaint(string pointer, Complaint complaint)
    {
        if (complaint.Region is null)
        {
            Add($"{pointer}/region", "required", "the region is missing; GET /v1/vocabulary lists the regions.");
        }

        Known($"{pointer}/region", complaint.Region, vocabulary.Regions, "region");
        OneOf($"{pointer}/side", complaint.Side, "left", "right", "both");
        if (complaint.Pain is null)
        {
            Add($"{pointer}/pain", "required", "pain is missing; give a whole number from 0 to 10.");
        }

        Range($"{pointer}/pain", complaint.Pain, 0, 10, "");
        OneOf($"{pointer}/nextMorning", complaint.NextMorning, "settled", "same", "worse");
        Course(pointer, complaint);
        Ids($"{pointer}/redFlags", complaint.RedFlags, vocabulary.RedFlags, "red flag", 50);
        if (complaint.Note?.Length > 500)
        {
            Add($"{pointer}/note", "out-of-range", $"the note has {complaint.Note.Length} characters; give at most 500.");
        }
    }

    private void Need(string pointer, CoachNeed need)
    {
        if (need.Quality is null)
        {
            Add($"{pointer}/quality", "required", "the quality is missing; GET /v1/vocabulary lists the qualities.");
        }
        else
        {
            Quality($"{pointer}/quality", need.Quality);
        }

        Known($"{pointer}/importance", need.Importance, vocabulary.Importances, "importance");
        Range($"{pointer}/weight", need.Weight, 0, 1, "");
        if (need.Importance is not null && need.Weight is not null)
        {
            Add($"{pointer}/weight", "contradiction", "both importance and weight are given; give one of them.");
        }
    }

    private void Recent(string pointer, RecentWork work)
    {
        if (work.Exercise is null)
        {
            Add($"{pointer}/exercise", "required", "the exercise is missing; GET /v1/exercises lists them.");
        }
        else
        {
            KnownExercise($"{pointer}/exercise", work.Exercise);
        }

        if (work.DaysAgo is null)
        {
            Add($"{pointer}/daysAgo", "required", "daysAgo is missing; give whole days from 0 to 365.");
        }

        Range($"{pointer}/daysAgo", work.DaysAgo, 0, 365, "days");
        Range($"{pointer}/sets", work.Sets, 1, 50, "sets");
        Range($"{pointer}/amount", work.Amount, 0.1m, 10000, "");
        Known($"{pointer}/unit", work.Unit, vocabulary.DoseUnits, "unit");
    }

    private void Rating(string pointer, SessionRating rating)
    {
        foreach (var (name, value, wanted) in new[] { ("daysAgo", rating.DaysAgo, "whole days from 0 to 28"), ("effort", rating.Effort, "0 to 10"), ("minutes", rating.Minutes, "1 to 600") })
        {
            if (value is null)
            {
                Add($"{pointer}/{name}", "required", $"{name} is missing; give {wanted}.");
            }
        }

        Range($"{pointer}/daysAgo", rating.DaysAgo, 0, 28, "days");
        Range($"{pointer}/effort", rating.Effort, 0, 10, "");
        Range($"{pointer}/minutes", rating.Minutes, 1, 600, "minutes");
    }

    private void Tests(TestResults tests)
    {
        foreach (var (pointer, test, value) in tests.Readings())
        {
            var definition = knowledge.Tests.Tests.FirstOrDefault(t => t.Id == test);
            if (definition is not null && (value < definition.Min || value > definition.Max))
            {
                Add($"/tests/{pointer}", "impossible-value", $"{definition.Label} of {Text(value)} {definition.Unit} is not possible; give {Text(definition.Min)} to {Text(definition.Max)}.");
            }
        }

        OneOf("/tests/singleLegSquatRating/left", tests.SingleLegSquatRating?.Left, "good", "fair", "poor");
        OneOf("/tests/singleLegSquatRating/right", tests.SingleLegSquatRating?.Right, "good", "fair", "poor");
        OneOf("/tests/sprintStart", tests.SprintStart, "first-movement", "gate", "gun");
        Range("/tests/testPain", tests.TestPain, 0, 10, "");
        Range("/tests/daysAgo", tests.DaysAgo, 0, 3650, "days");
        Range("/tests/trials", tests.Trials, 1, 50, "trials");
        Each("/tests/loadedJumps", tests.LoadedJumps, 20, (pointer, jump) =>
        {
            Range($"{pointer}/loadKg", jump.LoadKg, 0, 400, "kg");
            Range($"{pointer}/heightCm", jump.HeightCm, 1, 100, "cm");
        });
        Each("/tests/sprintSplits", tests.SprintSplits, 40, (pointer, split) =>
        {
            Range($"{pointer}/distanceM", split.DistanceM, 1, 400, "m");
            Range($"{pointer}/seconds", split.Seconds, 0.1m, 120, "s");
        });
        Splits(tests.SprintSplits);
        foreach (var (exercise, lift) in tests.RepetitionsToFailure ?? new Dictionary<string, LiftToFailure>())
        {
            var pointer = $"/tests/repetitionsToFailure/{Escape(exercise)}";
            KnownExercise(pointer, exercise);
            Range($"{pointer}/loadKg", lift?.LoadKg, 1, 600, "kg");
            Range($"{pointer}/repetitions", lift?.Repetitions, 1, 30, "repetitions");
        }

        if (tests.YBalance is { } balance)
        {
            Range("/tests/yBalance/legLengthCm", balance.LegLengthCm, 40, 140, "cm");
            Reach("/tests/yBalance/left", balance.Left);
            Reach("/tests/yBalance/right", balance.Right);
        }
    }

    /// <summary>A longer distance takes longer, and no stretch is run faster than anybody runs.</summary>
    private void Splits(IReadOnlyList<SprintSplit>? splits)
    {
        if (splits is null || splits.Count > 40)
        {
            return;
        }

        var fastest = knowledge.Tests.Use.FastestMetresPerSecond.Value;
        var (metres, seconds) = (0m, 0m);
        foreach (var (i, split) in splits.Index().Where(s => s.Item is { DistanceM: > 0, Seconds: > 0 }).OrderBy(s => s.Item.DistanceM).ThenBy(s => s.Item.Seconds))
        {
            var (further, later) = (split.DistanceM!.Value - metres, split.Seconds!.Value - seconds);
            if (further > later * fastest)
            {
                Add($"/tests/sprintSplits/{i}/seconds", "impossible-value",
                    $"{Text(split.DistanceM.Value)} m after {Text(split.Seconds.Value)} s would be faster than {Text(fastest)} m/s; give the time since the start at each distance.");
            }

            (metres, seconds) = (split.DistanceM.Value, split.Seconds.Value);
        }
    }

    private void Reach(string pointer, YBalanceReach? reach)
    {
        Range($"{pointer}/anteriorCm", reach?.AnteriorCm, 1, 160, "cm");
        Range($"{pointer}/posteromedialCm", reach?.PosteromedialCm, 1, 160, "cm");
        Range($"{pointer}/posterolateralCm", reach?.PosterolateralCm, 1, 160, "cm");
    }

    private void Quality(string pointer, string id)
    {
        if (!vocabulary.Aliases.Has(id))
        {
            Known(pointer, id, vocabulary.Qualities, "quality");
        }
    }

    private void KnownExercise(string pointer, string id)
    {
        if (catalogue.PositionOf(id) < 0)
        {
            Add(pointer, "unknown-id", $"{Quote(id)} is not an exercise of the catalogue; GET /v1/exercises?q= finds one.");
        }
    }

    private bool Known<T>(string pointer, string? id, Terms<T> terms, string what) where T : Term
    {
        if (id is null || terms.Has(id))
        {
            return true;
        }

        Add(pointer, "unknown-id", $"{Quote(id)} is not a known {what}; give one of {List(terms)}.");
        return false;
    }

    private void Ids<T>(string pointer, IReadOnlyList<string>? ids, Terms<T> terms, string what, int most) where T : Term =>
        Each(pointer, ids, most, (at, id) => Known(at, id, terms, what));

    private void Each<T>(string pointer, IReadOnlyList<T>? items, int most, Action<string, T> check)
    {
        if (items is null)
        {
            return;
        }

        if (items.Count > most)
        {
            Add(pointer, "too-many", $"{items.Count} entries; give at most {most}.");
            return;
        }

        for (var i = 0; i < items.Count; i++)
        {
            if (items[i] is null)
            {
                Add($"{pointer}/{i}", "required", "the entry is null; give a value or leave it out.");
            }
            else
            {
                check($"{pointer}/{i}", items[i]);
            }
        }
    }

    private void OneOf(string pointer, string? value, params ReadOnlySpan<string> allowed)
    {
        if (value is not null && !allowed.Contains(value))
        {
            Add(pointer, "unknown-id", $"{Quote(value)} is not known here; give {string.Join(", ", allowed.ToArray())}.");
        }
    }

    private void Range(string pointer, decimal? value, decimal low, decimal high, string unit)
    {
        if (value is { } v && (v < low || v > high))
        {
            var name = pointer[(pointer.LastIndexOf('/') + 1)..];
            Add(pointer, "out-of-range", $"{name} is {Text(v)}; give {Text(low)} to {Text(high)}{(unit.Length == 0 ? "" : " " + unit)}.");
        }
    }

    private void Add(string pointer, string code, string message) => faults.Add(new Fault(pointer, code, message));

    private static string Text(decimal value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static string List<T>(Terms<T> terms) where T : Term =>
        terms.Count <= 20 ? string.Join(", ", terms.Select(t => t.Id)) : $"the {terms.Count} ids that GET /v1/vocabulary lists";
}
