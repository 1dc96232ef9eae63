using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Audit;

/// <summary>
/// The list of changes written a second time, plainly and from the rules' own words: every single change and every pair is run through the whole pipeline, nothing
/// is skipped, put together or stopped early. What the product finds is held against this.
/// </summary>
internal static class NaiveChanges
{
    private static readonly string[] Levels = ["low", "medium", "high"];

    internal sealed record Change(string Place, int Cost, Func<RecommendationRequest, RecommendationRequest> Make);

    /// <summary>The cheapest cost at which the aim is reached: by single changes, or by pairs where no single one does; null where neither does.</summary>
    public static int? Cheapest(RecommendationRequest request, IReadOnlyList<Change> changes, Func<RecommendationRequest, bool> reached)
    {
        var singles = changes.Where(c => reached(c.Make(request))).Select(c => c.Cost).ToList();
        if (singles.Count > 0)
        {
            return singles.Min();
        }

        var pairs = new List<int>();
        for (var i = 0; i < changes.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (changes[i].Place != changes[j].Place && reached(changes[i].Make(changes[j].Make(request))))
                {
                    pairs.Add(changes[i].Cost + changes[j].Cost);
                }
            }
        }

        return pairs.Count > 0 ? pairs.Min() : null;
    }

    /// <summary>Every change of the rules' list for an exercise.</summary>
    public static IReadOnlyList<Change> Of(RecommendationRequest request, Exercise exercise, Edition edition)
    {
        var costs = edition.Knowledge.Audit.Counterfactuals.Edits.ToDictionary(e => e.Kind);
        var words = edition.Catalogue.Vocabulary;
        var list = new List<Change>();
        var place = words.Places.Find(request.Setting?.Place ?? edition.Knowledge.Defaults.Place)!;
        var have = request.Setting?.Equipment ?? place.Equipment;
        foreach (var thing in exercise.Equipment.SelectMany(s => s).Distinct().Where(t => !have.Contains(t) && !(t == "dumbbell" && have.Contains("dumbbells"))))
        {
            list.Add(new("thing " + thing, costs["equipment"].Cost, r => r with { Setting = (r.Setting ?? new()) with { Equipment = [.. r.Setting?.Equipment ?? place.Equipment, thing] } }));
        }

        list.AddRange(exercise.Places.Where(p => p != place.Id).Select(p => new Change("place", costs["place"].Cost, r => r with { Setting = (r.Setting ?? new()) with { Place = p } })));
        list.AddRange(words.Phases.Where(p => p.Id != request.Phase).Select(p => new Change("phase", costs["phase"].Cost, r => r with { Phase = p.Id })));
        var now = request.WeeksToCompetition ?? edition.Knowledge.Defaults.WeeksByPhase[words.Phases.IndexOf(request.Phase!)];
        for (var weeks = 0; weeks <= 60; weeks++)
        {
            // Whole weeks: a step nearer from 5.5 is 5, a step further 6.
            var steps = weeks < now ? (int)Math.Ceiling(now) - weeks : weeks - (int)Math.Floor(now);
            var to = (decimal)weeks;
            if (weeks != now && steps <= costs["weeks"].Most)
            {
                list.Add(new("weeks", costs["weeks"].Cost * steps, r => r with { WeeksToCompetition = to }));
            }
        }

        for (var i = 0; i < (request.Complaints?.Count ?? 0); i++)
        {
            var at = i;
            for (var pain = 0; pain < request.Complaints![i].Pain; pain++)
            {
                var to = pain;
                list.Add(new($"pain {i}", costs["pain"].Cost * (request.Complaints[i].Pain!.Value - pain), r => r with { Complaints = [.. r.Complaints!.Select((c, n) => n == at ? c with { Pain = to } : c)] }));
            }
        }

        // Needs as they are sent are kept apart from those that are added, so that places do not move.
        foreach (var need in request.Needs ?? [])
        {
            if (need.Weight is null)
            {
                var level = Array.IndexOf(Levels, need.Importance ?? "medium");
                var key = "sent need " + request.Needs!.ToList().FindIndex(n => ReferenceEquals(n, need));
                for (var to = 0; to < Levels.Length; to++)
                {
                    if (to != level)
                    {
                        var importance = Levels[to];
                        list.Add(new(key, costs["need"].Cost * Math.Abs(to - level), r => r with { Needs = [.. r.Needs!.Select(n => ReferenceEquals(n, need) ? n with { Importance = importance } : n)] }));
                    }
                }

                list.Add(new(key, costs["need"].Cost * (level + 1), r => r with { Needs = [.. r.Needs!.Where(n => !ReferenceEquals(n, need))] }));
            }
        }

        foreach (var quality in exercise.Qualities.Keys.Where(q => request.Needs?.Any(n => n.Quality == q) != true))
        {
            for (var k = 0; k < Levels.Length; k++)
            {
                var importance = Levels[k];
                list.Add(new("new need " + quality, costs["need"].Cost * (k + 1), r => r with { Needs = [.. r.Needs ?? [], new CoachNeed { Quality = quality, Importance = importance }] }));
            }
        }

        return list;
    }

    /// <summary>Some of the shipped exercises as a catalogue of their own; ladders that lead out of it are cut.</summary>
    public static Edition Small(IEnumerable<int> positions)
    {
        var chosen = positions.Select(p => TestEdition.Current.Catalogue.Exercises[p % TestEdition.Current.Catalogue.Count]).DistinctBy(e => e.Id).ToList();
        return TestEdition.Of(chosen.Select(e => e with { Progressions = [], Regressions = [] }));
    }
}
