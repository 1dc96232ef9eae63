using System.Text.Json;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Athletes;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;

namespace Recommender.Answers;

/// <summary>Saves a profile, and erases an athlete.</summary>
/// <param name="athletes">Keeps profiles.</param>
/// <param name="log">Keeps decisions.</param>
/// <param name="outcomes">Keeps reports.</param>
/// <param name="clock">Gives the time of a profile.</param>
public sealed class KeepAthlete(AthleteStore athletes, IDecisionLog log, ReportOutcome outcomes, TimeProvider clock)
{
    private const int LongestName = 100;

    /// <summary>What is wrong with a profile: what it holds is checked as the request that a form would make of it.</summary>
    /// <param name="profile">Profile.</param>
    /// <param name="edition">The edition in force.</param>
    public static IReadOnlyList<Fault> Faults(AthleteProfile profile, Edition edition)
    {
        var request = new RecommendationRequest
        {
            Athlete = profile.Athlete is null ? null : profile.Athlete with { Ref = profile.Ref },
            // A profile need not know the phase; any will do for the check.
            Phase = profile.Phase ?? edition.Catalogue.Vocabulary.Phases[0].Id,
            WeeksToCompetition = profile.WeeksToCompetition,
            Competitions = profile.Competitions,
            Tests = profile.Tests,
            Setting = profile.Setting,
            Complaints = profile.Complaints,
            Needs = profile.Needs,
        };
        var faults = RequestChecks.Of(request, edition.Catalogue, edition.Knowledge).Select(f => f.Pointer == "/athlete/ref" ? f with { Pointer = "/ref" } : f);
        return string.IsNullOrWhiteSpace(profile.Name) || profile.Name.Length > LongestName || profile.Name.Any(char.IsControl)
            ? [new Fault("/name", profile.Name is null ? "required" : "out-of-range", $"name is missing, empty, longer than {LongestName} characters or holds control characters; give 1 to {LongestName} printable characters."), .. faults]
            : [.. faults];
    }

    /// <summary>Saves a profile without faults in place of any before it.</summary>
    /// <returns>Its JSON, and whether there was none before.</returns>
    /// <exception cref="StoreUnavailableException">It could not be saved.</exception>
    public async Task<(byte[] Saved, bool New)> Save(string organisation, AthleteProfile profile)
    {
        var json = JsonSerializer.SerializeToUtf8Bytes(profile, WireJson.Compact.AthleteProfile);
        return (json, await athletes.Save(organisation, profile.Ref, System.Text.Encoding.UTF8.GetString(json), clock.GetUtcNow()).ConfigureAwait(false));
    }

    /// <summary>Erases an athlete: the profile, what is personal in decisions and in reports about their picks, and the answers under the keys of the athlete's requests. The chain of decisions holds.</summary>
    /// <returns>Whether there was anything of this athlete.</returns>
    /// <exception cref="StoreUnavailableException">It could not all be erased; erasing again goes on.</exception>
    public Task<bool> Erase(string organisation, string reference) => Erase(organisation, reference, log, () => outcomes.Erase(organisation, reference), athletes);

    /// <summary>The same on a store that no service needs to run on.</summary>
    /// <inheritdoc cref="Erase(string, string)"/>
    public static Task<bool> Erase(string organisation, string reference, IDecisionLog log, OutcomeStore outcomes, AthleteStore athletes) =>
        Erase(organisation, reference, log, () => ReportOutcome.Erase(outcomes, organisation, reference), athletes);

    private static async Task<bool> Erase(string organisation, string reference, IDecisionLog log, Func<Task<int>> eraseReports, AthleteStore athletes)
    {
        // Decisions first: no report about them is taken any more, so that none comes in behind the reports that are erased next. The profile goes last, so that an erasure that broke off still finds the athlete.
        var decisions = await log.Erase(organisation, reference).ConfigureAwait(false);
        var reports = await eraseReports().ConfigureAwait(false);
        return await athletes.Remove(organisation, reference).ConfigureAwait(false) || decisions > 0 || reports > 0;
    }
}
