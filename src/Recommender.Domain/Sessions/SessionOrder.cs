using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>A pick in its place.</summary>
/// <param name="Candidate">The candidate.</param>
/// <param name="Row">Row of the order that took it.</param>
/// <param name="Block">Its block.</param>
internal sealed record PlacedPick(SessionCandidate Candidate, int Row, string Block)
{
    /// <summary>The pick it is done in turn with, or null.</summary>
    public SessionCandidate? Partner { get; init; }
}

/// <summary>Puts picks into order: block by block, inside a block the fast and heavy first; then pairs what may be done in turn.</summary>
internal static class SessionOrder
{
    /// <summary>The picks in order.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="picks">The chosen candidates.</param>
    /// <param name="savedTenths">Tenths of a minute that doing in turn saves.</param>
    public static IReadOnlyList<PlacedPick> Of(Situation situation, IEnumerable<SessionCandidate> picks, out int savedTenths)
    {
        var catalogue = situation.Catalogue;
        var rules = situation.Knowledge.Session;
        var placed = picks
            .Select(c =>
            {
                var row = RowOf(rules.Blocks, catalogue.Exercises[c.Position]);
                return new PlacedPick(c, row, rules.Blocks[row].Block);
            })
            .OrderBy(p => p.Row)
            .ThenByDescending(p => catalogue.Rates[p.Candidate.Position] >= (byte)LoadingRate.Fast)
            .ThenByDescending(p => catalogue.Bands[p.Candidate.Position])
            .ThenByDescending(p => catalogue.Complexities[p.Candidate.Position])
            .ThenByDescending(p => p.Candidate.Score)
            .ThenBy(p => p.Candidate.Position)
            .ToList();
        return Supersets.Pair(situation, placed, out savedTenths);
    }

    private static int RowOf(IReadOnlyList<BlockRule> rows, Exercise exercise)
    {
        for (var row = 0; row < rows.Count; row++)
        {
            if (rows[row].Matches.Any(m => m.Holds(exercise)))
            {
                return row;
            }
        }

        throw new InvalidOperationException($"{exercise.Id} belongs to no block.");
    }
}
