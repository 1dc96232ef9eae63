using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Season;
using Recommender.Pages.Ask;

namespace Recommender.Pages.Season;

/// <summary>Everything that the season page shows.</summary>
/// <param name="Form">The sentence at the top and what is wrong with it.</param>
/// <param name="Reference">Ref of the saved athlete, or null.</param>
/// <param name="Name">The athlete's name, or null.</param>
/// <param name="Today">Today.</param>
/// <param name="Request">What was asked of the stages; null while something is missing.</param>
/// <param name="Outlook">The season; null while something is missing.</param>
/// <param name="Edition">For words, sources and usual lengths.</param>
public sealed record ShownSeason(AskForm Form, string? Reference, string? Name, DateOnly Today, RecommendationRequest? Request, SeasonOutlook? Outlook, Edition Edition)
{
    /// <summary>The date of a day that is counted before the competition.</summary>
    public DateOnly DateOf(int daysBefore) => Today.AddDays(Outlook!.Plan.Days - daysBefore);

    /// <summary>Phases whose length a coach may type: those that may come after today's.</summary>
    public IEnumerable<Phase> Typeable => (Edition.Knowledge.Planning?.Season.Phases ?? []).Select(p => p.Phase).Where(p => p != Phase.Transition);
}
