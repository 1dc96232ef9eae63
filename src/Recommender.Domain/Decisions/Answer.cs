using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Explanations;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Decisions;

/// <summary>What became of a request.</summary>
[JsonConverter(typeof(KebabEnumConverter<AnswerStatus>))]
public enum AnswerStatus
{
    /// <summary>There are picks.</summary>
    Answered,

    /// <summary>A clinician first; no picks.</summary>
    Referred,

    /// <summary>Nothing passed every gate and served a need.</summary>
    NothingEligible,
}

/// <summary>The answer to a recommendation request.</summary>
public sealed record Answer : IDecided
{
    /// <summary>Id under which the decision is on record.</summary>
    public required string DecisionId { get; init; }

    /// <summary>What became of the request.</summary>
    public required AnswerStatus Status { get; init; }

    /// <inheritdoc/>
    string? IDecided.Top => Picks.Count > 0 ? Picks[0].Exercise.Id : null;

    /// <inheritdoc/>
    IReadOnlyList<string> IDecided.Exercises => [.. Picks.Select(p => p.Exercise.Id)];

    /// <summary>How many exercises passed every gate.</summary>
    public required int EligibleCount { get; init; }

    /// <summary>Picks, best first.</summary>
    public required IReadOnlyList<Pick> Picks { get; init; }

    /// <summary>Limits that the complaints put on tissue load.</summary>
    public required IReadOnlyList<Limit> Limits { get; init; }

    /// <summary>What was left out, and why.</summary>
    public required LeftOut LeftOut { get; init; }

    /// <summary>What the athlete needs; weights sum to 1.</summary>
    public required IReadOnlyList<NeedLine> Needs { get; init; }

    /// <summary>Needs that no pick serves strongly.</summary>
    public required IReadOnlyList<UnmetNeed> Unmet { get; init; }

    /// <summary>What was taken because the request left it out.</summary>
    public required IReadOnlyList<Assumption> Assumed { get; init; }

    /// <summary>A referral to a clinician, or null.</summary>
    public required Referral? Referral { get; init; }

    /// <summary>What a person should read first.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>What the answer was made on.</summary>
    public required VersionStamp Versions { get; init; }
}

/// <summary>One pick.</summary>
/// <param name="Rank">1 is first.</param>
/// <param name="Exercise">The exercise in short.</param>
/// <param name="Score">The sum of the contributions.</param>
/// <param name="Contributions">One a factor.</param>
/// <param name="Dose">How much to do; null where a clinician doses, as within a clearance.</param>
/// <param name="TissueLoad">Load on regions that are sore or that the event wears.</param>
/// <param name="Why">Why it is here, in plain sentences.</param>
/// <param name="Cautions">What to mind.</param>
/// <param name="Evidence">What the score rests on.</param>
public record Pick(int Rank, ExerciseBrief Exercise, Points Score, IReadOnlyList<Contribution> Contributions, Dose? Dose, IReadOnlyDictionary<string, TissueLoad> TissueLoad,
    IReadOnlyList<string> Why, IReadOnlyList<string> Cautions, EvidenceShare Evidence);

/// <summary>An exercise in short.</summary>
/// <param name="Id">Exercise id.</param>
/// <param name="Name">Trade name.</param>
/// <param name="Synonyms">Other trade names.</param>
/// <param name="Family">Variant family.</param>
/// <param name="Pattern">Movement pattern.</param>
/// <param name="Support">Support.</param>
/// <param name="LoadingRate">Loading rate.</param>
/// <param name="Equipment">What it is done with here: the first alternative that is at hand.</param>
public sealed record ExerciseBrief(string Id, string Name, IReadOnlyList<string> Synonyms, string Family, string Pattern, Support Support, LoadingRate LoadingRate, IReadOnlyList<string> Equipment);

/// <summary>What gates refused.</summary>
/// <param name="Count">Exercises refused.</param>
/// <param name="ByReason">By reason, most first; one refused by several counts in each.</param>
/// <param name="Nearest">The best of those that a single gate refused.</param>
public sealed record LeftOut(int Count, IReadOnlyList<ReasonCount> ByReason, IReadOnlyList<NearMiss> Nearest);

/// <summary>How many a reason refused.</summary>
/// <param name="Reason">Reason id.</param>
/// <param name="Count">Exercises.</param>
public sealed record ReasonCount(string Reason, int Count);

/// <summary>An exercise that a single gate refused.</summary>
/// <param name="Exercise">Exercise id.</param>
/// <param name="Reason">Reason id.</param>
/// <param name="Limit">What would have passed, a number or a text, or null.</param>
/// <param name="Value">What was found, a number or a text, or null.</param>
/// <param name="WouldBeAllowedIf">What would let it in.</param>
public sealed record NearMiss(string Exercise, string Reason, object? Limit, object? Value, string WouldBeAllowedIf);

/// <summary>One need.</summary>
/// <param name="Quality">Quality id.</param>
/// <param name="Weight">0 to 1, four decimals.</param>
/// <param name="From">Where it comes from; shares sum to 1.</param>
public sealed record NeedLine(string Quality, decimal Weight, IReadOnlyList<NeedFrom> From)
{
    /// <summary>The needs of a profile as they travel, heaviest first.</summary>
    public static IReadOnlyList<NeedLine> Of(NeedProfile profile)
    {
        var lines = new NeedLine[profile.Needs.Count];
        for (var n = 0; n < lines.Length; n++)
        {
            var need = profile.Needs[n];
            var from = new NeedFrom[need.From.Count];
            for (var f = 0; f < from.Length; f++)
            {
                from[f] = new NeedFrom(need.From[f].Source, need.From[f].Share, need.From[f].Note);
            }

            lines[n] = new NeedLine(need.Quality, need.Weight, from);
        }

        return lines;
    }
}

/// <summary>Where part of a need comes from.</summary>
/// <param name="Source">event-profile, coach, test or complaint.</param>
/// <param name="Share">0 to 1, three decimals.</param>
/// <param name="Note">In plain words.</param>
public sealed record NeedFrom(string Source, decimal Share, string Note);

/// <summary>A need that no pick serves strongly.</summary>
/// <param name="Quality">Quality id.</param>
/// <param name="Because">Why not.</param>
public sealed record UnmetNeed(string Quality, string Because);

/// <summary>What an answer was made on.</summary>
/// <param name="Engine">Number of the arithmetic; raised by hand whenever it changes.</param>
/// <param name="Catalogue">Content hash of the catalogue.</param>
/// <param name="Rules">Content hash of the rules.</param>
/// <param name="Preference">Version of the learned preference, or null while none is in force.</param>
public sealed record VersionStamp(int Engine, string Catalogue, string Rules, string? Preference);
