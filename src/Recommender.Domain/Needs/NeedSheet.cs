using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Needs;

/// <summary>Gathers weights by quality while needs are derived; settled once.</summary>
/// <param name="vocabulary">Gives the order of qualities.</param>
internal sealed class NeedSheet(Vocabulary vocabulary)
{
    private readonly List<WeighedNeed> lines = new(vocabulary.Qualities.Count);

    /// <summary>What was added so far, in order.</summary>
    public IReadOnlyList<WeighedNeed> Lines => lines;

    /// <summary>Adds weight to a quality; nothing when the weight is 0.</summary>
    public void Add(string quality, decimal weight, string source, string note, Basis basis, string? reference)
    {
        if (weight > 0)
        {
            lines.Add(new WeighedNeed(vocabulary.Qualities.IndexOf(quality), weight, source, note, basis, reference));
        }
    }

    /// <summary>Needs scaled to 1, heaviest first.</summary>
    public IReadOnlyList<Need> Settle()
    {
        var weights = new decimal[vocabulary.Qualities.Count];
        var origins = new int[weights.Length];
        foreach (var line in lines)
        {
            weights[line.Position] += line.Weight;
            origins[line.Position]++;
        }

        var units = LargestRemainder.Apportion(weights, NeedProfile.WeightUnits);
        var needs = new List<Need>(units.Length);
        for (var position = 0; position < units.Length; position++)
        {
            if (units[position] > 0)
            {
                needs.Add(new Need(vocabulary.Qualities[position].Id, position, units[position], Origins(position, origins[position])));
            }
        }

        needs.Sort((a, b) => a.WeightUnits == b.WeightUnits ? a.Position.CompareTo(b.Position) : b.WeightUnits.CompareTo(a.WeightUnits));
        return needs;
    }

    private NeedOrigin[] Origins(int position, int count)
    {
        var from = new NeedOrigin[count];
        var weights = new decimal[count];
        var n = 0;
        foreach (var line in lines)
        {
            if (line.Position == position)
            {
                weights[n] = line.Weight;
                from[n++] = Origin(line, 1);
            }
        }

        var shares = count == 1 ? null : LargestRemainder.Apportion(weights, 1000);
        for (var i = 0; i < count && shares is not null; i++)
        {
            from[i] = from[i] with { Share = shares[i] / 1000m };
        }

        return from;
    }

    private static NeedOrigin Origin(WeighedNeed line, decimal share) => new(line.Source, share, line.Note, line.Basis, line.Reference);
}

/// <summary>Weight that one origin gives to a quality, before all are scaled to 1.</summary>
/// <param name="Position">Position in the vocabulary's qualities.</param>
/// <param name="Weight">Above 0.</param>
/// <param name="Source">event-profile, coach, test, complaint or history.</param>
/// <param name="Note">In plain words.</param>
/// <param name="Basis">Where the weight comes from.</param>
/// <param name="Reference">Source id, or null.</param>
internal readonly record struct WeighedNeed(int Position, decimal Weight, string Source, string Note, Basis Basis, string? Reference);
