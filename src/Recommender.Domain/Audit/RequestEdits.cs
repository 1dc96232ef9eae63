using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Audit;

/// <summary>
/// The changes of a request that are tried for one exercise, by the rules: things it is done with, needs it serves or the coach named, whole weeks, places it
/// can be done at, phases, and whole points of pain. What nobody can change (age, event, what a clinician wrote) is not among them; nor is taking something
/// away from others, which would say nothing about this exercise.
/// </summary>
internal sealed class RequestEdits
{
    private static readonly string[] Importances = ["low", "medium", "high"];
    private const int MostNeeds = 30;
    private const decimal MostWeeks = 60;

    private readonly RecommendationRequest request;
    private readonly Situation situation;
    private readonly Exercise exercise;
    private readonly string at;
    private readonly List<RequestEdit> edits = [];
    private EditRule rule = null!;

    private RequestEdits(Question question, Situation situation, Exercise exercise)
    {
        (request, at) = (question.Context, question.At);
        (this.situation, this.exercise) = (situation, exercise);
    }

    private Vocabulary Words => situation.Catalogue.Vocabulary;

    /// <summary>The changes, cheapest first; equal ones in the order of the rules.</summary>
    /// <param name="question">What was asked.</param>
    /// <param name="situation">Its situation.</param>
    /// <param name="exercise">The exercise it is about.</param>
    /// <param name="mayLowerPain">Whether lower pain is tried.</param>
    public static IReadOnlyList<RequestEdit> Of(Question question, Situation situation, Exercise exercise, bool mayLowerPain)
    {
        var list = new RequestEdits(question, situation, exercise);
        foreach (var rule in situation.Knowledge.Audit.Counterfactuals.Edits.Where(r => mayLowerPain || r.Kind != "pain"))
        {
            list.rule = rule;
            list.Add(rule.Kind);
        }

        // A record whose personal part was erased may lack what a request must have; a change is only to add no fault.
        var faults = RequestChecks.Of(question.Context, situation.Catalogue, situation.Knowledge).Count;
        return [.. list.edits.Where(e => RequestChecks.Of(e.Apply(question.Context), situation.Catalogue, situation.Knowledge).Count <= faults).OrderBy(e => e.Cost)];
    }

    private void Add(string kind)
    {
        switch (kind)
        {
            case "equipment":
                Equipment();
                break;
            case "need":
                Needs();
                break;
            case "weeks":
                Weeks();
                break;
            case "place":
                Places();
                break;
            case "pain":
                Pain();
                break;
            default:
                Phases();
                break;
        }
    }

    private void Equipment()
    {
        var have = request.Setting?.Equipment;
        foreach (var thing in exercise.Equipment.SelectMany(set => set).Distinct(StringComparer.Ordinal).Where(t => (situation.EquipmentMask & Words.Equipment.Mask([t])) == 0))
        {
            string[] whole = [.. have ?? situation.Place.Equipment, thing];
            Edit(thing, "equipment:" + thing, 1, have is null ? ("/setting/equipment", null, whole) : ("/setting/equipment/-", null, thing), $"there were also: {Words.Equipment.InSentence(thing)}",
                // With another place in the same pair the list stays that of the place as sent: it is told whole.
                r => r with { Setting = (r.Setting ?? new SettingFacts()) with { Equipment = [.. r.Setting?.Equipment ?? situation.Place.Equipment, thing] } });
        }
    }

    private void Places()
    {
        foreach (var place in exercise.Places.Where(p => p != situation.Place.Id))
        {
            Edit(place, "place", 1, ("/setting/place", request.Setting?.Place, place), $"it were done at: {Words.Places.InSentence(place)}",
                r => r with { Setting = (r.Setting ?? new SettingFacts()) with { Place = place } });
        }
    }

    private void Phases()
    {
        foreach (var phase in Words.Phases.Where(p => p.Id != request.Phase))
        {
            Edit(phase.Id, "phase", 1, ("/phase", request.Phase, phase.Id), $"the phase were {phase.Label.ToLowerInvariant()}", r => r with { Phase = phase.Id });
        }
    }

    /// <summary>A competition that is moved moves the peak with it; without one the weeks themselves.</summary>
    private void Weeks()
    {
        if (request.Competitions is { Count: > 0 } competitions)
        {
            if (Peak(competitions) is var i and >= 0)
            {
                var days = competitions[i].DaysToStart!.Value;
                foreach (var weeks in Enumerable.Range(-rule.Most!.Value, (2 * rule.Most.Value) + 1).Where(w => w != 0 && days + (7 * w) >= 0))
                {
                    Edit(weeks < 0 ? "nearer" : "further", "weeks", Math.Abs(weeks), ($"/competitions/{i}/daysToStart", days, days + (7 * weeks)), $"the competition were {Count(Math.Abs(weeks), "week")} {(weeks < 0 ? "nearer" : "further off")}",
                        r => r with { Competitions = [.. r.Competitions!.Select((c, n) => n == i ? c with { DaysToStart = days + (7 * weeks) } : c)] });
                }
            }

            return;
        }

        var now = situation.WeeksToCompetition;
        for (var step = 1; step <= rule.Most; step++)
        {
            // Whole weeks: from five and a half the next nearer is five.
            Set("nearer", decimal.Ceiling(now) - step, step);
            Set("further", decimal.Floor(now) + step, step);
        }

        void Set(string direction, decimal weeks, int step)
        {
            if (weeks is >= 0 and <= MostWeeks)
            {
                Edit(direction, "weeks", step, ("/weeksToCompetition", request.WeeksToCompetition, weeks), $"{Count((int)weeks, "week")} were left to the competition", r => r with { WeeksToCompetition = weeks });
            }
        }
    }

