using Recommender.Domain.Decisions;

namespace Recommender.Storage.Decisions;

/// <summary>Where decisions are kept: appended, never changed.</summary>
public interface IDecisionLog
{
    /// <summary>Appends records all together, after one another, and answers only when they are durable.</summary>
    /// <param name="records">At least one; all of one organisation.</param>
    /// <param name="claim">The idempotency key they belong to, or null.</param>
    /// <returns>False, with nothing stored, when the claim's key was taken meanwhile.</returns>
    /// <exception cref="StoreUnavailableException">They could not be stored; nothing was.</exception>
    /// <exception cref="ArgumentException">There is no record, they are of several organisations, or one breaks a rule of the store, such as an id used before; nothing was stored.</exception>
    ValueTask<bool> Append(IReadOnlyList<DecisionRecord> records, IdempotencyClaim? claim);

    /// <summary>Stores an answer that is no decision under an idempotency key, durably.</summary>
    /// <param name="organisation">Whose key it is.</param>
    /// <param name="claim">The key and the answer.</param>
    /// <returns>False, with nothing stored, when the key was taken meanwhile, or what is personal in the decision that the answer is about was erased.</returns>
    /// <exception cref="StoreUnavailableException">It could not be stored.</exception>
    ValueTask<bool> Claim(string organisation, IdempotencyClaim claim);

    /// <summary>One record with its place in the chain, or null when the organisation has none of this id.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    Task<StoredDecision?> Read(string organisation, string decisionId);

    /// <summary>The answer that was stored under a key since <paramref name="notBefore"/>, or null.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    Task<StoredAnswer?> ReadClaim(string organisation, string key, DateTimeOffset notBefore);

    /// <summary>Erases what is personal in an athlete's decisions, and the answers kept under the keys of that athlete's requests. The chain holds.</summary>
    /// <returns>How many decisions it was erased from.</returns>
    /// <exception cref="StoreUnavailableException">It could not be erased; nothing was.</exception>
    Task<int> Erase(string organisation, string athleteRef);
}

/// <summary>A key under which a caller may ask again.</summary>
/// <param name="Key">The caller's key.</param>
/// <param name="BodyHash">Hash of method, path and body.</param>
/// <param name="Response">The answer as it was sent.</param>
/// <param name="CreatedAt">When.</param>
/// <param name="NotBefore">Older claims of the same key have lapsed and are replaced.</param>
public sealed record IdempotencyClaim(string Key, ReadOnlyMemory<byte> BodyHash, ReadOnlyMemory<byte> Response, DateTimeOffset CreatedAt, DateTimeOffset NotBefore)
{
    /// <summary>HTTP status that the answer was sent with.</summary>
    public int Status { get; init; } = 200;

    /// <summary>A decision on record that the answer is about; once what is personal in it is erased the claim is not stored. Null for none.</summary>
    public string? OfDecision { get; init; }

    /// <summary>Refs of the athletes that the request was about, so that erasing one of them finds the key.</summary>
    public IReadOnlyCollection<string> AthleteRefs { get; private init; } = [];

    /// <summary>The claim of a request that was about these athletes; null stands for one without ref.</summary>
    public IdempotencyClaim About(IEnumerable<string?> athleteRefs) => this with { AthleteRefs = [.. athleteRefs.OfType<string>().Distinct(StringComparer.Ordinal)] };
}

/// <summary>An answer stored under a key.</summary>
/// <param name="BodyHash">Hash of the body it answered.</param>
/// <param name="Response">The answer as it was sent.</param>
/// <param name="Status">HTTP status that it was sent with.</param>
public sealed record StoredAnswer(ReadOnlyMemory<byte> BodyHash, ReadOnlyMemory<byte> Response, int Status);

/// <summary>The store cannot be used now; the same call may succeed later.</summary>
/// <param name="message">What happened, for the log; not for callers.</param>
/// <param name="inner">Cause.</param>
public class StoreUnavailableException(string message, Exception? inner = null) : Exception(message, inner)
{
    /// <summary>Whether what was sent may be stored all the same: its commit broke off, and nobody could tell what became of it.</summary>
    public bool MayBeStored { get; init; }
}
