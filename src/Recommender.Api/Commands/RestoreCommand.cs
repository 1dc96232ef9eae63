using Recommender.Api.Hosting;
using Recommender.Domain.Decisions;
using Recommender.Storage.Backups;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Commands;

/// <summary>Restores a backup into an empty store, and walks every chain before it says done.</summary>
public static class RestoreCommand
{
    /// <summary>The command.</summary>
    public const string Name = "restore";

    /// <summary>Restores the backup.</summary>
    /// <param name="args">The command and the file.</param>
    /// <param name="configuration">Gives the store.</param>
    /// <param name="output">Takes the report, a line an organisation.</param>
    /// <param name="error">Takes what keeps it from running.</param>
    /// <returns>Exit code: 0 restored and every chain holds, 1 a chain of the backup does not and nothing was restored, 2 it cannot be restored here.</returns>
    public static async Task<int> Run(string[] args, IConfiguration configuration, TextWriter output, TextWriter error)
    {
        try
        {
            if (args is not [_, { Length: > 0 } file, ..])
            {
                throw new InvalidSettingException("Say what: restore FILE.");
            }

            var address = Settings.Of(configuration).Store;
            using var store = address.Open();
            var chains = await StoreBackup.Restore(file, store);
            foreach (var (organisation, check) in chains)
            {
                await output.WriteLineAsync(check.FirstBroken is { } found
                    ? $"{organisation}: BROKEN at {found.Position}{(found.DecisionId is { } id ? $" (decision {id})" : "")}. {found.Problem}"
                    : $"{organisation}: intact, {check.Checked} records; head {RecordHash.Hex(check.Head.Span)}.");
            }

            var broken = chains.Any(c => c.Check.FirstBroken is not null);
            await output.WriteLineAsync(broken ? "Nothing was restored: the backup's record does not hold." : $"{file} is restored in {address}.");
            return broken ? 1 : 0;
        }
        catch (Exception e) when (e is InvalidSettingException or InvalidBackupException or StoreUnavailableException or IOException or UnauthorizedAccessException)
        {
            await error.WriteLineAsync(e.Message);
            return 2;
        }
    }
}
