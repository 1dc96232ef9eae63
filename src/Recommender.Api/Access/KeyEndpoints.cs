using System.Text.Json;
using Recommender.Answers.Access;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;

namespace Recommender.Api.Access;

/// <summary>GET and POST /v1/keys, POST /v1/keys/{id}/rotation, DELETE /v1/keys/{id}.</summary>
public static class KeyEndpoints
{
    private const string NoKey = "Your organisation has no key of this id; GET /v1/keys lists those that it has.";

    /// <summary>Maps the slice.</summary>
    public static void MapKeys(this IEndpointRouteBuilder routes)
    {
        ProblemType[] ofBodies = [.. OpenApiProblems.OfBodies.Where(p => p != ProblemTypes.KeyConflict)];
        routes.MapGet("/v1/keys", List).WithTags("Keys").WithName("listKeys").Produces<KeyList>(contentType: "application/json").MayAnswer(ProblemTypes.StoreUnavailable);
        routes.MapPost("/v1/keys", Create).WithTags("Keys").WithName("createKey").Accepts<KeyRequest>("application/json")
            .Produces<NewKey>(StatusCodes.Status201Created, "application/json").MayAnswer([.. ofBodies, ProblemTypes.StateForbids]);
        routes.MapPost("/v1/keys/{id}/rotation", Rotate).WithTags("Keys").WithName("rotateKey").Accepts<RotationRequest>(isOptional: true, "application/json")
            .Produces<NewKey>(contentType: "application/json").MayAnswer([.. ofBodies, ProblemTypes.NotFound, ProblemTypes.StateForbids]);
        routes.MapDelete("/v1/keys/{id}", Revoke).WithTags("Keys").WithName("revokeKey").Produces(StatusCodes.Status204NoContent).MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
    }

