using System.Text.Json;

namespace Recommender.Answers;

/// <summary>What became of a decision that was answered again.</summary>
/// <param name="Identical">Whether every byte of the answer is the same, its id aside.</param>
/// <param name="On">stored or current.</param>
/// <param name="Differences">What differs, in the order of the answer; at most 1,000.</param>
/// <param name="EngineChanged">Whether the arithmetic has been changed since the decision was made.</param>
/// <param name="Changes">What differs between the versions of then and now, in words; at most 200. Empty on the stored versions.</param>
/// <param name="Note">What could not be done, or null.</param>
public sealed record Replay(bool Identical, string On, IReadOnlyList<ReplayDifference> Differences, bool EngineChanged, IReadOnlyList<string> Changes, string? Note);

/// <summary>One value that differs.</summary>
/// <param name="Pointer">JSON Pointer into the answer as it was; for what is new, into the answer as it is.</param>
/// <param name="Was">Value in the stored answer, or null.</param>
/// <param name="Is">Value in the new answer, or null.</param>
/// <param name="Because">Which change of which number made the difference: found by making each change alone.</param>
public sealed record ReplayDifference(string Pointer, JsonElement? Was, JsonElement? Is, string Because);
