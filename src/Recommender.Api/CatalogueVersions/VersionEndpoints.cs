using System.Text.Json;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Api.Decisions;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;
using Recommender.Storage.Versioning;

namespace Recommender.Api.CatalogueVersions;

/// <summary>Versions of the catalogue and of the rules: list, draft, compare, try, put in force, take away.</summary>
public static class VersionEndpoints
{
    private const int UsualLast = 1000;
    private const int MostLast = 100_000;

    /// <summary>Maps the slice, once for each kind.</summary>
    public static void MapVersions(this IEndpointRouteBuilder routes)
    {
        Map<CatalogueDraft>(routes, KnowledgeKind.Catalogue, "/v1/catalogue", "Catalogue", DraftCatalogue);
        Map<RulesDraft>(routes, KnowledgeKind.Rules, "/v1/rules", "Rules", DraftRules);
    }

    private static void Map<TDraft>(IEndpointRouteBuilder routes, KnowledgeKind kind, string path, string name, Delegate draft) where TDraft : class
    {
        var slice = routes.MapGroup(path).WithTags("Versions").WithMetadata(new VersionKind(kind));
        slice.MapGet("/versions", List).WithName($"list{name}Versions").Produces<VersionList>(contentType: "application/json").MayAnswer(ProblemTypes.StoreUnavailable);
        slice.MapPost("/versions", draft).WithName($"draft{name}").Accepts<TDraft>("application/json")
            .Produces<VersionDraft>(contentType: "application/json").Produces<VersionDraft>(StatusCodes.Status201Created, "application/json").MayAnswer(OpenApiProblems.OfBodies);
        slice.MapGet("/versions/{version}", One).WithName($"get{name}Version").Produces<JsonElement>(contentType: "application/json").MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
        slice.MapDelete("/versions/{version}", Discard).WithName($"discard{name}Version").Produces(StatusCodes.Status204NoContent)
            .MayAnswer(ProblemTypes.NotFound, ProblemTypes.StateForbids, ProblemTypes.StoreUnavailable);
        slice.MapGet("/versions/{version}/changes/{other}", Changes).WithName($"compare{name}Versions").Produces<VersionDifference>(contentType: "application/json")
            .MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
        slice.MapPost("/versions/{version}/impact", Impact).WithName($"try{name}Version").Accepts<ImpactRequest>(isOptional: true, "application/json")
            .Produces<ImpactMessage>(contentType: DecisionExport.NdjsonType).MayAnswer([ProblemTypes.NotFound, .. OpenApiProblems.OfBodies.Where(p => p != ProblemTypes.KeyConflict)]);
        slice.MapPut("/current", Publish).WithName($"publish{name}").Accepts<CurrentVersion>("application/json").Produces<VersionInForce>(contentType: "application/json")
            .MayAnswer(ProblemTypes.Malformed, ProblemTypes.TooLarge, ProblemTypes.UnsupportedMediaType, ProblemTypes.Invalid, ProblemTypes.StoreUnavailable);
    }

    /// <summary>Versions that are kept.</summary>
    /// <remarks>Newest first, with which is in force. A version is named by the hash of its text, so it can only ever mean this text.</remarks>
    /// <param name="context">Says of which kind.</param>
    /// <param name="versions">Keeps versions.</param>
    /// <response code="200">Versions.</response>
    private static async Task<IResult> List(HttpContext context, KnowledgeVersions versions)
    {
        var kind = KindOf(context);
        var inForce = await versions.InForce(context.Caller().Organisation, kind);
        return Json(new VersionList([.. (await versions.List(context.Caller().Organisation, kind)).Select(v => VersionLine.Of(v, inForce))]), ApiJson.Default.VersionList);
    }

    /// <summary>Draft a catalogue.</summary>
    /// <remarks>
    /// The catalogue that it is based on with some exercises changed, checked in full with the rules in force: shapes, words, sources, ladders. Every error is told at once, at most 2,000. Nothing is
    /// in force before it is put there. With dryRun nothing is kept either.
    /// </remarks>
    /// <param name="context">Carries the body.</param>
    /// <param name="versions">Makes drafts.</param>
    /// <param name="log">Keeps answers under keys.</param>
    /// <param name="clock">Gives the time of a claim.</param>
    /// <response code="200">The draft; it was not kept, or had been kept before.</response>
    /// <response code="201">The draft, kept.</response>
    private static Task<IResult> DraftCatalogue(HttpContext context, KnowledgeVersions versions, IDecisionLog log, TimeProvider clock) =>
        Draft<CatalogueDraft>(context, d => versions.Draft(context.Caller().Organisation, d), KnowledgeKind.Catalogue, versions, log, clock);

