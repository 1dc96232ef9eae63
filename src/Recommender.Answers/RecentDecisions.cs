using Recommender.Domain.Audit;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>What an athlete was given lately, and what changed from one recommendation to the next.</summary>
/// <param name="reader">Lists decisions.</param>
/// <param name="decisions">Opens them.</param>
/// <param name="editions">Editions they were made on.</param>
/// <param name="inForce">Edition to ask where that of a decision is gone.</param>
public sealed class RecentDecisions(DecisionReader reader, OpenDecision decisions, Editions editions, EditionInForce inForce)
{
    private const int Most = 60;

    /// <summary>Recommendations since a moment, newest first, each with what changed since the one before it. Where several were asked in one day, by UTC, the last counts.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="athlete">The athlete's ref.</param>
    /// <param name="since">Not before this moment; the one before the first is looked for beyond it.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<GivenDay>> Of(string organisation, string athlete, DateTimeOffset since)
    {
        var listed = await reader.List(organisation, new DecisionFilter { Athlete = athlete, Kind = DecisionKind.Recommendation.Id }, null, Most).ConfigureAwait(false);
        var days = listed.GroupBy(d => Day.Of(d.CreatedAt)).Select(g => (Last: g.First(), Asked: g.Count())).ToList();
        var wanted = days.TakeWhile(d => d.Last.CreatedAt >= since).Count();
        var opened = new List<(OpenedDecision<RecommendationRequest, Answer> Decision, Edition Edition, int Asked)>();
        foreach (var (last, asked) in days.Take(wanted + 1))
        {
            if (await decisions.Recommendation(organisation, last.DecisionId).ConfigureAwait(false) is { } decision)
            {
                opened.Add((decision, await editions.Of(organisation, decision.Answer.Versions).ConfigureAwait(false) ?? await inForce.Of(organisation).ConfigureAwait(false), asked));
            }
        }

        return [.. opened.Take(wanted).Select((o, i) => i + 1 < opened.Count ? Since(opened[i + 1], o) : new GivenDay(o.Decision, o.Asked, null, []))];
    }

    private static GivenDay Since((OpenedDecision<RecommendationRequest, Answer> Decision, Edition Edition, int Asked) before, (OpenedDecision<RecommendationRequest, Answer> Decision, Edition Edition, int Asked) after) =>
        new(after.Decision, after.Asked, before.Decision, PickChanges.Of(new Decided(before.Decision.Request, before.Decision.Answer, before.Edition), new Decided(after.Decision.Request, after.Decision.Answer, after.Edition)));
}

/// <summary>What was given on a day of UTC.</summary>
/// <param name="Decision">The last recommendation of the day.</param>
/// <param name="Asked">How often was asked that day.</param>
/// <param name="Before">The recommendation before it, or null.</param>
/// <param name="Changes">What changed since that.</param>
public sealed record GivenDay(OpenedDecision<RecommendationRequest, Answer> Decision, int Asked, OpenedDecision<RecommendationRequest, Answer>? Before, IReadOnlyList<PickChange> Changes);
