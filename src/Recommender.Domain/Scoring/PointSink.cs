using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring;

/// <summary>
/// Where a factor writes its points: adds integers on the hot path and, only when a list is attached, keeps the details.
/// One path for both, so that an explanation cannot drift from the score.
/// </summary>
/// <param name="details">Keeps details when not null.</param>
public struct PointSink(List<Detail>? details)
{
    /// <summary>Thousandths written so far.</summary>
    public int Total { get; private set; }

    /// <summary>Whether details are kept; only then are labels worth making.</summary>
    public readonly bool Records => details is not null;

    /// <summary>Writes points.</summary>
    public void Add(int thousandths) => Total += thousandths;

    /// <summary>Keeps the detail of points just written.</summary>
    public readonly void Note(string code, string label, int thousandths, Basis basis, string? source, decimal? value = null, decimal? limit = null) =>
        details!.Add(Detail.Leaf(code, label, thousandths, basis, source, value, limit));
}
