using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Scoring;

/// <summary>All that factors read; made once a request.</summary>
/// <param name="situation">The situation.</param>
/// <param name="profile">What is needed.</param>
/// <param name="needs">Points of the needs.</param>
public sealed class ScoringContext(Situation situation, NeedProfile profile, NeedTable needs)
{
    /// <summary>The situation.</summary>
    public Situation Situation { get; } = situation;

    /// <summary>What is needed.</summary>
    public NeedProfile Profile { get; } = profile;

    /// <summary>Points of the needs.</summary>
    public NeedTable Needs { get; } = needs;
}
