using System.Text.Json;
using Recommender.Answers;
using Recommender.Domain.Decisions;
using Recommender.Storage.Versioning;

namespace Recommender.Api.CatalogueVersions;

/// <summary>Versions, newest first.</summary>
/// <param name="Items">Versions.</param>
public sealed record VersionList(IReadOnlyList<VersionLine> Items);

/// <summary>A version.</summary>
/// <param name="Version">Hash of its text.</param>
/// <param name="Status">current: in force. published: was in force. shipped: came with the data folder. draft: none of these.</param>
/// <param name="BasedOn">Version that it was made from, or null.</param>
/// <param name="CreatedAt">Since when it is kept, UTC.</param>
public sealed record VersionLine(string Version, string Status, string? BasedOn, string CreatedAt)
{
    /// <summary>The line of a kept version.</summary>
    public static VersionLine Of(KeptVersion kept, string inForce) => new(kept.Version,
        kept.Version == inForce ? "current" : kept.Published ? "published" : kept.FromDataFolder ? "shipped" : "draft", kept.BasedOn, RecordHash.Moment(kept.CreatedAt));
}

/// <summary>A draft that was checked.</summary>
/// <param name="Version">Hash of its text.</param>
/// <param name="Status">draft; or current when nothing differs from what is in force.</param>
/// <param name="BasedOn">Version that it was made from.</param>
/// <param name="Changes">What differs from that.</param>
public sealed record VersionDraft(string Version, string Status, string BasedOn, IReadOnlyList<VersionChange> Changes);

/// <summary>What differs between two versions.</summary>
/// <param name="From">One version.</param>
/// <param name="To">The other.</param>
/// <param name="Changes">What differs.</param>
public sealed record VersionDifference(string From, string To, IReadOnlyList<VersionChange> Changes);

/// <summary>One value that differs.</summary>
/// <param name="File">File that it stands in.</param>
/// <param name="Pointer">JSON Pointer into the file as it was; for what is new, as it is; empty for a whole file.</param>
/// <param name="Text">The change in words.</param>
/// <param name="Was">Value before, or null.</param>
/// <param name="Is">Value after, or null.</param>
public sealed record VersionChange(string File, string Pointer, string Text, JsonElement? Was, JsonElement? Is)
{
    /// <summary>The line of a change.</summary>
    public static VersionChange Of(KnowledgeChange change) => new(change.File, change.Change.Pointer, change.Text, change.Change.Was, change.Change.Is);
}

/// <summary>What is in force.</summary>
/// <param name="Version">Version of this kind.</param>
/// <param name="Status">current.</param>
/// <param name="Versions">What answers are made on from now on.</param>
public sealed record VersionInForce(string Version, string Status, VersionStamp Versions);

/// <summary>A line of a trial: how far it is, a decision that would be answered otherwise, or, last, the sum. One of the three stands.</summary>
/// <param name="Progress">How far it is.</param>
/// <param name="Decision">A decision whose answer differs.</param>
/// <param name="Summary">The sum; its line is the last.</param>
public sealed record ImpactMessage(ImpactProgress? Progress, ImpactLine? Decision, ImpactSummary? Summary);

/// <summary>How far a trial is.</summary>
/// <param name="Done">Decisions tried.</param>
/// <param name="Of">Most that are tried.</param>
public sealed record ImpactProgress(int Done, int Of);

/// <summary>The sum of a trial.</summary>
/// <param name="Tried">Decisions tried.</param>
/// <param name="Refused">Of them, those whose request cannot be answered on what is in force any more; they are not compared.</param>
/// <param name="Changed">Of them, those whose picks, order, doses or status differ.</param>
/// <param name="TopMoved">Of them, those whose first pick differs.</param>
/// <param name="Versions">The pair that was tried.</param>
public sealed record ImpactSummary(int Tried, int Refused, int Changed, int TopMoved, VersionStamp Versions);
