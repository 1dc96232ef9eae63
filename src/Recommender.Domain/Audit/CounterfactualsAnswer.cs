namespace Recommender.Domain.Audit;

/// <summary>What would have brought an exercise in, or first.</summary>
/// <param name="Exercise">Exercise id.</param>
/// <param name="Rank">Its place in the decision, 1 for the first; null where it is no pick.</param>
/// <param name="Counterfactuals">Smallest first, each proven by asking again; those that bring it first before those that only let it in.</param>
/// <param name="None">Why there is none that brings it first; null where there is one.</param>
/// <param name="Tried">How many changes and pairs of changes were tried.</param>
public sealed record CounterfactualsAnswer(string Exercise, int? Rank, IReadOnlyList<Counterfactual> Counterfactuals, string? None, TriedChanges Tried);

/// <summary>How much was tried.</summary>
/// <param name="Single">Single changes.</param>
/// <param name="Pairs">Pairs; 0 where single changes do, and in sessions, where pairs are not tried.</param>
public sealed record TriedChanges(int Single, int Pairs);

/// <summary>Changes of the request under which an exercise would have come in, or first.</summary>
/// <param name="Changes">One or two.</param>
/// <param name="ResultingRank">Its place then, 1 for the first.</param>
/// <param name="Cost">Sum of the costs of the changes, as the rules give them.</param>
/// <param name="Sentence">In one plain sentence.</param>
public sealed record Counterfactual(IReadOnlyList<RequestChange> Changes, int ResultingRank, int Cost, string Sentence);

/// <summary>One change of the request as it was sent.</summary>
/// <param name="Pointer">JSON Pointer into the request as sent; a last part - appends, and a list that was not there is set whole.</param>
/// <param name="From">What stood there; null where nothing did.</param>
/// <param name="To">What would stand there; null where it would be taken out.</param>
public sealed record RequestChange(string Pointer, object? From, object? To);
