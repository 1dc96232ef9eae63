using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Sessions;

namespace Recommender.Pages.Sessions;

/// <summary>Everything that the session page shows.</summary>
/// <param name="DecisionId">The decision on record.</param>
/// <param name="CreatedAt">When.</param>
/// <param name="Request">Its request.</param>
/// <param name="Answer">Its answer.</param>
/// <param name="Athlete">Name of the saved athlete, or the ref, or null.</param>
/// <param name="Edition">For words, how-to and times.</param>
/// <param name="Locked">Exercises ticked to stay.</param>
/// <param name="Avoided">Exercises ticked to go.</param>
/// <param name="Notice">What to tell, or null.</param>
/// <param name="Token">Form token.</param>
public sealed record ShownSession(string DecisionId, DateTimeOffset CreatedAt, SessionRequest Request, SessionAnswer Answer, string? Athlete, Edition Edition,
    IReadOnlyList<string> Locked, IReadOnlyList<string> Avoided, string? Notice, string Token)
{
    /// <summary>Address of the session.</summary>
    public string Address => "/sessions/" + DecisionId;

    /// <summary>The words in force.</summary>
    public Vocabulary Words => Edition.Catalogue.Vocabulary;

    /// <summary>Name of an exercise; its id where the catalogue no longer has it.</summary>
    public string NameOf(string exercise) => Edition.Catalogue.Find(exercise)?.Name ?? exercise;

    /// <summary>A pick of the session as a pick of a ranking, its place in the order for its rank.</summary>
    public static Pick AsPick(SessionPick pick) => new(pick.Order, pick.Exercise, pick.Score, pick.Contributions, pick.Dose, pick.TissueLoad, pick.Why, pick.Cautions, pick.Evidence);
}
