namespace Recommender.Domain.Decisions;

/// <summary>An answer that goes on record, whatever was asked.</summary>
public interface IDecided
{
    /// <summary>Id under which the decision is on record.</summary>
    string DecisionId { get; }

    /// <summary>What became of the request.</summary>
    AnswerStatus Status { get; }

    /// <summary>How many exercises no gate refused.</summary>
    int EligibleCount { get; }

    /// <summary>Exercise that comes first, or null.</summary>
    string? Top { get; }

    /// <summary>Ids of the exercises that it picks, and of the one that it replaces, each once.</summary>
    IReadOnlyList<string> Exercises { get; }

    /// <summary>What the answer was made on.</summary>
    VersionStamp Versions { get; }
}
