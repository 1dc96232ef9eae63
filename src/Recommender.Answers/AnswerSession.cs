using System.Text.Json;
using Recommender.Answers.Learned;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Answers sessions; reads the picks of an earlier decision where one is named.</summary>
public sealed class AnswerSession : AnswerDecision<SessionRequest, SessionAnswer>
{
    private readonly EditionInForce editions;
    private readonly IDecisionLog log;

    /// <param name="editions">Gives the edition in force.</param>
    /// <param name="log">Keeps decisions.</param>
    /// <param name="facts">Reads what a request does not say itself.</param>
    /// <param name="clock">Gives the time of a record.</param>
    public AnswerSession(EditionInForce editions, IDecisionLog log, ReadFacts facts, TimeProvider clock)
        : base(DecisionKind.Session, editions, log, facts, clock)
    {
        this.editions = editions;
        this.log = log;
    }

    /// <inheritdoc/>
    public override async Task<MadeAnswer<SessionAnswer>> Make(SessionRequest request, string organisation)
    {
        if (request.PreviousDecision is not { } id || !Guid.TryParseExact(id, "D", out _))
        {
            return await base.Make(request, organisation).ConfigureAwait(false);
        }

        if (await log.Read(organisation, id).ConfigureAwait(false) is { } stored)
        {
            return await base.Make(new SessionRequestKeeping(request, PicksOf(stored)), organisation).ConfigureAwait(false);
        }

        var unknown = new Fault("/previousDecision", "unknown-id", "there is no decision of this id; give the decisionId of an earlier answer, or leave it out.");
        return MadeAnswer<SessionAnswer>.Faulty([.. DecisionKind.Session.Faults(request, await editions.Of(organisation).ConfigureAwait(false)), unknown]);
    }

    /// <summary>The picks of the decision that a stored request names; null when it names none.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    internal static async Task<EarlierPicks?> EarlierOf(DecisionRecord record, IDecisionLog log)
    {
        if (record.Kind != DecisionKind.Session.Id)
        {
            return null;
        }

        using var request = JsonDocument.Parse(record.Request);
        return request.RootElement.TryGetProperty("previousDecision", out var id) && await log.Read(record.Organisation, id.GetString()!).ConfigureAwait(false) is { } stored ? PicksOf(stored) : null;
    }

    /// <summary>The picks of a stored answer of any kind.</summary>
    private static EarlierPicks PicksOf(StoredDecision stored)
    {
        using var answer = JsonDocument.Parse(stored.Record.Answer);
        return new EarlierPicks(stored.Record.DecisionId, [.. answer.RootElement.GetProperty("picks").EnumerateArray().Select(p => p.GetProperty("exercise").GetProperty("id").GetString()!)]);
    }
}
