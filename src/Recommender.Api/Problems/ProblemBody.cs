namespace Recommender.Api.Problems;

/// <summary>RFC 9457 problem details.</summary>
/// <param name="Type">Relative reference that names the kind of problem.</param>
/// <param name="Title">What went wrong, for any case of it.</param>
/// <param name="Status">HTTP status.</param>
/// <param name="Detail">What went wrong here, and what would be right.</param>
/// <param name="Errors">Each thing wrong; empty when there is only the detail.</param>
public sealed record ProblemBody(string Type, string Title, int Status, string Detail, IReadOnlyList<ProblemError> Errors);

/// <summary>One thing wrong.</summary>
/// <param name="Pointer">JSON Pointer into the body, or the name of a query value after a question mark.</param>
/// <param name="Code">Permanent kebab-case code.</param>
/// <param name="Message">What was wrong and what would be right.</param>
public sealed record ProblemError(string Pointer, string Code, string Message);
