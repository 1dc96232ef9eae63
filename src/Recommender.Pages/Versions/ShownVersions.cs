using Recommender.Answers;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Words;
using Recommender.Storage.Versioning;

namespace Recommender.Pages.Versions;

/// <summary>Versions of one kind.</summary>
/// <param name="Kind">Catalogue or rules.</param>
/// <param name="InForce">The one in force.</param>
/// <param name="Kept">All that are kept, newest first.</param>
public sealed record ShownVersions(KnowledgeKind Kind, string InForce, IReadOnlyList<KeptVersion> Kept)
{
    /// <summary>Word of the kind in addresses.</summary>
    public string Word => VersionWords.Of(Kind);
}

/// <summary>One version and what differs from what is in force.</summary>
/// <param name="Kind">Catalogue or rules.</param>
/// <param name="Version">The version.</param>
/// <param name="InForce">The one in force.</param>
/// <param name="Changes">What it would change of what is in force; null where one of the two cannot be read.</param>
/// <param name="Edition">For names.</param>
/// <param name="Notice">What to tell, or null.</param>
/// <param name="Faults">Why it cannot be put in force.</param>
/// <param name="Token">Form token.</param>
/// <param name="Unread">What is in force and cannot be read; null where it can.</param>
public sealed record ShownVersion(KnowledgeKind Kind, KeptVersion Version, string InForce, IReadOnlyList<KnowledgeChange>? Changes, Edition Edition, string? Notice, IReadOnlyList<KnowledgeFault> Faults, string Token, string? Unread)
{
    /// <summary>Address of the version.</summary>
    public string Address => $"/versions/{VersionWords.Of(Kind)}/{Version.Version}";

    /// <summary>Whether it is in force.</summary>
    public bool IsInForce => Version.Version == InForce;

    /// <summary>Whether it is a draft that can be taken away.</summary>
    public bool IsDraft => !IsInForce && !Version.Published && !Version.FromDataFolder;
}

/// <summary>A file of exercises on its way in.</summary>
/// <param name="File">Its name; null before one was chosen.</param>
/// <param name="Exercises">How many exercises it holds.</param>
/// <param name="Faults">Everything that is wrong, each with its place in the file.</param>
/// <param name="Outcome">What it would change, where nothing is wrong; null otherwise.</param>
/// <param name="Notice">What to tell, or null.</param>
/// <param name="Token">Form token.</param>
public sealed record ShownUpload(string? File, int Exercises, IReadOnlyList<string> Faults, DraftOutcome? Outcome, string? Notice, string Token);

/// <summary>Words for versions.</summary>
public static class VersionWords
{
    /// <summary>Word of a kind, in addresses and sentences.</summary>
    public static string Of(KnowledgeKind kind) => kind == KnowledgeKind.Catalogue ? "catalogue" : "rules";

    /// <summary>The kind of a word, or null.</summary>
    public static KnowledgeKind? KindOf(string word) => word switch { "catalogue" => KnowledgeKind.Catalogue, "rules" => KnowledgeKind.Rules, _ => null };

    /// <summary>What is in force and cannot be read, and the way out of it.</summary>
    public static string Unread(UnreadableEditionException e) =>
        $"Catalogue {Say.Short(e.Catalogue)} and rules {Say.Short(e.Rules)} are in force and cannot be read here: a text is lost or damaged, or another release of this program published it. Until another version is in force, or that program runs again, nobody of your club gets answers; what is on record stays.";

    /// <summary>What a version is, in a few words.</summary>
    public static string State(KeptVersion version, string inForce) => version.Version == inForce ? "in force" : version.Published ? "was in force" : version.FromDataFolder ? "from the data folder" : "draft";
}
