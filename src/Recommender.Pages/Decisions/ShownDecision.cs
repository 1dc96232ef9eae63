using Recommender.Answers;
using Recommender.Domain.Audit;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Recommender.Pages.Sessions;

namespace Recommender.Pages.Decisions;

/// <summary>Everything that the page of one decision shows.</summary>
/// <param name="Opened">The record.</param>
/// <param name="Athlete">Name of the saved athlete, or the ref, or null.</param>
/// <param name="Edition">The edition it was made on; the one in force, for words alone, where that one is not kept.</param>
/// <param name="Kept">Whether it is the edition it was made on.</param>
/// <param name="Asked">What is asked about it, and the answers.</param>
/// <param name="Notice">What to tell, or null.</param>
/// <param name="Token">Form token.</param>
public sealed record ShownDecision(OpenedRecord Opened, string? Athlete, Edition Edition, bool Kept, AskedAbout Asked, string? Notice, string Token)
{
    /// <summary>The record without its place.</summary>
    public DecisionRecord Record => Opened.Stored.Record;

    /// <summary>Address of the page.</summary>
    public string Address => "/decisions/" + Record.DecisionId;

    /// <summary>Address of the page that a coach works with; null for a substitution, which is part of another page.</summary>
    public string? CoachAddress => Record.Kind == DecisionKind.Recommendation.Id ? "/answers/" + Record.DecisionId : Record.Kind == DecisionKind.Session.Id ? "/sessions/" + Record.DecisionId : null;

    /// <summary>The words of the edition.</summary>
    public Vocabulary Words => Edition.Catalogue.Vocabulary;

    /// <summary>Picks of any kind of answer, in their order.</summary>
    public IReadOnlyList<Pick> Picks => Opened.Answer switch
    {
        Answer a => a.Picks,
        SubstitutionAnswer s => s.Picks,
        SessionAnswer s => [.. s.Picks.Select(ShownSession.AsPick)],
        _ => [],
    };

    /// <summary>What was left out.</summary>
    public LeftOut? LeftOut => Opened.Answer switch { Answer a => a.LeftOut, SubstitutionAnswer s => s.LeftOut, SessionAnswer s => s.LeftOut, _ => null };

    /// <summary>Name of an exercise; its id where the catalogue has none.</summary>
    public string NameOf(string exercise) => Edition.Catalogue.Find(exercise)?.Name ?? Picks.FirstOrDefault(p => p.Exercise.Id == exercise)?.Exercise.Name ?? exercise;
}

/// <summary>What is asked about a decision, as it was typed, and the answers. Nothing of it goes on record.</summary>
/// <param name="First">First of two exercises, or empty.</param>
/// <param name="Second">Second of them, or empty.</param>
/// <param name="Exercise">The exercise that should have come first, or empty.</param>
/// <param name="Firm">Whether it is asked how firm the first place is.</param>
/// <param name="Faults">Field to what is wrong with it.</param>
public sealed record AskedAbout(string First, string Second, string Exercise, bool Firm, IReadOnlyDictionary<string, string> Faults)
{
    /// <summary>Nothing.</summary>
    public static AskedAbout Nothing { get; } = new("", "", "", false, new Dictionary<string, string>());

    /// <summary>The comparison, or null.</summary>
    public ComparisonAnswer? Comparison { get; init; }

    /// <summary>What would have changed it, or null.</summary>
    public CounterfactualsAnswer? Changes { get; init; }

    /// <summary>How firm the first place is, or null.</summary>
    public SensitivityAnswer? Firmness { get; init; }
}
