namespace Recommender.Domain.Requests;

/// <summary>One thing wrong in a request.</summary>
/// <param name="Pointer">JSON Pointer into the body.</param>
/// <param name="Code">Permanent kebab-case code.</param>
/// <param name="Message">What was wrong and what would be right.</param>
public sealed record Fault(string Pointer, string Code, string Message);
