using System.Buffers;
using System.Text.Json;
using Recommender.Answers.Learned;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Read the edition, compute, record: the one way in which every kind of decision is answered, by API and pages alike.</summary>
/// <typeparam name="TRequest">Request.</typeparam>
/// <typeparam name="TAnswer">Answer.</typeparam>
/// <param name="kind">Kind of decision.</param>
/// <param name="editions">Gives the edition in force.</param>
/// <param name="log">Keeps decisions.</param>
/// <param name="facts">Reads what a request does not say itself.</param>
/// <param name="clock">Gives the time of a record.</param>
public class AnswerDecision<TRequest, TAnswer>(DecisionKind<TRequest, TAnswer> kind, EditionInForce editions, IDecisionLog log, ReadFacts facts, TimeProvider clock)
    where TRequest : class
    where TAnswer : class, IDecided
{
    /// <summary>Answers one request; the answer is durable before it is given back.</summary>
    /// <param name="request">A request as it was read.</param>
    /// <param name="organisation">Who asks.</param>
    /// <param name="claim">Makes the idempotency claim from the answer's bytes; null when no key was sent.</param>
    /// <exception cref="StoreUnavailableException">It could not be stored; nothing was.</exception>
    public async Task<DecisionOutcome<TAnswer>> One(TRequest request, string organisation, Func<byte[], DateTimeOffset, IdempotencyClaim>? claim) =>
        await Keep(await Make(request, organisation).ConfigureAwait(false), claim).ConfigureAwait(false);

    /// <summary>Makes the answer to one request. It is on no record yet, so it must not leave before <see cref="Keep"/> is done.</summary>
    /// <param name="request">A request as it was read.</param>
    /// <param name="organisation">Who asks.</param>
    /// <exception cref="StoreUnavailableException">What it needs could not be read.</exception>
    public virtual async Task<MadeAnswer<TAnswer>> Make(TRequest request, string organisation)
    {
        var edition = await editions.Of(organisation).ConfigureAwait(false);
        var faults = kind.Faults(request, edition);
        return faults.Count > 0 ? MadeAnswer<TAnswer>.Faulty(faults) : await Make(request, organisation, edition, clock.GetUtcNow()).ConfigureAwait(false);
    }

    /// <summary>Puts an answer on record. All computing is done when this gives its task back; what is left is waiting for the commit.</summary>
    /// <param name="made">The answer, or what was wrong with its request.</param>
    /// <param name="claim">Makes the idempotency claim from the answer's bytes; null when no key was sent.</param>
    /// <exception cref="StoreUnavailableException">It could not be stored; nothing was.</exception>
    public async Task<DecisionOutcome<TAnswer>> Keep(MadeAnswer<TAnswer> made, Func<byte[], DateTimeOffset, IdempotencyClaim>? claim)
    {
        if (made.Record is not { } record)
        {
            return new DecisionOutcome<TAnswer>(made.Faults, null, null, false);
        }

        var stored = await log.Append([record], claim?.Invoke(made.Sent!, record.CreatedAt).About([record.AthleteRef])).ConfigureAwait(false);
        return new DecisionOutcome<TAnswer>([], made.Answer, made.Sent, !stored);
    }

    /// <summary>Answers many requests, in order; those with faults keep their place, and the records of the others are stored together.</summary>
    /// <param name="requests">Requests as they were read.</param>
    /// <param name="organisation">Who asks.</param>
    /// <param name="whole">Makes the bytes of the whole answer from those of the parts.</param>
    /// <param name="claim">Makes the idempotency claim from the whole answer's bytes; null when no key was sent.</param>
    /// <exception cref="StoreUnavailableException">They could not be stored; nothing was.</exception>
    public async Task<BatchOutcome> Many(IReadOnlyList<TRequest?> requests, string organisation, Func<IReadOnlyList<DecisionOutcome<TAnswer>>, byte[]> whole,
        Func<byte[], DateTimeOffset, IdempotencyClaim>? claim)
    {
        var edition = await editions.Of(organisation).ConfigureAwait(false);
        var now = clock.GetUtcNow();
        var outcomes = new List<DecisionOutcome<TAnswer>>(requests.Count);
        var records = new List<DecisionRecord>(requests.Count);
        foreach (var request in requests)
        {
            IReadOnlyList<Fault> faults = request is null
                ? [new Fault("", "required", "the request is null; give an object.")]
                : kind.Faults(request, edition);
            if (faults.Count > 0)
            {
                outcomes.Add(new DecisionOutcome<TAnswer>(faults, null, null, false));
                continue;
            }

            var made = await Make(request!, organisation, edition, now).ConfigureAwait(false);
            records.Add(made.Record!);
            outcomes.Add(new DecisionOutcome<TAnswer>([], made.Answer, made.Sent, false));
        }

        var bytes = whole(outcomes);
        var stored = records.Count == 0 || await log.Append(records, claim?.Invoke(bytes, now).About(records.Select(r => r.AthleteRef))).ConfigureAwait(false);
        return new BatchOutcome(bytes, !stored);
    }

    private async Task<MadeAnswer<TAnswer>> Make(TRequest request, string organisation, Edition edition, DateTimeOffset now)
    {
        var reading = kind.Reading(request, await facts.For(organisation, kind.ContextOf(request), edition, now).ConfigureAwait(false));
        var answer = Compute(reading, edition, now);
        var sent = AnswerBytes.Of(answer, kind);
        return new MadeAnswer<TAnswer>([], answer, sent, RecordMaker.Make(organisation, kind, reading, answer, sent, now));
    }

    private TAnswer Compute(TRequest request, Edition edition, DateTimeOffset now)
    {
        using var step = AnswerMetrics.Compute(kind.Id);
        var answer = kind.Answer(request, edition, Guid.CreateVersion7(now).ToString());
        step.Answered(answer);
        return answer;
    }
}

