using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Explanations;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain;

/// <summary>The first stages of a recommendation alone: what this athlete needs. Pure.</summary>
public static class NeedsPipeline
{
    // What only choosing exercises asks for.
    private const string Count = "/count";

    /// <summary>The needs of a checked request.</summary>
    /// <param name="request">A request without faults; what chooses among exercises is not read.</param>
    /// <param name="edition">Catalogue and rules.</param>
    public static NeedsAnswer Answer(RecommendationRequest request, Edition edition)
    {
        var situation = Situation.Of(request, edition);
        var profile = NeedAnalysis.Derive(situation, shown: true);
        var limits = TissueLimits.Of(situation);
        return new NeedsAnswer
        {
            Needs = NeedLine.Of(profile),
            Derived = profile.Derived,
            Cautions = [Phrasebook.NotMedicalAdvice, .. limits.Referral is { } referral ? [referral.Advice] : Array.Empty<string>(), .. limits.Cautions, .. profile.Cautions],
            Referral = limits.Referral,
            Assumed = [.. situation.Assumed.Where(a => a.Pointer != Count)],
            Versions = new VersionStamp(RecommendationPipeline.Engine, edition.CatalogueVersion, edition.RulesVersion, null),
        };
    }
}
