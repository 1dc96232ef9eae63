using Recommender.Storage.Decisions;

namespace Recommender.Api.Hosting;

/// <summary>A body that was posted and its idempotency key.</summary>
/// <param name="Body">Body.</param>
/// <param name="Key">Key, or null when none was sent.</param>
internal sealed record Posted(byte[] Body, Idempotency? Key)
{
    /// <summary>Makes the claim that stores an answer under the key; null without one.</summary>
    public Func<byte[], DateTimeOffset, IdempotencyClaim>? Claim => Key is null ? null : Key.Claim;

    /// <summary>A body, or none, with the key that was sent beside it.</summary>
    private static async Task<(Posted? Posted, IResult? AtOnce)> Keyed(HttpContext context, byte[]? body, IDecisionLog log, TimeProvider clock)
    {
        var (key, badKey) = Idempotency.Of(context.Request, body ?? []);
        if (badKey is not null)
        {
            return (null, badKey);
        }

        return key is not null && await key.Stored(log, clock) is { } before ? (null, before) : (new Posted(body ?? "{}"u8.ToArray(), key), null);
    }

    /// <summary>Reads body and key.</summary>
    /// <returns>What was posted; or what to answer at once: a problem, or the answer that is stored under the key.</returns>
    public static async Task<(Posted? Posted, IResult? AtOnce)> Read(HttpContext context, int limit, IDecisionLog log, TimeProvider clock)
    {
        var (body, unread) = await BodyReader.Read(context.Request, limit);
        if (unread is not null)
        {
            return (null, unread);
        }

        return await Keyed(context, body, log, clock);
    }

    /// <summary>Reads body and key of a call whose body may be left out; it is then an empty object.</summary>
    /// <inheritdoc cref="Read"/>
    public static async Task<(Posted? Posted, IResult? AtOnce)> ReadOptional(HttpContext context, int limit, IDecisionLog log, TimeProvider clock)
    {
        var (body, unread) = await BodyReader.ReadOptional(context.Request, limit);
        return unread is not null ? (null, unread) : await Keyed(context, body, log, clock);
    }

    /// <summary>Gives an answer that is no decision, kept under the key when one was sent.</summary>
    /// <exception cref="StoreUnavailableException">A key was sent and the answer could not be stored.</exception>
    public async Task<IResult> Keep(string organisation, byte[] sent, IDecisionLog log, TimeProvider clock, int status = StatusCodes.Status200OK) =>
        Claim is null || await log.Claim(organisation, Claim(sent, clock.GetUtcNow()) with { Status = status }) ? new JsonBytes(sent, status) : await Taken(log, clock);

    /// <summary>Gives an answer about a decision of an athlete, kept under the key when one was sent. It goes with the athlete when they are erased, and is not kept once they are.</summary>
    /// <exception cref="StoreUnavailableException">A key was sent and the answer could not be stored.</exception>
    public async Task<IResult> Keep(string organisation, byte[] sent, IDecisionLog log, TimeProvider clock, int status, (string DecisionId, string? AthleteRef) about, IResult whenErased) =>
        Claim is null || await log.Claim(organisation, Claim(sent, clock.GetUtcNow()).About([about.AthleteRef]) with { Status = status, OfDecision = about.DecisionId }) ? new JsonBytes(sent, status)
            : await Key!.Stored(log, clock) ?? (await log.Read(organisation, about.DecisionId) is { PersonalDataErased: true } ? whenErased : Idempotency.Lapsed);

    /// <summary>What stands under the key that was taken while this was answered.</summary>
    public async Task<IResult> Taken(IDecisionLog log, TimeProvider clock) => await Key!.Stored(log, clock) ?? Idempotency.Lapsed;
}
