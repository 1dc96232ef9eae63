using System.Text.Json.Nodes;

namespace Recommender.Answers.Wire;

/// <summary>A draft of a catalogue: another one with some exercises changed.</summary>
public sealed record CatalogueDraft
{
    /// <summary>current, or the version that it is made from. Left out: current.</summary>
    public string? BasedOn { get; init; }

    /// <summary>Exercises that are new or come in place of those of the same ids, each whole; at most 5,000.</summary>
    public IReadOnlyList<JsonObject>? Upsert { get; init; }

    /// <summary>Ids of exercises that go; at most 5,000.</summary>
    public IReadOnlyList<string>? Remove { get; init; }

    /// <summary>Whether to check and compare only, and keep nothing.</summary>
    public bool? DryRun { get; init; }
}

/// <summary>A draft of rules: other ones with some files changed.</summary>
public sealed record RulesDraft
{
    /// <summary>current, or the version that it is made from. Left out: current.</summary>
    public string? BasedOn { get; init; }

    /// <summary>Files that are new or come in place of those of the same paths, each whole; at most 200.</summary>
    public IReadOnlyList<RulesFile>? Upsert { get; init; }

    /// <summary>Paths of files that go; at most 200.</summary>
    public IReadOnlyList<string>? Remove { get; init; }

    /// <summary>Whether to check and compare only, and keep nothing.</summary>
    public bool? DryRun { get; init; }
}

/// <summary>A file of rules.</summary>
public sealed record RulesFile
{
    /// <summary>Its path in the data folder, such as rules/pain.json.</summary>
    public string? File { get; init; }

    /// <summary>Its content.</summary>
    public JsonObject? Content { get; init; }
}

/// <summary>Which version is to be in force.</summary>
public sealed record CurrentVersion
{
    /// <summary>A kept version.</summary>
    public string? Version { get; init; }
}

/// <summary>Which decisions a draft is tried on.</summary>
public sealed record ImpactRequest
{
    /// <summary>The last so many, 1 to 100,000. Left out: 1,000.</summary>
    public int? Last { get; init; }
}
