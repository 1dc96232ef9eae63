using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>A decision on record, request and answer read back as records.</summary>
/// <typeparam name="TRequest">Request.</typeparam>
/// <typeparam name="TAnswer">Answer.</typeparam>
/// <param name="DecisionId">Id.</param>
/// <param name="CreatedAt">When.</param>
/// <param name="Request">The request, its personal part put back where it was not erased.</param>
/// <param name="Answer">The answer as it was given.</param>
/// <param name="PersonalDataErased">Whether ref and notes were erased.</param>
public sealed record OpenedDecision<TRequest, TAnswer>(string DecisionId, DateTimeOffset CreatedAt, TRequest Request, TAnswer Answer, bool PersonalDataErased);

/// <summary>A decision on record of any kind, whole, for those who audit it.</summary>
/// <param name="Stored">The record, its place in the chain and its hashes.</param>
/// <param name="Json">The request as it was sent, without the personal part once that was erased.</param>
/// <param name="Context">The part of the request that is about an athlete and a situation.</param>
/// <param name="Answer">An <see cref="Domain.Decisions.Answer"/>, <see cref="SubstitutionAnswer"/> or <see cref="SessionAnswer"/>; null when an earlier program wrote it in a shape that this one does not read.</param>
public sealed record OpenedRecord(StoredDecision Stored, byte[] Json, RecommendationRequest Context, IDecided? Answer);

/// <summary>Opens decisions of one kind as records, for those who show them.</summary>
/// <param name="decisions">Opens records.</param>
/// <param name="facts">Gives what was read from the store for them.</param>
public sealed class OpenDecision(ReadDecision decisions, ReadFacts facts)
{
    /// <summary>A recommendation, or null when there is none of this id.</summary>
    public Task<OpenedDecision<RecommendationRequest, Answer>?> Recommendation(string organisation, string decisionId) =>
        Open(organisation, decisionId, DecisionKind.Recommendation, WireJson.Compact.RecommendationRequest, WireJson.Default.Answer);

    /// <summary>A session, or null when there is none of this id.</summary>
    public Task<OpenedDecision<SessionRequest, SessionAnswer>?> Session(string organisation, string decisionId) =>
        Open(organisation, decisionId, DecisionKind.Session, WireJson.Compact.SessionRequest, WireJson.Default.SessionAnswer);

    /// <summary>A substitution, or null when there is none of this id.</summary>
    public Task<OpenedDecision<SubstitutionRequest, SubstitutionAnswer>?> Substitution(string organisation, string decisionId) =>
        Open(organisation, decisionId, DecisionKind.Substitution, WireJson.Compact.SubstitutionRequest, WireJson.Default.SubstitutionAnswer);

    /// <summary>A decision of any kind with its place in the chain, or null when there is none of this id.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="InvalidDataException">The record is damaged.</exception>
    public async Task<OpenedRecord?> Record(string organisation, string decisionId)
    {
        if (await decisions.Open(organisation, decisionId).ConfigureAwait(false) is not { } found)
        {
            return null;
        }

        var (record, json) = (found.Stored.Record, found.Request);
        try
        {
            var context = record.Kind == DecisionKind.Substitution.Id ? JsonSerializer.Deserialize(json, WireJson.Compact.SubstitutionRequest)!.Context
                : record.Kind == DecisionKind.Session.Id ? JsonSerializer.Deserialize(json, WireJson.Compact.SessionRequest)!.Context
                : JsonSerializer.Deserialize(json, WireJson.Compact.RecommendationRequest);
            return new OpenedRecord(found.Stored, json, context!, AnswerOf(record));
        }
        catch (JsonException e)
        {
            throw new InvalidDataException("The request on record cannot be read.", e);
        }
    }

    private static IDecided? AnswerOf(DecisionRecord record)
    {
        try
        {
            return record.Kind == DecisionKind.Substitution.Id ? JsonSerializer.Deserialize(record.Answer.Span, WireJson.Default.SubstitutionAnswer)
                : record.Kind == DecisionKind.Session.Id ? JsonSerializer.Deserialize(record.Answer.Span, WireJson.Default.SessionAnswer)
                : JsonSerializer.Deserialize(record.Answer.Span, WireJson.Default.Answer);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private async Task<OpenedDecision<TRequest, TAnswer>?> Open<TRequest, TAnswer>(string organisation, string decisionId, DecisionKind<TRequest, TAnswer> kind, JsonTypeInfo<TRequest> requestJson, JsonTypeInfo<TAnswer> answerJson)
        where TRequest : class
        where TAnswer : class, IDecided =>
        await decisions.Open(organisation, decisionId).ConfigureAwait(false) is { } found && found.Stored.Record.Kind == kind.Id
            ? new OpenedDecision<TRequest, TAnswer>(decisionId, found.Stored.Record.CreatedAt, kind.Reading(JsonSerializer.Deserialize(found.Request, requestJson)!, await facts.OfRecord(found.Stored.Record).ConfigureAwait(false) ?? FactsRead.Nothing),
                JsonSerializer.Deserialize(found.Stored.Record.Answer.Span, answerJson)!, found.Stored.PersonalDataErased)
            : null;
}
