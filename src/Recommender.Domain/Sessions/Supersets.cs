using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>Pairs picks that may be done in turn, each resting while the other works. Pairs only shorten: rest is never cut.</summary>
public static class Supersets
{
    /// <summary>The same picks with their partners; a partner stands right behind the first of its pair.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="ordered">Picks in order.</param>
    /// <param name="savedTenths">Tenths of a minute saved.</param>
    internal static IReadOnlyList<PlacedPick> Pair(Situation situation, IReadOnlyList<PlacedPick> ordered, out int savedTenths)
    {
        var partner = Enumerable.Repeat(-1, ordered.Count).ToArray();
        savedTenths = 0;
        foreach (var row in ordered.Select((p, i) => (p, i)).GroupBy(x => x.p.Block, StringComparer.Ordinal))
        {
            if (situation.Knowledge.Session.Supersets.Blocks.Contains(row.Key, StringComparer.Ordinal))
            {
                savedTenths += Best(situation, ordered, [.. row.Select(x => x.i)], partner);
            }
        }

        var picks = new List<PlacedPick>(ordered.Count);
        for (var i = 0; i < ordered.Count; i++)
        {
            if (partner[i] < 0)
            {
                picks.Add(ordered[i]);
            }
            else if (partner[i] > i)
            {
                picks.Add(ordered[i] with { Partner = ordered[partner[i]].Candidate });
                picks.Add(ordered[partner[i]] with { Partner = ordered[i].Candidate });
            }
        }

        return picks;
    }

    /// <summary>The pairs of one block that save most together.</summary>
    private static int Best(Situation situation, IReadOnlyList<PlacedPick> ordered, int[] places, int[] partner)
    {
        var saved = new int[places.Length, places.Length];
        for (var a = 0; a < places.Length; a++)
        {
            for (var b = a + 1; b < places.Length; b++)
            {
                saved[a, b] = Saved(situation, ordered[places[a]].Candidate, ordered[places[b]].Candidate);
            }
        }

        var best = (Sum: 0, Pairs: Array.Empty<(int A, int B)>());
        Search(0, 0, [], new bool[places.Length]);
        foreach (var (a, b) in best.Pairs)
        {
            (partner[places[a]], partner[places[b]]) = (places[b], places[a]);
        }

        return best.Sum;

        void Search(int from, int sum, List<(int A, int B)> pairs, bool[] taken)
        {
            if (sum > best.Sum)
            {
                best = (sum, [.. pairs]);
            }

            for (var a = from; a < places.Length; a++)
            {
                for (var b = a + 1; b < places.Length && !taken[a]; b++)
                {
                    if (!taken[b] && saved[a, b] > 0)
                    {
                        (taken[a], taken[b]) = (true, true);
                        pairs.Add((a, b));
                        Search(a + 1, sum + saved[a, b], pairs, taken);
                        pairs.RemoveAt(pairs.Count - 1);
                        (taken[a], taken[b]) = (false, false);
                    }
                }
            }
        }
    }

    /// <summary>Tenths of a minute that doing two in turn saves; 0 where they may not be paired.</summary>
    internal static int Saved(Situation situation, SessionCandidate a, SessionCandidate b)
    {
        var rules = situation.Knowledge.Session;
        if (!MayPair(situation, rules.Supersets, a.Position, b.Position))
        {
            return 0;
        }

        var change = rules.ChangeOverSeconds.Value;
        var straight = ((a.Tenths + b.Tenths) * 6) + change;
        var (one, other) = (Work.Of(situation, a), Work.Of(situation, b));
        var inTurn = (a.Tenths * 6) - one.Straight + (b.Tenths * 6) - other.Straight + InTurn(one, other, rules.Supersets.SwitchSeconds);
        var saved = (int)decimal.Floor((straight - inTurn) / 6);
        return saved >= rules.Supersets.LeastSavedMinutes * 10 ? saved : 0;
    }

    /// <summary>Seconds that two take in turn: a set starts when the other's has ended and the athlete has come over, and its own rest is over.</summary>
    public static decimal InTurn(Work one, Work other, decimal switchSeconds)
    {
        var (clock, ended) = (0m, new[] { decimal.MinValue / 4, decimal.MinValue / 4 });
        var done = new int[2];
        var works = new[] { one, other };
        for (var turn = 0; done[0] < one.Sets || done[1] < other.Sets; turn = 1 - turn)
        {
            if (done[turn] >= works[turn].Sets)
            {
                continue;
            }

            var arrives = ended[1 - turn] > ended[turn] && done[1 - turn] > 0 ? clock + switchSeconds : clock;
            var start = done[turn] == 0 ? arrives : Math.Max(arrives, ended[turn] + works[turn].Rest);
            clock = start + works[turn].Set;
            ended[turn] = clock;
            done[turn]++;
        }

        return clock;
    }

    private static bool MayPair(Situation situation, SupersetRule rules, int a, int b)
    {
        var (one, other) = (situation.EquipmentUsed(a), situation.EquipmentUsed(b));
        if (one.Intersect(other, StringComparer.Ordinal).Any() || one.Concat(other).Count(e => rules.Stations.Contains(e, StringComparer.Ordinal)) > 1)
        {
            return false;
        }

        // What both train strongly would tire twice.
        var catalogue = situation.Catalogue;
        foreach (var (quality, rating) in catalogue.RatingsOf(a))
        {
            if (rating >= QualityRating.Strong && catalogue.RatingOf(b, quality) >= QualityRating.Strong)
            {
                return false;
            }
        }

        var shared = (int)(rules.SharedLoad * 100);
        for (var region = 0; region < catalogue.RegionCount; region++)
        {
            if (Math.Min(catalogue.TissueValue[(a * catalogue.RegionCount) + region], catalogue.TissueValue[(b * catalogue.RegionCount) + region]) > shared)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Sets of an exercise in time.</summary>
    /// <param name="Sets">Sets.</param>
    /// <param name="Set">Seconds of a set, both sides.</param>
    /// <param name="Rest">Seconds of rest between two.</param>
    public readonly record struct Work(int Sets, decimal Set, decimal Rest)
    {
        /// <summary>Seconds one after another.</summary>
        public decimal Straight => (Sets * Set) + ((Sets - 1) * Rest);

        /// <summary>The sets of a candidate's dose.</summary>
        internal static Work Of(Situation situation, SessionCandidate candidate)
        {
            var exercise = situation.Catalogue.Exercises[candidate.Position];
            Dose dose = candidate.Dose;
            return new Work(dose.Sets, dose.Amount * exercise.SecondsPerRepetition * (dose.PerSide ? 2 : 1), dose.RestSeconds);
        }
    }
}
