namespace Recommender.Api.Problems;

/// <summary>One kind of problem.</summary>
/// <param name="Code">Permanent kebab-case code; the relative type is /problems/ and this.</param>
/// <param name="Title">What went wrong, for any case of it.</param>
/// <param name="Status">HTTP status.</param>
public sealed record ProblemType(string Code, string Title, int Status);

/// <summary>The closed list of problems. Codes never change; wording may.</summary>
public static class ProblemTypes
{
    /// <summary>The body or the query cannot be parsed.</summary>
    public static readonly ProblemType Malformed = new("malformed-request", "The request cannot be read", StatusCodes.Status400BadRequest);

    /// <summary>The body was understood but cannot be answered.</summary>
    public static readonly ProblemType Invalid = new("invalid-request", "The request holds values that cannot be used", StatusCodes.Status422UnprocessableEntity);

    /// <summary>No key was sent where one is needed, or one that does not hold.</summary>
    public static readonly ProblemType KeyNeeded = new("key-needed", "A key that holds is needed", StatusCodes.Status401Unauthorized);

    /// <summary>The key may not do this.</summary>
    public static readonly ProblemType ScopeMissing = new("scope-missing", "The key may not do this", StatusCodes.Status403Forbidden);

    /// <summary>There is nothing under this path.</summary>
    public static readonly ProblemType NotFound = new("not-found", "There is nothing here", StatusCodes.Status404NotFound);

    /// <summary>The path knows other methods.</summary>
    public static readonly ProblemType MethodNotAllowed = new("method-not-allowed", "This method is not offered here", StatusCodes.Status405MethodNotAllowed);

    /// <summary>Nothing that the call gives is taken.</summary>
    public static readonly ProblemType NotAcceptable = new("not-acceptable", "Accept takes nothing that is given here", StatusCodes.Status406NotAcceptable);

    /// <summary>The body took too long to come.</summary>
    public static readonly ProblemType TooSlow = new("request-timeout", "The request took too long to come", StatusCodes.Status408RequestTimeout);

    /// <summary>The idempotency key belongs to another body.</summary>
    public static readonly ProblemType KeyConflict = new("idempotency-conflict", "This idempotency key belongs to another request", StatusCodes.Status409Conflict);

    /// <summary>What is there does not allow it.</summary>
    public static readonly ProblemType StateForbids = new("state-forbids", "What is there does not allow this", StatusCodes.Status409Conflict);

    /// <summary>The body is too large.</summary>
    public static readonly ProblemType TooLarge = new("body-too-large", "The body is too large", StatusCodes.Status413PayloadTooLarge);

    /// <summary>The body is not JSON by its content type.</summary>
    public static readonly ProblemType UnsupportedMediaType = new("unsupported-media-type", "The content type is not supported", StatusCodes.Status415UnsupportedMediaType);

    /// <summary>The caller asks too often.</summary>
    public static readonly ProblemType TooMany = new("too-many-requests", "Too many requests", StatusCodes.Status429TooManyRequests);

    /// <summary>The store cannot be used now.</summary>
    public static readonly ProblemType StoreUnavailable = new("store-unavailable", "Decisions cannot be stored or read now", StatusCodes.Status503ServiceUnavailable);

    /// <summary>More is asked than can be answered soon.</summary>
    public static readonly ProblemType Overloaded = new("overloaded", "Too much is asked at once", StatusCodes.Status503ServiceUnavailable);

    /// <summary>This replica takes no more work for now.</summary>
    public static readonly ProblemType NotReady = new("not-ready", "This replica is not ready", StatusCodes.Status503ServiceUnavailable);

    /// <summary>Our fault.</summary>
    public static readonly ProblemType Internal = new("internal-error", "Something went wrong here", StatusCodes.Status500InternalServerError);

    /// <summary>Every kind.</summary>
    public static IReadOnlyList<ProblemType> All { get; } =
        [Malformed, Invalid, KeyNeeded, ScopeMissing, NotFound, MethodNotAllowed, NotAcceptable, TooSlow, KeyConflict, StateForbids, TooLarge, UnsupportedMediaType, TooMany, StoreUnavailable, Overloaded, NotReady, Internal];
}
