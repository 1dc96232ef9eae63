using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Recommender.Answers.Wire;
using Recommender.Domain;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;

namespace Recommender.Answers;

/// <summary>A kind of decision: how it is asked, checked, made and kept.</summary>
/// <param name="id">recommendation, substitution or session; permanent.</param>
public abstract class DecisionKind(string id)
{
    /// <summary>The kind's id in records.</summary>
    public string Id { get; } = id;

    /// <summary>What is asked for: exercises for an athlete.</summary>
    public static DecisionKind<RecommendationRequest, Answer> Recommendation { get; } = new("recommendation", RequestChecks.Of, RecommendationPipeline.Answer,
        WireJson.Compact.RecommendationRequest, WireJson.Default.Answer, r => r, (_, context) => context!);

    /// <summary>What may stand in for an exercise.</summary>
    public static DecisionKind<SubstitutionRequest, SubstitutionAnswer> Substitution { get; } = new("substitution", SubstitutionChecks.Of, SubstitutionPipeline.Answer,
        WireJson.Compact.SubstitutionRequest, WireJson.Default.SubstitutionAnswer, r => r.Context, (r, context) => r with { Context = context });

    /// <summary>A session chosen as a whole.</summary>
    public static DecisionKind<SessionRequest, SessionAnswer> Session { get; } = new("session", SessionChecks.Of, SessionPipeline.Answer,
        WireJson.Compact.SessionRequest, WireJson.Default.SessionAnswer, r => r.Context, (r, context) => r with { Context = context });

    /// <summary>Every kind.</summary>
    public static IReadOnlyList<DecisionKind> All { get; } = [Recommendation, Substitution, Session];

    /// <summary>The kind with this id.</summary>
    /// <exception cref="InvalidOperationException">There is none.</exception>
    public static DecisionKind Of(string id) => All.First(k => k.Id == id);

    /// <summary>Answers a stored request again; nothing is recorded.</summary>
    /// <param name="request">The request as it lies in a record.</param>
    /// <param name="edition">Catalogue and rules.</param>
    /// <param name="decisionId">Id that the answer carries.</param>
    /// <param name="earlier">Picks of the decision that the request names, or null.</param>
    /// <param name="read">What was read from the store for it.</param>
    /// <returns>The answer's bytes; or what today's checks find wrong with the request.</returns>
    public abstract (byte[]? Sent, IReadOnlyList<Fault> Faults) Again(ReadOnlySpan<byte> request, Edition edition, string decisionId, EarlierPicks? earlier, FactsRead read);

    /// <summary>A stored request, its personal part put back, as JSON.</summary>
    internal abstract byte[] Whole(ReadOnlySpan<byte> request, ReadOnlySpan<byte> personal);
}

/// <summary>A kind of decision by its request and answer.</summary>
/// <typeparam name="TRequest">Request.</typeparam>
/// <typeparam name="TAnswer">Answer.</typeparam>
/// <param name="id">Permanent id.</param>
/// <param name="faults">Faults of a request.</param>
/// <param name="answer">Answers a request without faults; the last argument is the decision's id.</param>
/// <param name="requestJson">How requests are stored.</param>
/// <param name="answerJson">How answers are sent.</param>
/// <param name="context">The part of a request that is about an athlete and a situation.</param>
/// <param name="with">A request with another such part.</param>
public sealed class DecisionKind<TRequest, TAnswer>(string id, Func<TRequest, ExerciseCatalogue, KnowledgeBase, IReadOnlyList<Fault>> faults, Func<TRequest, Edition, string, TAnswer> answer,
    JsonTypeInfo<TRequest> requestJson, JsonTypeInfo<TAnswer> answerJson, Func<TRequest, RecommendationRequest?> context, Func<TRequest, RecommendationRequest?, TRequest> with) : DecisionKind(id)
    where TRequest : class
    where TAnswer : class, IDecided
{
    /// <summary>Faults of a request.</summary>
    public IReadOnlyList<Fault> Faults(TRequest request, Edition edition) => faults(request, edition.Catalogue, edition.Knowledge);

    /// <summary>The answer to a request without faults.</summary>
    public TAnswer Answer(TRequest request, Edition edition, string decisionId) => answer(request, edition, decisionId);

    /// <summary>The part of a request that is about an athlete and a situation; null where it is missing.</summary>
    public RecommendationRequest? ContextOf(TRequest request) => context(request);

    /// <summary>A request with what was read from the store for it.</summary>
    public TRequest Reading(TRequest request, FactsRead read) => context(request) is { } about && about.Read != read ? with(request, about with { Read = read }) : request;

    /// <summary>Writes an answer.</summary>
    internal void Write(Utf8JsonWriter writer, TAnswer made) => JsonSerializer.Serialize(writer, made, answerJson);

    /// <summary>The request of a record of this kind, without its personal part.</summary>
    public TRequest Kept(DecisionRecord record) => JsonSerializer.Deserialize(record.Request.Span, requestJson)!;

    /// <summary>The request as it is stored, and what of it is about a person.</summary>
    internal (byte[] Asked, PersonalPart? Personal) Split(TRequest request)
    {
        var about = context(request);
        var without = about is null ? request : with(request, PersonalParts.Without(about));
        return (JsonSerializer.SerializeToUtf8Bytes(without, requestJson), about is null ? null : PersonalParts.Of(about));
    }

    /// <summary>A stored request, its personal part put back.</summary>
    internal TRequest Join(ReadOnlySpan<byte> request, ReadOnlySpan<byte> personal)
    {
        var asked = JsonSerializer.Deserialize(request, requestJson)!;
        return personal.IsEmpty || context(asked) is not { } about ? asked
            : with(asked, PersonalParts.With(about, JsonSerializer.Deserialize(personal, WireJson.Compact.PersonalPart)!));
    }

    /// <inheritdoc/>
    public override (byte[]? Sent, IReadOnlyList<Fault> Faults) Again(ReadOnlySpan<byte> request, Edition edition, string decisionId, EarlierPicks? earlier, FactsRead read)
    {
        var asked = JsonSerializer.Deserialize(request, requestJson)!;
        if (asked is SessionRequest session && earlier is not null)
        {
            asked = (TRequest)(object)new SessionRequestKeeping(session, earlier);
        }

        asked = Reading(asked, read);
        return Faults(asked, edition) is { Count: > 0 } found ? (null, found) : (AnswerBytes.Of(Answer(asked, edition, decisionId), this), []);
    }

    /// <inheritdoc/>
    internal override byte[] Whole(ReadOnlySpan<byte> request, ReadOnlySpan<byte> personal) => JsonSerializer.SerializeToUtf8Bytes(Join(request, personal), requestJson);
}
