using System.Text.Json;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Api.Problems;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Hosting;

/// <summary>The one way in which a POST becomes a decision: read, ask for the key, answer, and the stored answer instead where the key was taken.</summary>
internal static class DecisionPost
{
    private const int MostRequests = 500;

    /// <summary>One request.</summary>
    public static async Task<IResult> One<TRequest, TAnswer>(HttpContext context, AnswerDecision<TRequest, TAnswer> answers, IDecisionLog log, TimeProvider clock)
        where TRequest : class
        where TAnswer : class, IDecided
    {
        var (posted, atOnce) = await Posted.Read(context, BodyReader.SingleLimit, log, clock);
        if (posted is null)
        {
            return atOnce!;
        }

        if (RequestReader.Read<TRequest>(posted.Body, out var fault) is not { } request)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        var keeping = answers.Keep(await answers.Make(request, context.Caller().Organisation), posted.Claim);

        // What is left is waiting for a commit, and the more wait together, the more share it: the place is for others to compute on.
        context.Features.Get<IWorkGate>()?.Leave();
        var outcome = await keeping;
        return outcome.Faults.Count > 0 ? Problem.Of(ProblemTypes.Invalid, outcome.Faults)
            : outcome.KeyTaken ? await posted.Taken(log, clock)
            : new JsonBytes(outcome.Sent!);
    }

    /// <summary>Several requests, each with its place.</summary>
    public static async Task<IResult> Many<TBatch, TRequest, TAnswer>(HttpContext context, AnswerDecision<TRequest, TAnswer> answers, Func<TBatch, IReadOnlyList<TRequest>?> requestsOf, IDecisionLog log, TimeProvider clock)
        where TBatch : class
        where TRequest : class
        where TAnswer : class, IDecided
    {
        var (posted, atOnce) = await Posted.Read(context, BodyReader.BatchLimit, log, clock);
        if (posted is null)
        {
            return atOnce!;
        }

        if (RequestReader.Read<TBatch>(posted.Body, out var fault) is not { } batch)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        if (requestsOf(batch) is not { Count: > 0 and <= MostRequests } requests)
        {
            var count = requestsOf(batch)?.Count ?? 0;
            return Problem.Of(ProblemTypes.Invalid, new Fault("/requests", count > 0 ? "too-many" : "required", $"{count} requests; give 1 to {MostRequests}."));
        }

        var outcome = await answers.Many(requests, context.Caller().Organisation, Whole, posted.Claim);
        return outcome.KeyTaken ? await posted.Taken(log, clock) : new JsonBytes(outcome.Sent);
    }

    private static byte[] Whole<TAnswer>(IReadOnlyList<DecisionOutcome<TAnswer>> outcomes) where TAnswer : class
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