/// <summary>Answers recommendations.</summary>
/// <param name="editions">Gives the edition in force.</param>
/// <param name="log">Keeps decisions.</param>
/// <param name="facts">Reads what a request does not say itself.</param>
/// <param name="clock">Gives the time of a record.</param>
public sealed class AnswerRecommendation(EditionInForce editions, IDecisionLog log, ReadFacts facts, TimeProvider clock)
    : AnswerDecision<RecommendationRequest, Answer>(DecisionKind.Recommendation, editions, log, facts, clock);

/// <summary>Writes answers into a buffer that each thread keeps.</summary>
internal static class AnswerBytes
{
    [ThreadStatic]
    private static ArrayBufferWriter<byte>? buffer;

    [ThreadStatic]
    private static Utf8JsonWriter? writer;

    /// <summary>The answer as it is sent.</summary>
    public static byte[] Of<TRequest, TAnswer>(TAnswer answer, DecisionKind<TRequest, TAnswer> kind)
        where TRequest : class
        where TAnswer : class, IDecided
    {
        buffer ??= new ArrayBufferWriter<byte>(64 * 1024);
        writer ??= new Utf8JsonWriter(buffer, new JsonWriterOptions { SkipValidation = true });
        buffer.ResetWrittenCount();
        writer.Reset(buffer);
        kind.Write(writer, answer);
        return buffer.WrittenSpan.ToArray();
    }
}

/// <summary>An answer that is not on record yet, or what was wrong with its request.</summary>
/// <typeparam name="TAnswer">Answer.</typeparam>
/// <param name="Faults">What was wrong; empty when there is an answer.</param>
/// <param name="Answer">The answer.</param>
/// <param name="Sent">Its bytes.</param>
/// <param name="Record">What is to be stored of it.</param>
public sealed record MadeAnswer<TAnswer>(IReadOnlyList<Fault> Faults, TAnswer? Answer, byte[]? Sent, DecisionRecord? Record) where TAnswer : class
{
    /// <summary>No answer, since the request has faults.</summary>
    internal static MadeAnswer<TAnswer> Faulty(IReadOnlyList<Fault> faults) => new(faults, null, null, null);
}

/// <summary>What became of one request.</summary>
/// <typeparam name="TAnswer">Answer.</typeparam>
/// <param name="Faults">What was wrong with it; empty when it was answered.</param>
/// <param name="Answer">The answer.</param>
/// <param name="Sent">Its bytes.</param>
/// <param name="KeyTaken">Whether the idempotency key was taken meanwhile, so that this answer was not stored and must not leave.</param>
public sealed record DecisionOutcome<TAnswer>(IReadOnlyList<Fault> Faults, TAnswer? Answer, byte[]? Sent, bool KeyTaken) where TAnswer : class;

/// <summary>What became of a batch.</summary>
/// <param name="Sent">Bytes of the whole answer.</param>
/// <param name="KeyTaken">Whether the idempotency key was taken meanwhile, so that nothing was stored and this must not leave.</param>
public sealed record BatchOutcome(byte[] Sent, bool KeyTaken);