    /// <summary>Keys of your organisation.</summary>
    /// <remarks>Newest first, those that were ended too. Secrets are not kept, so none is shown.</remarks>
    /// <param name="context">Says who asks.</param>
    /// <param name="keys">Keeps keys.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">Keys.</response>
    private static async Task<IResult> List(HttpContext context, AccessKeys keys, TimeProvider clock) =>
        new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(new KeyList([.. (await keys.List(context.Caller().Organisation)).Select(k => KeyLine.Of(k, clock.GetUtcNow()))]), ApiJson.Default.KeyList));

    /// <summary>Make a key.</summary>
    /// <remarks>
    /// For your organisation, with any scopes. The answer holds the key, this once: only a salted hash of it is kept. For the same reason an Idempotency-Key is refused here. The first key of an
    /// organisation is made by the command keys create.
    /// </remarks>
    /// <param name="context">Carries the body.</param>
    /// <param name="keys">Makes keys.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="201">The key, and what is kept of it.</response>
    /// <response code="409">The organisation has as many keys as it may; end one first.</response>
    private static async Task<IResult> Create(HttpContext context, AccessKeys keys, TimeProvider clock)
    {
        var caller = context.Caller();
        if (caller.KeyId is null)
        {
            return Problem.Of(ProblemTypes.ScopeMissing, "The first key is made on the machine itself, by the command keys create.");
        }

        var (request, unread) = await Read<KeyRequest>(context, optional: false);
        if (request is null)
        {
            return unread!;
        }

        var faults = Faults(request);
        if (faults.Count > 0)
        {
            return Problem.Of(ProblemTypes.Invalid, faults);
        }

        var life = request.ExpiresInDays is { } days ? TimeSpan.FromDays(days) : (TimeSpan?)null;
        return await keys.Create(caller.Organisation, ScopeWords.Read(request.Scopes!), request.Note, life) is { } made
            ? Shown(made, clock, StatusCodes.Status201Created)
            : Problem.Of(ProblemTypes.StateForbids, $"Your organisation has {AccessKeys.Most} keys that have not been ended; end one first.");
    }

    /// <summary>Change the secret of a key.</summary>
    /// <remarks>
    /// The id, scopes and end of the key stay. The secret so far ends at once, or with overlapMinutes holds beside the new one for that time; one from an earlier rotation ends now. Sign-ins on the pages
    /// with this key end. The body may be left out. An Idempotency-Key is refused here, since a secret is shown once and not kept.
    /// </remarks>
    /// <param name="id">Id of the key.</param>
    /// <param name="context">Carries the body.</param>
    /// <param name="keys">Changes keys.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">The key with its new secret, and what is kept of it.</response>
    /// <response code="404">Your organisation has no key of this id.</response>
    /// <response code="409">The key was ended or is at its end; make another.</response>
    private static async Task<IResult> Rotate(string id, HttpContext context, AccessKeys keys, TimeProvider clock)
    {
        var (request, unread) = await Read<RotationRequest>(context, optional: true);
        if (request is null)
        {
            return unread!;
        }

        if (request.OverlapMinutes is < 0 or > AccessKeys.LongestOverlapMinutes)
        {
            return Problem.Of(ProblemTypes.Invalid, new Fault("/overlapMinutes", "out-of-range", $"overlapMinutes is {request.OverlapMinutes}; give 0 to {AccessKeys.LongestOverlapMinutes}."));
        }

        var organisation = context.Caller().Organisation;
        return await keys.Rotate(organisation, id, TimeSpan.FromMinutes(request.OverlapMinutes ?? 0)) is { } changed ? Shown(changed, clock, StatusCodes.Status200OK)
            : await keys.One(organisation, id) is null ? Problem.Of(ProblemTypes.NotFound, NoKey)
            : Problem.Of(ProblemTypes.StateForbids, "The key was ended or is at its end; make another.");
    }

    /// <summary>End a key.</summary>
    /// <remarks>For good, and within two seconds on every program of the store, sign-ins on the pages too. Ending it again changes nothing.</remarks>
    /// <param name="id">Id of the key.</param>
    /// <param name="context">Says who asks.</param>
    /// <param name="keys">Ends keys.</param>
    /// <response code="204">It is ended.</response>
    /// <response code="404">Your organisation has no key of this id.</response>
    private static async Task<IResult> Revoke(string id, HttpContext context, AccessKeys keys)
    {
        var organisation = context.Caller().Organisation;
        return await keys.Revoke(organisation, id) || await keys.One(organisation, id) is not null ? Results.NoContent() : Problem.Of(ProblemTypes.NotFound, NoKey);
    }

    private static List<Fault> Faults(KeyRequest request)
    {
        var faults = new List<Fault>();
        if (request.Scopes is not { Count: > 0 } scopes)
        {
            faults.Add(new Fault("/scopes", "required", $"scopes is missing or empty; give at least one of {string.Join(", ", ScopeWords.All)}."));
        }
        else
        {
            faults.AddRange(scopes.Select((word, i) => (word, i)).Where(s => ScopeWords.Read(s.word) == Scopes.None)
                .Select(s => new Fault($"/scopes/{s.i}", "unknown-id", $"there is no such scope; give {string.Join(", ", ScopeWords.All)}.")));
            if (scopes.Distinct(StringComparer.Ordinal).Count() < scopes.Count)
            {
                faults.Add(new Fault("/scopes", "contradiction", "a scope stands twice; give each once."));
            }
        }

        if (request.Note is { } note && (note.Length is 0 or > AccessKeys.LongestNote || note.Any(char.IsControl)))
        {
            faults.Add(new Fault("/note", "out-of-range", $"note is empty, longer than {AccessKeys.LongestNote} characters or holds control characters; give 1 to {AccessKeys.LongestNote} printable characters, or leave it out."));
        }

        if (request.ExpiresInDays is < 1 or > AccessKeys.LongestLifeDays)
        {
            faults.Add(new Fault("/expiresInDays", "out-of-range", $"expiresInDays is {request.ExpiresInDays}; give 1 to {AccessKeys.LongestLifeDays}, or leave it out."));
        }

        return faults;
    }

    private static async Task<(T? Request, IResult? Unread)> Read<T>(HttpContext context, bool optional) where T : class
    {
        if (context.Request.Headers.ContainsKey(Idempotency.Header))
        {
            return (null, Problem.Of(ProblemTypes.Malformed, $"{Idempotency.Header} is not taken here: the answer holds a secret, which is shown once and not kept. Leave it out."));
        }

        var (body, unread) = optional ? await BodyReader.ReadOptional(context.Request, BodyReader.SingleLimit) : await BodyReader.Read(context.Request, BodyReader.SingleLimit);
        if (unread is not null)
        {
            return (null, unread);
        }

        return RequestReader.Read<T>(body ?? "{}"u8.ToArray(), out var fault) is { } request ? (request, null) : (null, Problem.Of(ProblemTypes.Malformed, fault!));
    }

    private static JsonBytes Shown((KeySecret, Storage.Access.StoredKey) made, TimeProvider clock, int status) =>
        new(JsonSerializer.SerializeToUtf8Bytes(NewKey.Of(made, clock.GetUtcNow()), ApiJson.Default.NewKey), status);
}
