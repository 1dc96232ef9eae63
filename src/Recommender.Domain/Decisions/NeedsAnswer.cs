using Recommender.Domain.Eligibility;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Decisions;

/// <summary>What an athlete needs, and from where.</summary>
public sealed record NeedsAnswer
{
    /// <summary>What the athlete needs, heaviest first; weights sum to 1.</summary>
    public required IReadOnlyList<NeedLine> Needs { get; init; }

    /// <summary>Measures derived from the tests, and tests that a threshold reads.</summary>
    public required IReadOnlyList<DerivedMeasure> Derived { get; init; }

    /// <summary>What a person should read first.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>A referral to a clinician, or null.</summary>
    public required Referral? Referral { get; init; }

    /// <summary>What was taken because the request left it out.</summary>
    public required IReadOnlyList<Assumption> Assumed { get; init; }

    /// <summary>What the answer was made on.</summary>
    public required VersionStamp Versions { get; init; }
}
