using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Opens a record with its personal part put back.</summary>
/// <param name="log">Keeps decisions.</param>
public sealed class ReadDecision(IDecisionLog log)
{
    /// <summary>The record and the request as it was sent, as JSON, or null when the organisation has none of this id.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<(StoredDecision Stored, byte[] Request)?> Open(string organisation, string decisionId) =>
        await log.Read(organisation, decisionId).ConfigureAwait(false) is { } stored
            ? (stored, RequestOf(stored))
            : null;

    /// <summary>The request of a record as it was sent, as JSON; without the personal part once that was erased.</summary>
    public static byte[] RequestOf(StoredDecision stored) => DecisionKind.Of(stored.Record.Kind).Whole(stored.Record.Request.Span, stored.Record.Personal.Span);
}
