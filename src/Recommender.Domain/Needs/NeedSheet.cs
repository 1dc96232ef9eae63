using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Needs;

/// <summary>Gathers weights by quality while needs are derived; settled once.</summary>
/// <param name="vocabulary">Gives the order of qualities.</param>
internal sealed class NeedSheet(Vocabulary vocabulary)
{
    private readonly List<Line>?[] lines = new List<Line>?[vocabulary.Qualities.Count];

    /// <summary>Adds weight to a quality; nothing when the weight is 0.</summary>
    public void Add(string quality, decimal weight, string source, string note, Basis basis, string? reference)
    {
        if (weight > 0)
        {
            (lines[vocabulary.Qualities.IndexOf(quality)] ??= []).Add(new Line(weight, source, note, basis, reference));
        }
    }

    /// <summary>Needs scaled to 1, heaviest first.</summary>
    public IReadOnlyList<Need> Settle()
    {
        var present = Enumerable.Range(0, lines.Length).Where(i => lines[i] is not null).ToArray();
        var units = LargestRemainder.Apportion([.. present.Select(i => lines[i]!.Sum(l => l.Weight))], NeedProfile.WeightUnits);
        return [.. present
            .Select((position, i) => new Need(vocabulary.Qualities[position].Id, position, units[i], Origins(lines[position]!)))
            .Where(n => n.WeightUnits > 0)
            .OrderByDescending(n => n.WeightUnits).ThenBy(n => n.Position)];
    }

    private static IReadOnlyList<NeedOrigin> Origins(List<Line> from)
    {
        var shares = LargestRemainder.Apportion([.. from.Select(l => l.Weight)], 1000);
        return [.. from.Select((l, i) => new NeedOrigin(l.Source, shares[i] / 1000m, l.Note, l.Basis, l.Reference))];
    }

    private readonly record struct Line(decimal Weight, string Source, string Note, Basis Basis, string? Reference);
}
