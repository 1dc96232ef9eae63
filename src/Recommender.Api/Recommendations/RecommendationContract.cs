using Recommender.Api.Problems;
using Recommender.Domain.Decisions;

namespace Recommender.Api.Recommendations;

/// <summary>Answers of a batch, in the order of its requests.</summary>
/// <param name="Answers">One a request.</param>
public sealed record BatchAnswers(IReadOnlyList<BatchPlace> Answers);

/// <summary>One place of a batch: an answer or a problem.</summary>
/// <param name="Answer">The answer; absent when there is a problem.</param>
/// <param name="Problem">The problem; absent when there is an answer.</param>
public sealed record BatchPlace(Answer? Answer, ProblemBody? Problem);
