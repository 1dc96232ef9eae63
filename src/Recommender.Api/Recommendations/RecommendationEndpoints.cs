using System.Text.Json;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Recommendations;

/// <summary>POST /v1/recommendations and /v1/recommendations/batch.</summary>
public static class RecommendationEndpoints
{
    private const int MostRequests = 500;

    /// <summary>Maps the slice.</summary>
    public static void MapRecommendations(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/v1/recommendations", One).WithTags("Recommendations").WithName("recommend")
            .Accepts<RecommendationRequest>("application/json").Produces<Answer>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);
        routes.MapPost("/v1/recommendations/batch", Many).WithTags("Recommendations").WithName("recommendBatch")
            .Accepts<RecommendationBatch>("application/json").Produces<BatchAnswers>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);
    }

    /// <summary>Ranked, dosed and explained exercises for one athlete.</summary>
    /// <remarks>
    /// Required: athlete.eventGroup (or athlete.event) and phase; the answer lists what was taken for the rest. The contributions of a pick sum to its score exactly.
    /// A red flag answers with a referral: without picks, or with picks that spare the region. Nothing is filled in to make the list long enough.
    /// The decision is on record, durably, before the answer leaves. Training guidance, not medical advice.
    /// </remarks>
    /// <param name="context">Carries body and headers.</param>
    /// <param name="answers">Answers requests.</param>
    /// <param name="log">Keeps decisions.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">The answer; its status says whether there are picks, a referral, or nothing eligible.</response>
    private static async Task<IResult> One(HttpContext context, AnswerRecommendation answers, IDecisionLog log, TimeProvider clock)
    {
        var (body, unread) = await BodyReader.Read(context.Request, BodyReader.SingleLimit);
        if (unread is not null)
        {
            return unread;
        }

        var (key, badKey) = Idempotency.Of(context.Request, body);
        if (badKey is not null)
        {
            return badKey;
        }

        if (key is not null && await key.Stored(log, clock) is { } before)
        {
            return before;
        }

        if (RequestReader.Read<RecommendationRequest>(body, out var fault) is not { } request)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        var outcome = await answers.One(request, Organisation.Local, key is null ? null : key.Claim);
        return outcome.Faults.Count > 0 ? Problem.Of(ProblemTypes.Invalid, outcome.Faults)
            : outcome.KeyTaken ? await key!.Stored(log, clock) ?? Idempotency.Lapsed
            : new JsonBytes(outcome.Sent!);
    }

    /// <summary>Many requests at once, answered in order.</summary>
    /// <remarks>
    /// Each place holds an answer or a problem, whose pointers start at /requests/N. A request that cannot be used does not hold up the others.
    /// All decisions of a batch are stored together.
    /// </remarks>
    /// <param name="context">Carries body and headers.</param>
    /// <param name="answers">Answers requests.</param>
    /// <param name="log">Keeps decisions.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">One place a request.</response>
    private static async Task<IResult> Many(HttpContext context, AnswerRecommendation answers, IDecisionLog log, TimeProvider clock)
    {
        var (body, unread) = await BodyReader.Read(context.Request, BodyReader.BatchLimit);
        if (unread is not null)
        {
            return unread;
        }

        var (key, badKey) = Idempotency.Of(context.Request, body);
        if (badKey is not null)
        {
            return badKey;
        }

        if (key is not null && await key.Stored(log, clock) is { } before)
        {
            return before;
        }

        if (RequestReader.Read<RecommendationBatch>(body, out var fault) is not { } batch)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        if (batch.Requests is not { Count: > 0 and <= MostRequests } requests)
        {
            return Problem.Of(ProblemTypes.Invalid, new Fault("/requests", batch.Requests is { Count: > 0 } ? "too-many" : "required", $"{batch.Requests?.Count ?? 0} requests; give 1 to {MostRequests}."));
        }

        var outcome = await answers.Many(requests, Organisation.Local, Whole, key is null ? null : key.Claim);
        return outcome.KeyTaken ? await key!.Stored(log, clock) ?? Idempotency.Lapsed : new JsonBytes(outcome.Sent);
    }

    private static byte[] Whole(IReadOnlyList<RecommendationOutcome> outcomes)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            writer.WriteStartObject();
            writer.WriteStartArray("answers");
            for (var i = 0; i < outcomes.Count; i++)
            {
                writer.WriteStartObject();
                if (outcomes[i].Sent is { } sent)
                {
                    writer.WritePropertyName("answer");
                    writer.WriteRawValue(sent, skipInputValidation: true);
                }
                else
                {
                    writer.WritePropertyName("problem");
                    Fault[] faults = [.. outcomes[i].Faults.Select(f => f with { Pointer = $"/requests/{i}{f.Pointer}" })];
                    JsonSerializer.Serialize(writer, Problem.Of(ProblemTypes.Invalid, faults).Body, ApiJson.Default.ProblemBody);
                }

                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        }

        return stream.ToArray();
    }
}
