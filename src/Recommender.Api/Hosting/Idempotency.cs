using System.Security.Cryptography;
using System.Text;
using Recommender.Api.Problems;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Hosting;

/// <summary>The Idempotency-Key of a request: the same key and body gives the stored answer, another body is refused.</summary>
public sealed class Idempotency
{
    /// <summary>Header name.</summary>
    public const string Header = "Idempotency-Key";

    /// <summary>Most characters of a key.</summary>
    public const int LongestKey = 200;

    private static readonly TimeSpan Kept = TimeSpan.FromHours(24);
    private readonly string organisation;
    private readonly string key;
    private readonly byte[] bodyHash;

    private Idempotency(string organisation, string key, byte[] bodyHash)
    {
        this.organisation = organisation;
        this.key = key;
        this.bodyHash = bodyHash;
    }

    /// <summary>The key was taken when the answer was to be stored and is free again: nothing was stored, and asking again is right.</summary>
    public static Problem Lapsed => Problem.Of(ProblemTypes.StoreUnavailable, "The key ran out while this request was answered. Send the same request again.");

    /// <summary>The key that was sent; null with no problem when none was.</summary>
    public static (Idempotency? Sent, Problem? Problem) Of(HttpRequest request, byte[] body)
    {
        var values = request.Headers[Header];
        if (values.Count == 0)
        {
            return (null, null);
        }

        if (values is not [{ Length: > 0 and <= LongestKey } key] || key.Any(c => c is < '!' or > '~'))
        {
            return (null, Problem.Of(ProblemTypes.Malformed, $"{Header} is given more than once, empty, longer than {LongestKey} characters or not plain ASCII; give one plain key."));
        }

        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes($"{request.Method} {request.Path}\n"));
        hash.AppendData(body);
        return (new Idempotency(request.HttpContext.Caller().Organisation, key, hash.GetHashAndReset()), null);
    }

    /// <summary>The stored answer or the conflict under this key; null when the key is free.</summary>
    public async Task<IResult?> Stored(IDecisionLog log, TimeProvider clock)
    {
        var stored = await log.ReadClaim(organisation, key, clock.GetUtcNow() - Kept).ConfigureAwait(false);
        return stored is null ? null
            : stored.BodyHash.Span.SequenceEqual(bodyHash) ? new JsonBytes(stored.Response, stored.Status)
            : Problem.Of(ProblemTypes.KeyConflict, "The key was sent with another path or body in the last 24 hours; use a new key.");
    }

    /// <summary>The claim that stores an answer under this key.</summary>
    public IdempotencyClaim Claim(byte[] response, DateTimeOffset now) => new(key, bodyHash, response, now, now - Kept);
}
