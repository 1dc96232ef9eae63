using Recommender.Domain.Catalogue;

namespace Recommender.Api.Exercises;

/// <summary>A page of the catalogue.</summary>
/// <param name="Items">Exercises by id.</param>
/// <param name="NextCursor">Give it as cursor for the next page; null on the last.</param>
public sealed record ExercisePage(IReadOnlyList<Exercise> Items, string? NextCursor);