    /// <summary>Draft rules.</summary>
    /// <remarks>
    /// The rules that it is based on with some files changed, checked in full with the catalogue in force. Every error is told at once, at most 2,000. Nothing is in force before it is put there.
    /// With dryRun nothing is kept either.
    /// </remarks>
    /// <param name="context">Carries the body.</param>
    /// <param name="versions">Makes drafts.</param>
    /// <param name="log">Keeps answers under keys.</param>
    /// <param name="clock">Gives the time of a claim.</param>
    /// <response code="200">The draft; it was not kept, or had been kept before.</response>
    /// <response code="201">The draft, kept.</response>
    private static Task<IResult> DraftRules(HttpContext context, KnowledgeVersions versions, IDecisionLog log, TimeProvider clock) =>
        Draft<RulesDraft>(context, d => versions.Draft(context.Caller().Organisation, d), KnowledgeKind.Rules, versions, log, clock);

    private static async Task<IResult> Draft<TDraft>(HttpContext context, Func<TDraft, Task<DraftOutcome>> make, KnowledgeKind kind, KnowledgeVersions versions, IDecisionLog log, TimeProvider clock)
        where TDraft : class
    {
        var (posted, atOnce) = await Posted.Read(context, BodyReader.BatchLimit, log, clock);
        if (posted is null)
        {
            return atOnce!;
        }

        if (RequestReader.Read<TDraft>(posted.Body, out var fault) is not { } draft)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        var outcome = await make(draft);
        if (outcome.Version is not { } version)
        {
            return Problem.OfMany(ProblemTypes.Invalid, outcome.Faults, KnowledgeVersions.MostFaults);
        }

        var body = new VersionDraft(version, version == await versions.InForce(context.Caller().Organisation, kind) ? "current" : "draft", outcome.BasedOn!, [.. outcome.Changes.Select(VersionChange.Of)]);
        return await posted.Keep(context.Caller().Organisation, JsonSerializer.SerializeToUtf8Bytes(body, ApiJson.Default.VersionDraft), log, clock, outcome.Kept ? StatusCodes.Status201Created : StatusCodes.Status200OK);
    }

    /// <summary>One version.</summary>
    /// <remarks>Its text: every file with its content, in canonical JSON (RFC 8785). The version is the first 32 hexadecimal digits of its SHA-256.</remarks>
    /// <param name="version">current, or a version.</param>
    /// <param name="context">Says of which kind.</param>
    /// <param name="versions">Keeps versions.</param>
    /// <response code="200">Its text.</response>
    /// <response code="404">There is no such version.</response>
    private static async Task<IResult> One(string version, HttpContext context, KnowledgeVersions versions) =>
        await versions.Text(context.Caller().Organisation, KindOf(context), version) is { } text ? new JsonBytes(text.Utf8) : NoVersion();

    /// <summary>Take a draft away.</summary>
    /// <remarks>Only a draft that was never in force: decisions may refer to any other.</remarks>
    /// <param name="version">A version.</param>
    /// <param name="context">Says of which kind.</param>
    /// <param name="versions">Keeps versions.</param>
    /// <response code="204">It is gone.</response>
    /// <response code="404">There is no such version.</response>
    /// <response code="409">It is or was in force, or came with the data folder.</response>
    private static async Task<IResult> Discard(string version, HttpContext context, KnowledgeVersions versions)
    {
        var kind = KindOf(context);
        return await versions.Discard(context.Caller().Organisation, kind, version) ? Results.NoContent()
            : await versions.Text(context.Caller().Organisation, kind, version) is null ? NoVersion()
            : Problem.Of(ProblemTypes.StateForbids, "The version is or was in force, or came with the data folder; decisions may refer to it, so it stays.");
    }

    /// <summary>What differs between two versions.</summary>
    /// <remarks>Value by value and in words. Exercises and rules are paired by their ids.</remarks>
    /// <param name="version">current, or the version before.</param>
    /// <param name="other">current, or the version after.</param>
    /// <param name="context">Says of which kind.</param>
    /// <param name="versions">Keeps versions.</param>
    /// <response code="200">What differs; nothing when they are the same.</response>
    /// <response code="404">One of them is not kept here.</response>
    private static async Task<IResult> Changes(string version, string other, HttpContext context, KnowledgeVersions versions)
    {
        var kind = KindOf(context);
        return await versions.Between(context.Caller().Organisation, kind, version, other) is { } changes
            ? Json(new VersionDifference(await versions.Named(context.Caller().Organisation, kind, version), await versions.Named(context.Caller().Organisation, kind, other), [.. changes.Select(VersionChange.Of)]), ApiJson.Default.VersionDifference)
            : NoVersion();
    }

