using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Storage.Decisions;

namespace Recommender.Pages.Decisions;

/// <summary>Everything that the page of the record shows.</summary>
/// <param name="Search">The search as typed.</param>
/// <param name="Found">A page of decisions.</param>
/// <param name="End">How far the record reaches.</param>
/// <param name="Squad">Saved athletes, for names.</param>
/// <param name="Edition">For words and names of exercises.</param>
/// <param name="Notice">What to tell, or null.</param>
/// <param name="Head">The noted hash as it was typed.</param>
/// <param name="Token">Form token.</param>
public sealed record ShownRecord(DecisionSearch Search, FoundDecisions Found, ChainEnd End, IReadOnlyList<AthleteProfile> Squad, Edition Edition, string? Notice, string? Head, string Token)
{
    /// <summary>Name of a saved athlete, or the ref; null where there is none.</summary>
    public string? Athlete(string? reference) => reference is null ? null : Squad.FirstOrDefault(a => a.Ref == reference)?.Name ?? reference;
}