    /// <summary>The competition that gives the weeks, or -1.</summary>
    private int Peak(IReadOnlyList<Competition> competitions)
    {
        for (var i = 0; i < competitions.Count; i++)
        {
            var alone = request with { Competitions = [competitions[i]] };
            if (competitions[i].DaysToStart >= 0 && Requests.Calendar.Of(alone, situation.EventGroup, situation.Knowledge.Week).Weeks is { } weeks && weeks == situation.Calendar.Weeks
                && (competitions[i].Priority ?? "main") == PeakPriority(competitions))
            {
                return i;
            }
        }

        return -1;
    }

    private string? PeakPriority(IReadOnlyList<Competition> competitions) => situation.Knowledge.Week.Competitions.PeaksFor
        .FirstOrDefault(p => competitions.Any(c => (c.Priority ?? "main") == p && c.DaysToStart!.Value + (c.Days ?? 1) > 0));

    private void Pain()
    {
        foreach (var (complaint, i) in (request.Complaints ?? []).Select((c, i) => (c, i)))
        {
            for (var less = 1; less <= Math.Min(rule.Most!.Value, complaint.Pain!.Value); less++)
            {
                var to = complaint.Pain.Value - less;
                Edit($"{i}", $"pain:{i}", less, ($"/complaints/{i}/pain", complaint.Pain.Value, to), $"pain at the {Words.Regions.InSentence(complaint.Region!)} were {to} of 10",
                    r => r with { Complaints = [.. r.Complaints!.Select((c, n) => n == i ? c with { Pain = to } : c)] });
            }
        }
    }

    private void Needs()
    {
        var sent = request.Needs ?? [];
        foreach (var (need, i) in sent.Select((n, i) => (n, i)).Where(n => n.n.Weight is null))
        {
            var now = Array.IndexOf(Importances, need.Importance ?? "medium");
            var label = Words.Aliases.Find(need.Quality!)?.Label.ToLowerInvariant() ?? Words.Qualities.InSentence(need.Quality!);
            foreach (var to in Enumerable.Range(0, Importances.Length).Where(t => t != now))
            {
                Edit($"{i}:{(to > now ? "more" : "less")}", $"need:{i}", Math.Abs(to - now), ($"/needs/{i}/importance", need.Importance, Importances[to]), $"the need for {label} were {Importances[to]}",
                    r => r with { Needs = [.. r.Needs!.Select(n => ReferenceEquals(n, need) ? n with { Importance = Importances[to] } : n)] });
            }

            // Found by itself, not by its place in the list, which another change of a pair may move.
            Edit($"{i}:less", $"need:{i}", now + 1, ($"/needs/{i}", new Dictionary<string, string> { ["quality"] = need.Quality!, ["importance"] = Importances[now] }, null), $"{label} were not asked for",
                r => r with { Needs = [.. r.Needs!.Where(n => !ReferenceEquals(n, need))] });
        }

        foreach (var quality in exercise.Qualities.Keys.Order(StringComparer.Ordinal).Where(q => sent.Count < MostNeeds && !sent.Any(n => n.Quality == q)))
        {
            for (var importance = 0; importance < Importances.Length; importance++)
            {
                var (added, body) = (new CoachNeed { Quality = quality, Importance = Importances[importance] }, new Dictionary<string, string> { ["quality"] = quality, ["importance"] = Importances[importance] });
                Edit(quality, "need:" + quality, importance + 1, request.Needs is null ? ("/needs", null, new[] { body }) : ("/needs/-", null, body), $"{Words.Qualities.InSentence(quality)} were asked for with {Importances[importance]} importance",
                    r => r with { Needs = [.. r.Needs ?? [], added] });
            }
        }
    }

    private void Edit(string slot, string place, int steps, (string Pointer, object? From, object? To) change, string phrase, Func<RecommendationRequest, RecommendationRequest> apply) =>
        edits.Add(new RequestEdit(EditKind.Of(rule.Kind), $"{rule.Kind}:{slot}", place, rule.Cost * steps, new RequestChange(at + change.Pointer, change.From, change.To), phrase, apply));

    private static string Count(int n, string what) => string.Create(CultureInfo.InvariantCulture, $"{n} {what}{(n == 1 ? "" : "s")}");
}
