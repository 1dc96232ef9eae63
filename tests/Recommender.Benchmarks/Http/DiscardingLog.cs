using Recommender.Domain.Decisions;
using Recommender.Storage.Decisions;

namespace Recommender.Benchmarks.Http;

/// <summary>Takes decisions and forgets them: the request path without a store.</summary>
internal sealed class DiscardingLog : IDecisionLog
{
    public ValueTask<bool> Append(IReadOnlyList<DecisionRecord> records, IdempotencyClaim? claim) => ValueTask.FromResult(true);

    public ValueTask<bool> Claim(string organisation, IdempotencyClaim claim) => ValueTask.FromResult(true);

    public Task<StoredDecision?> Read(string organisation, string decisionId) => Task.FromResult<StoredDecision?>(null);

    public Task<StoredAnswer?> ReadClaim(string organisation, string key, DateTimeOffset notBefore) => Task.FromResult<StoredAnswer?>(null);

    public Task<int> Erase(string organisation, string athleteRef) => Task.FromResult(0);
}
