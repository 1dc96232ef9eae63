using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Substitutions;

namespace Recommender.Domain.Groups;

/// <summary>
/// Which picks of a group may be traded so that athletes share exercises. Each trade is a substitution like any other, so that it has passed every gate of its athlete and has that athlete's
/// dose; it is offered where the pick is done by nobody else and the substitute by somebody, and little is lost. What a sore region's programme doses is never traded. Pure.
/// </summary>
public static class GroupTrades
{
    /// <summary>Most substitutes that are looked at for a pick; what a substitution may be asked for.</summary>
    public const int Looked = 30;

    /// <summary>The request whose answer a trade is taken from.</summary>
    /// <param name="member">Whose pick.</param>
    /// <param name="exercise">Exercise that would go.</param>
    public static SubstitutionRequest Request(GroupMember member, string exercise) => new() { Exercise = exercise, Context = member.Request with { Count = null, PerFamily = null }, Count = Looked };

    /// <summary>Trades in the order in which they would be made: those that bring most athletes together first, of these the one that costs least.</summary>
    /// <param name="members">The group; requests without faults on the edition.</param>
    /// <param name="edition">Catalogue and rules.</param>
    /// <param name="rules">How much may be lost.</param>
    public static IReadOnlyList<GroupTrade> Of(IReadOnlyList<GroupMember> members, Edition edition, SharingRules rules)
    {
        var doing = members.Select(m => m.Picks.Select(p => p.Exercise.Id).ToList()).ToList();
        var count = doing.SelectMany(d => d).GroupBy(e => e, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Count(), StringComparer.Ordinal);
        var asks = members.Select(m => Situation.Of(m.Request, edition).Asks).ToList();
        var open = new List<GroupTrade>();
        for (var m = 0; m < members.Count; m++)
        {
            foreach (var pick in members[m].Picks.Where(p => count[p.Exercise.Id] == 1 && p.Score.Thousandths > 0 && p is not Substitute && !IsTreatment(p)))
            {
                open.AddRange(Candidates(m, pick));
            }
        }

        var trades = new List<GroupTrade>();
        while (trades.Count < rules.Most && open
            .Where(t => count[t.From.Exercise.Id] == 1 && count[t.To.Exercise.Id] >= 1 && Fits(t))
            .OrderByDescending(t => count[t.To.Exercise.Id]).ThenBy(t => t.Loss.Thousandths).ThenByDescending(t => t.To.Similarity).ThenBy(t => t.Member).ThenBy(t => t.From.Rank)
            .FirstOrDefault() is { } best)
        {
            doing[best.Member][best.From.Rank - 1] = best.To.Exercise.Id;
            count[best.From.Exercise.Id] = 0;
            count[best.To.Exercise.Id]++;
            trades.Add(best);
            open.RemoveAll(t => t.Member == best.Member && t.From.Rank == best.From.Rank);
        }

        return trades;

        IEnumerable<GroupTrade> Candidates(int m, Pick pick)
        {
            var least = pick.Score.Thousandths - (int)(rules.LossShare * pick.Score.Thousandths);
            return SubstitutionPipeline.Answer(Request(members[m], pick.Exercise.Id), edition, "").Picks
                .Where(s => count.ContainsKey(s.Exercise.Id) && s.Similarity >= rules.LeastLikeness && s.Score.Thousandths >= least && KeepsAsks(m, pick, s.Exercise.Id))
                .Select(s => new GroupTrade(m, pick, s, new Points(Math.Max(0, pick.Score.Thousandths - s.Score.Thousandths))));
        }

        // What heals a tendon is no matter of saving a set-up.
        static bool IsTreatment(Pick pick) => pick.Dose?.Adjustments.Any(a => a.Code == "programme") == true;

        // One of a family, as in any answer.
        bool Fits(GroupTrade trade) => doing[trade.Member].Where((_, i) => i != trade.From.Rank - 1).All(e => e != trade.To.Exercise.Id && Family(e) != trade.To.Exercise.Family);

        string Family(string exercise) => edition.Catalogue.Find(exercise)!.Family;

        // What the coach asked for keeps its strong pick.
        bool KeepsAsks(int m, Pick pick, string substitute) => asks[m]
            .Where(ask => Serves(pick.Exercise.Id, ask) && !members[m].Picks.Any(p => p.Rank != pick.Rank && Serves(p.Exercise.Id, ask)))
            .All(ask => Serves(substitute, ask));

        bool Serves(string exercise, IReadOnlyList<int> ask) => edition.Catalogue.IsStrongForAny(edition.Catalogue.PositionOf(exercise), ask);
    }
}

/// <summary>An athlete of a group.</summary>
/// <param name="Request">What was asked.</param>
/// <param name="Picks">The picks as they stand, by rank from 1 without a gap; a substitute has been traded before and stays.</param>
public sealed record GroupMember(RecommendationRequest Request, IReadOnlyList<Pick> Picks);

/// <summary>A pick that may be traded.</summary>
/// <param name="Member">Place of the athlete in the group, from 0.</param>
/// <param name="From">The pick.</param>
/// <param name="To">What would stand in, with this athlete's own dose.</param>
/// <param name="Loss">How far the score falls; 0 where it does not.</param>
public sealed record GroupTrade(int Member, Pick From, Substitute To, Points Loss);
