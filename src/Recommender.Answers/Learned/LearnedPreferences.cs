using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;
using Recommender.Storage.Preferences;

namespace Recommender.Answers.Learned;

/// <summary>Versions of learned numbers: kept, listed, put in force, rolled back.</summary>
/// <param name="store">Keeps them.</param>
/// <param name="inForce">What is in force.</param>
/// <param name="clock">Gives the time.</param>
public sealed class LearnedPreferences(PreferenceStore store, PreferencesInForce inForce, TimeProvider clock)
{
    /// <summary>Keeps numbers with their report.</summary>
    /// <returns>Their version; the same numbers have the same.</returns>
    /// <exception cref="StoreUnavailableException">They could not be kept.</exception>
    public async Task<string> Keep(string organisation, string? coach, PreferenceNumbers numbers, PreferenceReport report)
    {
        var (content, version) = PreferenceText.Of(numbers);
        await store.Keep(organisation, new KeptPreference(coach, version, clock.GetUtcNow(), content, JsonSerializer.Serialize(report, WireJson.Default.PreferenceReport))).ConfigureAwait(false);
        return version;
    }

    /// <summary>Every version, newest first.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="InvalidDataException">A stored text is damaged.</exception>
    public async Task<PreferenceList> List(string organisation)
    {
        var current = await store.InForce(organisation).ConfigureAwait(false);
        return new PreferenceList([.. (await store.List(organisation).ConfigureAwait(false)).Select(k => new PreferenceVersion(k.Version, k.Coach, k.CreatedAt,
            current.GetValueOrDefault(k.Coach ?? PreferenceStore.Everybody) == k.Version ? "current" : "kept", PreferenceText.Read(k.Content, k.Version).Numbers, JsonSerializer.Deserialize(k.Report, WireJson.Default.PreferenceReport)!))]);
    }

    /// <summary>Puts a kept version in force for its coach or organisation, at once; an older one rolls back, and no version takes what is in force away.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="coach">The coach; null for the organisation.</param>
    /// <param name="version">A version that the list shows for this coach; null for none.</param>
    /// <returns>What is wrong with it; null when it is in force.</returns>
    /// <exception cref="StoreUnavailableException">It could not be recorded; what was in force stays so.</exception>
    public async Task<Fault?> Publish(string organisation, string? coach, string? version)
    {
        if (version is not null && !(await store.List(organisation).ConfigureAwait(false)).Any(k => k.Version == version && k.Coach == coach))
        {
            return new Fault("/version", "unknown-id", $"there is no such version {(coach is null ? "of the organisation" : "of this coach")}; give one that GET /v1/preferences shows, or null for none.");
        }

        await store.Publish(organisation, coach, version, clock.GetUtcNow()).ConfigureAwait(false);
        inForce.Forget(organisation);
        return null;
    }
}

/// <summary>Versions of learned numbers, newest first.</summary>
/// <param name="Items">Versions.</param>
public sealed record PreferenceList(IReadOnlyList<PreferenceVersion> Items);

/// <summary>A version of learned numbers.</summary>
/// <param name="Version">Hash of the numbers' text.</param>
/// <param name="Coach">The coach; null for the organisation's, which hold for every coach without numbers of their own.</param>
/// <param name="CreatedAt">When they were learned, UTC.</param>
/// <param name="Status">current or kept.</param>
/// <param name="Numbers">The numbers.</param>
/// <param name="Report">What they gain and cost.</param>
public sealed record PreferenceVersion(string Version, string? Coach, DateTimeOffset CreatedAt, string Status, PreferenceNumbers Numbers, PreferenceReport Report);

/// <summary>Which learned numbers are to be in force.</summary>
public sealed record CurrentPreference
{
    /// <summary>The coach; left out for the organisation's.</summary>
    public string? Coach { get; init; }

    /// <summary>A kept version of that coach or of the organisation; left out, nothing is in force any more.</summary>
    public string? Version { get; init; }
}

/// <summary>Learned numbers that are in force now.</summary>
/// <param name="Coach">The coach; null for the organisation's.</param>
/// <param name="Version">The version; null for none.</param>
public sealed record PreferenceInForce(string? Coach, string? Version);
