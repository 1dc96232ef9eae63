using System.Text.Json.Nodes;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>Exercises as someone edited them, to be checked in place of those of the same ids.</summary>
/// <param name="File">Name of the edited file, as told in faults.</param>
/// <param name="Rows">One exercise each, in the shape of the data files; a fault's pointer starts with the row's number from 0.</param>
public sealed record EditedExercises(string File, IReadOnlyList<JsonObject> Rows);
