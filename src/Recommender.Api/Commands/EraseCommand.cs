using Recommender.Answers;
using Recommender.Answers.Access;
using Recommender.Api.Hosting;
using Recommender.Storage.Athletes;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;

namespace Recommender.Api.Commands;

/// <summary>
/// Erases an athlete as DELETE /v1/athletes/{ref} does, without a running service; one may run beside it. For refs that no address can name (. and .., which older programs took), and for whoever has the store but no key.
/// </summary>
public static class EraseCommand
{
    /// <summary>The command.</summary>
    public const string Name = "erase";

    private const string Usage = "Say whom: erase REF [--organisation NAME], the organisation being local where none is named.";

    /// <summary>Erases.</summary>
    /// <param name="args">The command, the ref, and the organisation.</param>
    /// <param name="configuration">Gives the store.</param>
    /// <param name="output">Takes what was done.</param>
    /// <param name="error">Takes what keeps it from running.</param>
    /// <returns>Exit code: 0 erased, 1 there is nothing of this athlete, 2 the command cannot run.</returns>
    public static async Task<int> Run(string[] args, IConfiguration configuration, TextWriter output, TextWriter error)
    {
        try
        {
            var (reference, organisation) = args is [_, { Length: > 0 } named, .. var rest] ? (named, OrganisationOf(rest)) : throw new InvalidSettingException(Usage);
            var address = Settings.Of(configuration).Store;
            if (!address.HasStore())
            {
                throw new InvalidSettingException($"There is no store in {address}.");
            }

            using var store = address.Open();
            await using var log = new DecisionLog(store, new Packings(store));
            var erased = await KeepAthlete.Erase(organisation, reference, log, new OutcomeStore(store), new AthleteStore(store));
            await output.WriteLineAsync(erased
                ? $"Erased at {organisation}: the profile, and what is personal in decisions and reports about this athlete. Erase in backups by restoring and erasing again, or let them lapse."
                : $"{organisation} has no profile, no decision and no report of this athlete; a ref is taken letter by letter.");
            return erased ? 0 : 1;
        }
        catch (Exception e) when (e is InvalidSettingException or StoreUnavailableException)
        {
            await error.WriteLineAsync(e.Message);
            return 2;
        }
    }

    /// <summary>The organisation named; settings of the service (with a colon or an equals sign) are read elsewhere.</summary>
    private static string OrganisationOf(string[] rest)
    {
        var at = Array.IndexOf(rest, "--organisation");
        var organisation = at < 0 ? Caller.LocalOrganisation : at + 1 < rest.Length ? rest[at + 1] : throw new InvalidSettingException(Usage);
        return AccessKeys.IsOrganisation(organisation) ? organisation : throw new InvalidSettingException($"--organisation is \"{organisation}\"; {Usage}");
    }
}
