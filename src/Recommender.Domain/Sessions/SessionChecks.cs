using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>Collects every fault of a request for a session.</summary>
public static class SessionChecks
{
    private const int MostLocked = 12;
    private const int MostAvoided = 1000;
    private const int MostBudgets = 30;
    private const decimal LargestBudget = 100_000;

    /// <summary>All faults, in the order of the body; empty when it can be answered.</summary>
    public static IReadOnlyList<Fault> Of(SessionRequest request, ExerciseCatalogue catalogue, KnowledgeBase knowledge)
    {
        var faults = new List<Fault>();
        if (request.Context is null)
        {
            faults.Add(new Fault("/context", "required", "the context is missing; give athlete and phase as for a recommendation."));
        }
        else
        {
            faults.AddRange(RequestChecks.Of(request.Context, catalogue, knowledge).Select(f => f with { Pointer = "/context" + f.Pointer }));
        }

        var most = knowledge.Session.Picks.Most;
        Slots(request.Slots, most, faults);
        Budgets(request.Budgets, catalogue.Vocabulary, faults);
        var locked = Exercises("/locked", request.Locked, MostLocked, catalogue, faults);
        var avoided = Exercises("/avoid", request.Avoid, MostAvoided, catalogue, faults);
        Locks(request, locked, avoided, catalogue, faults);
        if (request.PreviousDecision is { } previous && !Guid.TryParseExact(previous, "D", out _))
        {
            faults.Add(new Fault("/previousDecision", "unknown-id", "this is not the id of a decision; give the decisionId of an earlier answer."));
        }

        return faults;
    }

    private static void Slots(SlotRange? slots, int most, List<Fault> faults)
    {
        foreach (var (name, value) in new[] { ("min", slots?.Min), ("max", slots?.Max) })
        {
            if (value < 1 || value > most)
            {
                faults.Add(new Fault($"/slots/{name}", "out-of-range", $"{name} is {value}; give 1 to {most} exercises."));
            }
        }

        if (slots is { Min: { } min, Max: { } max } && min > max)
        {
            faults.Add(new Fault("/slots/min", "contradiction", $"min {min} is above max {max}; give a min of at most the max."));
        }
    }

    private static void Budgets(IReadOnlyDictionary<string, decimal>? budgets, Vocabulary vocabulary, List<Fault> faults)
    {
        if (budgets?.Count > MostBudgets)
        {
            faults.Add(new Fault("/budgets", "too-many", $"{budgets.Count} budgets; give at most {MostBudgets}."));
            return;
        }

        foreach (var (region, budget) in budgets ?? new Dictionary<string, decimal>())
        {
            var pointer = $"/budgets/{FaultText.Escape(region)}";
            if (!vocabulary.Regions.Has(region))
            {
                faults.Add(new Fault(pointer, "unknown-id", $"{FaultText.Quote(region)} is not a known region; GET /v1/vocabulary lists the regions."));
            }

            if (budget is <= 0 or > LargestBudget)
            {
                faults.Add(new Fault(pointer, "out-of-range", string.Create(CultureInfo.InvariantCulture, $"the budget is {budget:0.####}; give more than 0, to {LargestBudget:0}.")));
            }
        }
    }

    private static List<string> Exercises(string at, IReadOnlyList<string>? ids, int most, ExerciseCatalogue catalogue, List<Fault> faults)
    {
        var known = new List<string>();
        if (ids?.Count > most)
        {
            faults.Add(new Fault(at, "too-many", $"{ids.Count} entries; give at most {most}."));
            return known;
        }

        for (var i = 0; i < (ids?.Count ?? 0); i++)
        {
            if (ids![i] is not { } id)
            {
                faults.Add(new Fault($"{at}/{i}", "required", "the entry is null; give a value or leave it out."));
            }
            else if (catalogue.PositionOf(id) < 0)
            {
                faults.Add(new Fault($"{at}/{i}", "unknown-id", $"{FaultText.Quote(id)} is not an exercise of the catalogue; GET /v1/exercises?q= finds one."));
            }
            else
            {
                known.Add(id);
            }
        }

        return known;
    }

    /// <summary>Locks that cannot all hold, whatever the athlete.</summary>
    private static void Locks(SessionRequest request, List<string> locked, List<string> avoided, ExerciseCatalogue catalogue, List<Fault> faults)
    {
        var gone = avoided.Concat(request.Context?.Exclude?.Where(id => id is not null) ?? []).ToHashSet(StringComparer.Ordinal);
        var families = new Dictionary<string, string>(StringComparer.Ordinal);
        for (var i = 0; i < locked.Count; i++)
        {
            var family = catalogue.Find(locked[i])!.Family;
            if (gone.Contains(locked[i]))
            {
                faults.Add(new Fault($"/locked/{i}", "contradiction", $"{locked[i]} is locked and also avoided or excluded; give it once."));
            }
            else if (families.TryGetValue(family, out var other))
            {
                faults.Add(new Fault($"/locked/{i}", "contradiction", other == locked[i]
                    ? $"{other} is locked twice; give it once."
                    : $"{locked[i]} and {other} are forms of one another; a session holds one of a family, so lock one of them."));
            }
            else
            {
                families[family] = locked[i];
            }
        }

        if (request.Slots?.Max is { } max && families.Count > max)
        {
            faults.Add(new Fault("/locked", "contradiction", $"{families.Count} exercises are locked, but slots.max is {max}; lock fewer or allow more."));
        }
    }
}
