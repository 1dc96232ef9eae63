using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Groups;

/// <summary>
/// A group's picks laid out in rounds: in a round each athlete does one exercise, a rack holds one exercise for as many athletes as share it, and whoever can do the same together does. Pure.
/// </summary>
/// <param name="Rounds">Rounds in order; as few as the picks and the racks allow by this way of laying out, which does not try every order.</param>
public sealed record StationPlan(IReadOnlyList<StationRound> Rounds)
{
    /// <summary>Lays the picks out.</summary>
    /// <param name="picks">[athlete] picks.</param>
    /// <param name="racks">Racks there are, at least 1.</param>
    /// <param name="rules">What needs a rack, and how many share one.</param>
    public static StationPlan Of(IReadOnlyList<IReadOnlyList<Pick>> picks, int racks, StationRules rules)
    {
        var rounds = new List<List<Station>>();
        var busy = new List<HashSet<int>>();
        var work = picks.SelectMany((own, athlete) => own.Select(p => new StationTurn(athlete, p))).ToList();
        foreach (var group in InOrder(work.Where(t => NeedsRack(t.Pick))))
        {
            // By load, so that the bar changes least between those who share it.
            var racksNeeded = (group.Count() + rules.AthletesEach - 1) / rules.AthletesEach;
            foreach (var sharing in group.OrderByDescending(t => t.Pick.Dose?.LoadKg ?? 0).ThenBy(t => t.Athlete).Chunk((group.Count() + racksNeeded - 1) / racksNeeded))
            {
                var round = Enumerable.Range(0, rounds.Count).FirstOrDefault(r => rounds[r].Count(s => s.Rack > 0) < racks && sharing.All(t => !busy[r].Contains(t.Athlete)), -1);
                Put(round < 0 ? Add() : round, sharing, rack: true);
            }
        }

        while (rounds.Count < picks.Select(p => p.Count).DefaultIfEmpty(0).Max())
        {
            Add();
        }

        foreach (var group in InOrder(work.Where(t => !NeedsRack(t.Pick))))
        {
            var left = group.OrderBy(t => t.Athlete).ToList();
            while (left.Count > 0)
            {
                var round = Enumerable.Range(0, rounds.Count).MaxBy(r => left.Count(t => !busy[r].Contains(t.Athlete)));
                var together = left.Where(t => !busy[round].Contains(t.Athlete)).ToArray();
                if (together.Length == 0)
                {
                    round = Add();
                    together = [.. left];
                }

                Put(round, together, rack: false);
                left.RemoveAll(together.Contains);
            }
        }

        return new StationPlan([.. rounds.Select(r => new StationRound([.. r.OrderBy(s => s.Rack == 0).ThenBy(s => s.Rack)], AtOnce(r)))]);

        bool NeedsRack(Pick pick) => pick.Exercise.Equipment.Any(e => rules.Equipment.Contains(e, StringComparer.Ordinal));

        int Add()
        {
            rounds.Add([]);
            busy.Add([]);
            return rounds.Count - 1;
        }

        void Put(int round, IReadOnlyList<StationTurn> turns, bool rack)
        {
            rounds[round].Add(new Station(rack ? rounds[round].Count(s => s.Rack > 0) + 1 : 0, turns));
            busy[round].UnionWith(turns.Select(t => t.Athlete));
        }
    }

    /// <summary>Exercises that most do first; of these the one that stands highest, then by id.</summary>
    private static List<IGrouping<string, StationTurn>> InOrder(IEnumerable<StationTurn> turns) =>
        [.. turns.GroupBy(t => t.Pick.Exercise.Id, StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Min(t => t.Pick.Rank)).ThenBy(g => g.Key, StringComparer.Ordinal)];

    /// <summary>How many of each thing are in use together: one each, one for all who share a rack.</summary>
    private static IReadOnlyList<EquipmentAtOnce> AtOnce(IEnumerable<Station> stations) =>
        [.. stations.SelectMany(s => s.Rack > 0 ? s.Turns.SelectMany(t => t.Pick.Exercise.Equipment).Distinct(StringComparer.Ordinal) : s.Turns.SelectMany(t => t.Pick.Exercise.Equipment))
            .GroupBy(e => e, StringComparer.Ordinal)
            .Select(g => new EquipmentAtOnce(g.Key, g.Count()))
            .OrderByDescending(e => e.Count).ThenBy(e => e.Equipment, StringComparer.Ordinal)];
}

/// <summary>A round.</summary>
/// <param name="Stations">Racks by number, then the others.</param>
/// <param name="AtOnce">Equipment in use together, most first.</param>
public sealed record StationRound(IReadOnlyList<Station> Stations, IReadOnlyList<EquipmentAtOnce> AtOnce);

/// <summary>Athletes who do the same exercise in a round.</summary>
/// <param name="Rack">Number of the rack from 1; 0 where none is needed.</param>
/// <param name="Turns">Who, heaviest load first at a rack.</param>
public sealed record Station(int Rack, IReadOnlyList<StationTurn> Turns);

/// <summary>An athlete's pick at a station.</summary>
/// <param name="Athlete">Place of the athlete in the group, from 0.</param>
/// <param name="Pick">The pick, with the athlete's own dose.</param>
public sealed record StationTurn(int Athlete, Pick Pick);

/// <summary>Equipment in use together.</summary>
/// <param name="Equipment">Equipment id.</param>
/// <param name="Count">How many.</param>
public sealed record EquipmentAtOnce(string Equipment, int Count);
