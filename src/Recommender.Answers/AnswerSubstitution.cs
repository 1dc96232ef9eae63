using Recommender.Answers.Learned;
using Recommender.Domain.Substitutions;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Answers substitutions.</summary>
/// <param name="editions">Gives the edition in force.</param>
/// <param name="log">Keeps decisions.</param>
/// <param name="facts">Reads what a request does not say itself.</param>
/// <param name="clock">Gives the time of a record.</param>
public sealed class AnswerSubstitution(EditionInForce editions, IDecisionLog log, ReadFacts facts, TimeProvider clock)
    : AnswerDecision<SubstitutionRequest, SubstitutionAnswer>(DecisionKind.Substitution, editions, log, facts, clock);
