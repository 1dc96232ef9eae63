using Recommender.Domain.Decisions;
using Recommender.Domain.Groups;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Pages.Answers;

namespace Recommender.Pages.Squad;

/// <summary>Everything that a group's sheet shows.</summary>
/// <param name="Lines">Athletes in the order of the squad.</param>
/// <param name="Lacking">Names of those who could not be answered.</param>
/// <param name="Trades">Trades that may be made; none once some were.</param>
/// <param name="Stations">Rounds at the racks and beside them; null where there is nothing to lay out.</param>
/// <param name="Racks">How many racks.</param>
/// <param name="Address">Query of the sheet as it stands, with its question mark, without the racks.</param>
/// <param name="Edition">Words and rules.</param>
/// <param name="Notice">What to tell, or null.</param>
/// <param name="Token">Form token.</param>
public sealed record ShownSheet(IReadOnlyList<SheetLine> Lines, IReadOnlyList<string> Lacking, IReadOnlyList<GroupTrade> Trades, StationPlan? Stations, int Racks, string Address, Edition Edition, string? Notice, string Token);

/// <summary>An athlete's line on a group's sheet.</summary>
/// <param name="DecisionId">Decision.</param>
/// <param name="CreatedAt">When.</param>
/// <param name="Name">Who.</param>
/// <param name="Reference">Ref, or null.</param>
/// <param name="Request">What was asked.</param>
/// <param name="Answer">The answer.</param>
/// <param name="Picks">Picks as they stand, trades put in.</param>
/// <param name="Swaps">Trades as the answer's own address has them.</param>
public sealed record SheetLine(string DecisionId, DateTimeOffset CreatedAt, string Name, string? Reference, RecommendationRequest Request, Answer Answer, IReadOnlyList<ShownPick> Picks, IReadOnlyList<Swap> Swaps)
{
    /// <summary>Address of the answer with what was traded.</summary>
    public string AnswerAddress => $"/answers/{DecisionId}{(Swaps.Count == 0 ? "" : "?" + string.Join('&', Swaps.Select(s => s.Query)))}";
}

/// <summary>A trade that stands in a sheet's address.</summary>
/// <param name="Line">Place of the athlete on the sheet, from 0.</param>
/// <param name="Swap">The swap of the athlete's answer.</param>
public sealed record SheetTrade(int Line, Swap Swap)
{
    /// <summary>Name of the query field.</summary>
    public const string Field = "trade";

    /// <summary>As a query field.</summary>
    public string Query => $"{Field}={Line}:{Swap.Rank}:{Swap.DecisionId}:{Uri.EscapeDataString(Swap.Exercise)}";

    /// <summary>Reads one; null when it is none.</summary>
    public static SheetTrade? Of(string? text) => text?.Split(':', 2) is [var line, var rest] && int.TryParse(line, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var at) && Swap.Of(rest) is { } swap
        ? new SheetTrade(at, swap) : null;
}
