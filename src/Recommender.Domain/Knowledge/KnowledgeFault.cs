namespace Recommender.Domain.Knowledge;

/// <summary>One thing wrong in a knowledge file.</summary>
/// <param name="File">File, relative to the data folder, with forward slashes.</param>
/// <param name="Pointer">JSON Pointer into the file; empty for the whole.</param>
/// <param name="Reason">What is wrong and what would be right.</param>
public sealed record KnowledgeFault(string File, string Pointer, string Reason)
{
    /// <inheritdoc/>
    public override string ToString() => $"{File}#{Pointer}: {Reason}";
}

/// <summary>The knowledge cannot be used. Carries every fault found, not only the first.</summary>
/// <param name="faults">At least one.</param>
public sealed class InvalidKnowledgeException(IReadOnlyList<KnowledgeFault> faults)
    : Exception($"{faults.Count} fault(s) in the knowledge files:\n" + string.Join('\n', faults))
{
    /// <summary>Every fault, in file order.</summary>
    public IReadOnlyList<KnowledgeFault> Faults { get; } = faults;

    /// <summary>Whether files had a wrong shape, so that nobody has asked yet whether what they say fits together.</summary>
    public bool OfShape { get; init; }
}
