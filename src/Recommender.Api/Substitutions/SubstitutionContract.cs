using Recommender.Api.Problems;
using Recommender.Domain.Substitutions;

namespace Recommender.Api.Substitutions;

/// <summary>Answers to a batch of substitutions, in the order of the requests.</summary>
/// <param name="Answers">One place a request.</param>
public sealed record SubstitutionBatchAnswers(IReadOnlyList<SubstitutionPlace> Answers);

/// <summary>The place of one request: an answer or a problem.</summary>
/// <param name="Answer">The answer, or absent.</param>
/// <param name="Problem">The problem, or absent.</param>
public sealed record SubstitutionPlace(SubstitutionAnswer? Answer, ProblemBody? Problem);