    /// <summary>What a version would change.</summary>
    /// <remarks>
    /// The last decisions are answered again on what is in force and with this version in its place. Lines of JSON come while it runs: how far it is, each decision whose picks, order, doses or status
    /// differ with why the first pick moved, and the sum as the last line. Who stops reading stops it. Nothing is recorded. The body may be left out.
    /// </remarks>
    /// <param name="version">current, or a version.</param>
    /// <param name="context">Carries the body.</param>
    /// <param name="versions">Keeps versions.</param>
    /// <param name="impact">Tries versions.</param>
    /// <param name="editions">The edition in force.</param>
    /// <response code="200">Lines of JSON.</response>
    /// <response code="404">There is no such version.</response>
    private static async Task<IResult> Impact(string version, HttpContext context, KnowledgeVersions versions, VersionImpact impact, EditionInForce editions)
    {
        var (body, unread) = await BodyReader.ReadOptional(context.Request, BodyReader.SingleLimit);
        if (unread is not null)
        {
            return unread;
        }

        if (RequestReader.Read<ImpactRequest>(body ?? "{}"u8.ToArray(), out var fault) is not { } request)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        if (request.Last is < 1 or > MostLast)
        {
            return Problem.Of(ProblemTypes.Invalid, new Fault("/last", "out-of-range", $"last is {request.Last}; give 1 to {MostLast}."));
        }

        var kind = KindOf(context);
        if (await versions.With(context.Caller().Organisation, kind, version) is not { } draft)
        {
            return NoVersion();
        }

        var (now, last) = (await editions.Of(context.Caller().Organisation), request.Last ?? UsualLast);
        var organisation = context.Caller().Organisation;
        return new ImpactStream(cancelled => impact.Of(organisation, now, draft, last, cancelled), last, Stamp(draft));
    }

    /// <summary>Put a version in force.</summary>
    /// <remarks>
    /// Checked with what is in force of the other kind; at once and for every later answer, each of which is made wholly on one pair. Putting an older version in force rolls back. It can also be done when
    /// what is in force cannot be read and every other call answers 503; where the other kind cannot be read either, the data folder's goes in force with it.
    /// </remarks>
    /// <param name="context">Carries the body.</param>
    /// <param name="versions">Keeps versions.</param>
    /// <param name="editions">The edition in force.</param>
    /// <response code="200">It is in force.</response>
    private static async Task<IResult> Publish(HttpContext context, KnowledgeVersions versions, EditionInForce editions)
    {
        var (body, unread) = await BodyReader.Read(context.Request, BodyReader.SingleLimit);
        if (unread is not null)
        {
            return unread;
        }

        if (RequestReader.Read<CurrentVersion>(body, out var fault) is not { } wanted)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        if (wanted.Version is not { } version)
        {
            return Problem.Of(ProblemTypes.Invalid, new Fault("/version", "required", "version is missing; give one that the list of versions shows."));
        }

        var (done, faults) = await versions.Publish(context.Caller().Organisation, KindOf(context), version);
        if (done)
        {
            // "current" may be sent; what is answered is the version that it stands for.
            var inForce = Stamp(await editions.Of(context.Caller().Organisation));
            return Json(new VersionInForce(KindOf(context) == KnowledgeKind.Catalogue ? inForce.Catalogue : inForce.Rules, "current", inForce), ApiJson.Default.VersionInForce);
        }

        return faults.Count == 0 ? Problem.Of(ProblemTypes.Invalid, new Fault("/version", "unknown-id", "there is no such version here; GET the list of versions."))
            : Problem.OfMany(ProblemTypes.Invalid, [.. faults.Select(f => new Fault("/version", "contradiction", f.ToString()))], KnowledgeVersions.MostFaults);
    }

    private static VersionStamp Stamp(Domain.Knowledge.Edition edition) => new(RecommendationPipeline.Engine, edition.CatalogueVersion, edition.RulesVersion, null);

    private static KnowledgeKind KindOf(HttpContext context) => context.GetEndpoint()!.Metadata.GetRequiredMetadata<VersionKind>().Kind;

    private static Problem NoVersion() => Problem.Of(ProblemTypes.NotFound, "There is no such version here; the list of versions shows those that are kept.");

    private static JsonBytes Json<T>(T body, System.Text.Json.Serialization.Metadata.JsonTypeInfo<T> type) => new(JsonSerializer.SerializeToUtf8Bytes(body, type));

    private sealed record VersionKind(KnowledgeKind Kind);
}
