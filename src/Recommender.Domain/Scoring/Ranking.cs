namespace Recommender.Domain.Scoring;

/// <summary>Exercises by score.</summary>
/// <param name="Positions">Catalogue positions, highest score first; equal scores by exercise id, ordinal.</param>
/// <param name="Scores">[rank] score in thousandths.</param>
/// <param name="NeedPoints">[rank] thousandths that the need match alone brings.</param>
public sealed record Ranking(int[] Positions, int[] Scores, int[] NeedPoints)
{
    /// <summary>How many are ranked.</summary>
    public int Count => Positions.Length;

    /// <summary>One sortable number: the score, then the place among the positions; positions follow ids, so ties fall by id.</summary>
    /// <param name="score">Thousandths.</param>
    /// <param name="place">Place among the positions that are ranked.</param>
    internal static long KeyOf(int score, int place) => ((long)-score << 32) | (uint)place;

    /// <summary>Ranks what has been scored.</summary>
    /// <param name="positions">Catalogue positions, ascending.</param>
    /// <param name="keys">[place among the positions] <see cref="KeyOf"/>; sorted here.</param>
    /// <param name="needPoints">[place among the positions] thousandths of the need match.</param>
    internal static Ranking Of(ReadOnlySpan<int> positions, Span<long> keys, ReadOnlySpan<int> needPoints)
    {
        keys.Sort();
        var n = keys.Length;
        var (ranked, scores, rankedNeeds) = (new int[n], new int[n], new int[n]);
        for (var rank = 0; rank < n; rank++)
        {
            var place = (int)(uint)keys[rank];
            ranked[rank] = positions[place];
            scores[rank] = (int)-(keys[rank] >> 32);
            rankedNeeds[rank] = needPoints[place];
        }

        return new Ranking(ranked, scores, rankedNeeds);
    }
}
