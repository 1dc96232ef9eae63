using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;

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

/// <summary>Opens decisions of one kind as records, for those who show them.</summary>
/// <param name="decisions">Opens records.</param>
public sealed class OpenDecision(ReadDecision decisions)
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

    /// <summary>The kind of a decision, or null when there is none of this id.</summary>
    public async Task<string?> KindOf(string organisation, string decisionId) =>
        (await decisions.Open(organisation, decisionId).ConfigureAwait(false))?.Stored.Record.Kind;

    private async Task<OpenedDecision<TRequest, TAnswer>?> Open<TRequest, TAnswer>(string organisation, string decisionId, DecisionKind kind, JsonTypeInfo<TRequest> requestJson, JsonTypeInfo<TAnswer> answerJson)
        where TRequest : class
        where TAnswer : class =>
        await decisions.Open(organisation, decisionId).ConfigureAwait(false) is { } found && found.Stored.Record.Kind == kind.Id
            ? new OpenedDecision<TRequest, TAnswer>(decisionId, found.Stored.Record.CreatedAt, JsonSerializer.Deserialize(found.Request, requestJson)!,
                JsonSerializer.Deserialize(found.Stored.Record.Answer.Span, answerJson)!, found.Stored.PersonalDataErased)
            : null;
}
