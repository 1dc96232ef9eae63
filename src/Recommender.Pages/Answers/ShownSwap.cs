using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Substitutions;

namespace Recommender.Pages.Answers;

/// <summary>What the swap page shows.</summary>
/// <param name="DecisionId">The answer it belongs to.</param>
/// <param name="Pick">The pick that is to go.</param>
/// <param name="Answer">What may stand in, computed and not recorded.</param>
/// <param name="Reason">Reason of the swap, or null.</param>
/// <param name="Edition">For words.</param>
/// <param name="SwapQuery">Swaps so far, as a query.</param>
/// <param name="Taken">Exercises that stand on the answer already.</param>
/// <param name="Notice">What to tell, or null.</param>
/// <param name="Token">Form token.</param>
public sealed record ShownSwap(string DecisionId, Pick Pick, SubstitutionAnswer Answer, string? Reason, Edition Edition, string SwapQuery, IReadOnlySet<string> Taken, string? Notice, string Token)
{
    /// <summary>Address of the swap.</summary>
    public string Address => $"/answers/{DecisionId}/swap/{Pick.Rank}";
}
