using System.Buffers;
using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Read the edition, compute, record: the one way in which recommendations are answered, by API and pages alike.</summary>
/// <param name="editions">Gives the edition in force.</param>
/// <param name="log">Keeps decisions.</param>
/// <param name="clock">Gives the time of a record.</param>
public sealed class AnswerRecommendation(EditionInForce editions, IDecisionLog log, TimeProvider clock)
{
    [ThreadStatic]
    private static ArrayBufferWriter<byte>? buffer;

    [ThreadStatic]
    private static Utf8JsonWriter? writer;

    /// <summary>Answers one request; the answer is durable before it is given back.</summary>
    /// <param name="request">A request as it was read.</param>
    /// <param name="organisation">Who asks.</param>
    /// <param name="claim">Makes the idempotency claim from the answer's bytes; null when no key was sent.</param>
    /// <exception cref="StoreUnavailableException">It could not be stored; nothing was.</exception>
    public async Task<RecommendationOutcome> One(RecommendationRequest request, string organisation, Func<byte[], DateTimeOffset, IdempotencyClaim>? claim)
    {
        var edition = editions.Current;
        var faults = RequestChecks.Of(request, edition.Catalogue, edition.Knowledge);
        if (faults.Count > 0)
        {
            return new RecommendationOutcome(faults, null, null, false);
        }

        var now = clock.GetUtcNow();
        var answer = Compute(request, edition, now);
        var sent = Bytes(answer);
        var record = RecordMaker.Make(organisation, "recommendation", request, answer, sent, now);
        var stored = await log.Append([record], claim?.Invoke(sent, now)).ConfigureAwait(false);
        return new RecommendationOutcome([], answer, sent, !stored);
    }

    /// <summary>Answers many requests, in order; those with faults keep their place, and the records of the others are stored together.</summary>
    /// <param name="requests">Requests as they were read.</param>
    /// <param name="organisation">Who asks.</param>
    /// <param name="whole">Makes the bytes of the whole answer from those of the parts.</param>
    /// <param name="claim">Makes the idempotency claim from the whole answer's bytes; null when no key was sent.</param>
    /// <exception cref="StoreUnavailableException">They could not be stored; nothing was.</exception>
    public async Task<BatchOutcome> Many(IReadOnlyList<RecommendationRequest?> requests, string organisation, Func<IReadOnlyList<RecommendationOutcome>, byte[]> whole,
        Func<byte[], DateTimeOffset, IdempotencyClaim>? claim)
    {
        var edition = editions.Current;
        var now = clock.GetUtcNow();
        var outcomes = new List<RecommendationOutcome>(requests.Count);
        var records = new List<DecisionRecord>(requests.Count);
        foreach (var request in requests)
        {
            IReadOnlyList<Fault> faults = request is null
                ? [new Fault("", "required", "the request is null; give an object.")]
                : RequestChecks.Of(request, edition.Catalogue, edition.Knowledge);
            if (faults.Count > 0)
            {
                outcomes.Add(new RecommendationOutcome(faults, null, null, false));
                continue;
            }

            var answer = Compute(request!, edition, now);
            var sent = Bytes(answer);
            records.Add(RecordMaker.Make(organisation, "recommendation", request!, answer, sent, now));
            outcomes.Add(new RecommendationOutcome([], answer, sent, false));
        }

        var bytes = whole(outcomes);
        var stored = records.Count == 0 || await log.Append(records, claim?.Invoke(bytes, now)).ConfigureAwait(false);
        return new BatchOutcome(bytes, !stored);
    }

    private static Answer Compute(RecommendationRequest request, Edition edition, DateTimeOffset now) =>
        RecommendationPipeline.Answer(request, edition, Guid.CreateVersion7(now).ToString());

    private static byte[] Bytes(Answer answer)
    {
        buffer ??= new ArrayBufferWriter<byte>(64 * 1024);
        writer ??= new Utf8JsonWriter(buffer, new JsonWriterOptions { SkipValidation = true });
        buffer.ResetWrittenCount();
        writer.Reset(buffer);
        JsonSerializer.Serialize(writer, answer, WireJson.Default.Answer);
        return buffer.WrittenSpan.ToArray();
    }
}

/// <summary>What became of one request.</summary>
/// <param name="Faults">What was wrong with it; empty when it was answered.</param>
/// <param name="Answer">The answer.</param>
/// <param name="Sent">Its bytes.</param>
/// <param name="KeyTaken">Whether the idempotency key was taken meanwhile, so that this answer was not stored and must not leave.</param>
public sealed record RecommendationOutcome(IReadOnlyList<Fault> Faults, Answer? Answer, byte[]? Sent, bool KeyTaken);

/// <summary>What became of a batch.</summary>
/// <param name="Sent">Bytes of the whole answer.</param>
/// <param name="KeyTaken">Whether the idempotency key was taken meanwhile, so that nothing was stored and this must not leave.</param>
public sealed record BatchOutcome(byte[] Sent, bool KeyTaken);
