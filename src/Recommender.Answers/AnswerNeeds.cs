using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Tells what an athlete needs. That is no decision: nothing goes on record but the answer under an idempotency key.</summary>
/// <param name="editions">Gives the edition in force.</param>
/// <param name="log">Keeps answers under keys.</param>
/// <param name="clock">Gives the time of a claim.</param>
public sealed class AnswerNeeds(EditionInForce editions, IDecisionLog log, TimeProvider clock)
{
    /// <summary>Answers one request.</summary>
    /// <param name="request">A request as it was read.</param>
    /// <param name="organisation">Who asks.</param>
    /// <param name="claim">Makes the idempotency claim from the answer's bytes; null when no key was sent.</param>
    /// <exception cref="StoreUnavailableException">A key was sent and its answer could not be stored.</exception>
    public async Task<NeedsOutcome> One(RecommendationRequest request, string organisation, Func<byte[], DateTimeOffset, IdempotencyClaim>? claim)
    {
        var edition = await editions.Of(organisation).ConfigureAwait(false);
        var faults = RequestChecks.Of(request, edition.Catalogue, edition.Knowledge);
        if (faults.Count > 0)
        {
            return new NeedsOutcome(faults, null, false);
        }

        var sent = JsonSerializer.SerializeToUtf8Bytes(NeedsPipeline.Answer(request, edition), WireJson.Default.NeedsAnswer);
        var stored = claim is null || await log.Claim(organisation, claim(sent, clock.GetUtcNow()).About([request.Athlete?.Ref])).ConfigureAwait(false);
        return new NeedsOutcome([], sent, !stored);
    }
}

/// <summary>What became of a request for needs.</summary>
/// <param name="Faults">What was wrong with it; empty when it was answered.</param>
/// <param name="Sent">The answer's bytes.</param>
/// <param name="KeyTaken">Whether the idempotency key was taken meanwhile, so that this answer must not leave.</param>
public sealed record NeedsOutcome(IReadOnlyList<Fault> Faults, byte[]? Sent, bool KeyTaken);
