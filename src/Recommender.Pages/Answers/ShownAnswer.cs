using Recommender.Answers.Learned;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Answers;

/// <summary>Everything that the answer page shows.</summary>
/// <param name="DecisionId">The decision on record.</param>
/// <param name="CreatedAt">When.</param>
/// <param name="Request">Its request, or that of the what-if.</param>
/// <param name="Answer">Its answer, or that of the what-if.</param>
/// <param name="Picks">Picks as they stand, swaps put in.</param>
/// <param name="Athlete">Name of the saved athlete, or the ref, or null.</param>
/// <param name="Edition">For words, how-to and sources.</param>
/// <param name="WhatIf">What was changed for looking; nothing when this is the answer itself.</param>
/// <param name="Gone">Picks of the decision that the what-if lost, with why.</param>
/// <param name="Swaps">Swaps as they stand in the address.</param>
/// <param name="Token">Form token.</param>
public sealed record ShownAnswer(string DecisionId, DateTimeOffset CreatedAt, RecommendationRequest Request, Answer Answer, IReadOnlyList<ShownPick> Picks, string? Athlete, Edition Edition,
    WhatIf WhatIf, IReadOnlyList<GonePick> Gone, IReadOnlyList<Swap> Swaps, string Token)
{
    /// <summary>Exercise id of a pick of the answer to the report that counts.</summary>
    public IReadOnlyDictionary<string, OutcomeBody> Reports { get; init; } = new Dictionary<string, OutcomeBody>();

    /// <summary>The report about the pick of the answer at a rank, or null.</summary>
    public OutcomeBody? ReportOf(int rank) => Answer.Picks.FirstOrDefault(p => p.Rank == rank) is { } pick ? Reports.GetValueOrDefault(pick.Exercise.Id) : null;

    /// <summary>Address of the answer.</summary>
    public string Address => "/answers/" + DecisionId;

    /// <summary>The words in force.</summary>
    public Vocabulary Words => Edition.Catalogue.Vocabulary;

    /// <summary>Query that keeps the swaps, with its question mark; empty when there are none.</summary>
    public string SwapQuery => Swaps.Count == 0 ? "" : "?" + string.Join('&', Swaps.Select(s => s.Query));

    /// <summary>What the request asked, in one line.</summary>
    public string Situation => SituationLine.Of(Request, Words);
}

/// <summary>A pick as it stands on the page.</summary>
/// <param name="Pick">The pick.</param>
/// <param name="InsteadOf">Name of the exercise it was swapped for, or null.</param>
/// <param name="Changed">What a what-if changed about it, or null.</param>
public sealed record ShownPick(Pick Pick, string? InsteadOf, string? Changed);

/// <summary>A pick that a what-if lost.</summary>
/// <param name="Name">Name.</param>
/// <param name="Because">Why, as the gates say; or that others come first.</param>
public sealed record GonePick(string Name, string Because);

/// <summary>A swap that stands in an address: the pick's rank, the substitution on record, the exercise taken.</summary>
/// <param name="Rank">Rank of the pick that was swapped.</param>
/// <param name="DecisionId">Decision that offered the substitute.</param>
/// <param name="Exercise">Exercise taken.</param>
public sealed record Swap(int Rank, string DecisionId, string Exercise)
{
    /// <summary>Name of the query field.</summary>
    public const string Field = "swap";

    /// <summary>As a query field.</summary>
    public string Query => $"{Field}={Rank}:{DecisionId}:{Uri.EscapeDataString(Exercise)}";

    /// <summary>Reads one; null when it is none.</summary>
    public static Swap? Of(string? text) => text?.Split(':') is [var rank, var id, var exercise] && int.TryParse(rank, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var r)
        ? new Swap(r, id, exercise) : null;
}
