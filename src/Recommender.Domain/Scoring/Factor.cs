using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring;

/// <summary>One additive part of the score.</summary>
/// <remarks>Hot path: <see cref="Prepare"/> runs once a request and makes integer tables; the scorer it gives runs for every exercise without allocation. Benchmark: tests/Recommender.Benchmarks.</remarks>
/// <param name="id">Factor id; permanent.</param>
public abstract class Factor(string id)
{
    /// <summary>Factor id.</summary>
    public string Id { get; } = id;

    /// <summary>Whether its points and words hang on exercise, event and phase alone, so that they are made once for all such requests.</summary>
    /// <param name="sore">Whether anything hurts.</param>
    public virtual bool IsStanding(bool sore) => false;

    /// <summary>The factor's tables for one request.</summary>
    public abstract Scorer Prepare(ScoringContext context);
}

/// <summary>A factor ready for one request.</summary>
/// <param name="basis">Basis of the factor's rule, taken where there are no details.</param>
/// <param name="source">Source of the factor's rule, or null.</param>
public abstract class Scorer(Basis basis, string? source)
{
    /// <summary>Basis of the factor's rule.</summary>
    public Basis Basis { get; } = basis;

    /// <summary>Source of the factor's rule.</summary>
    public string? Source { get; } = source;

    /// <summary>Whether it gives no exercise any points in this request.</summary>
    public virtual bool IsIdle => false;

    /// <summary>Writes the points of the exercise at <paramref name="position"/>; their sum is the contribution.</summary>
    public abstract void Score(int position, ref PointSink sink);
}
