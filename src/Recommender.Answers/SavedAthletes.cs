using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Storage.Athletes;

namespace Recommender.Answers;

/// <summary>Saved profiles as records, moved on to today; a form is filled from them, a request never reads them.</summary>
/// <param name="athletes">Keeps profiles.</param>
/// <param name="clock">Gives the day.</param>
public sealed class SavedAthletes(AthleteStore athletes, TimeProvider clock)
{
    /// <summary>Today, by UTC wherever the service runs.</summary>
    public DateOnly Today => Day.Of(clock.GetUtcNow());

    /// <summary>All profiles of an organisation, by ref.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<AthleteProfile>> All(string organisation) =>
        [.. (await athletes.ReadAll(organisation).ConfigureAwait(false)).Select(Profile)];

    /// <summary>One profile, or null when none is saved under this ref.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<AthleteProfile?> One(string organisation, string reference) =>
        await athletes.Read(organisation, reference).ConfigureAwait(false) is { } profile ? Profile(profile) : null;

    private AthleteProfile Profile(string json) => JsonSerializer.Deserialize(json, WireJson.Default.AthleteProfile)!.On(Today);
}
