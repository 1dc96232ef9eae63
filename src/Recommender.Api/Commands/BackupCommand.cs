using Recommender.Api.Hosting;
using Recommender.Storage.Backups;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Commands;

/// <summary>Makes a backup of the store into one file, beside a running service or without one.</summary>
public static class BackupCommand
{
    /// <summary>The command.</summary>
    public const string Name = "backup";

    /// <summary>Makes the backup.</summary>
    /// <param name="args">The command and the file or folder to make it in.</param>
    /// <param name="configuration">Gives the store.</param>
    /// <param name="output">Takes where it is.</param>
    /// <param name="error">Takes what keeps it from running.</param>
    /// <returns>Exit code: 0 made, 2 not made.</returns>
    public static int Run(string[] args, IConfiguration configuration, TextWriter output, TextWriter error)
    {
        try
        {
            if (args is not [_, { Length: > 0 } target, ..])
            {
                throw new InvalidSettingException("Say where to: backup FILE, or backup FOLDER for a file named by the time.");
            }

            var address = Settings.Of(configuration).Store;
            if (!address.HasStore())
            {
                throw new InvalidSettingException($"There is no store in {address}.");
            }

            using var store = address.Open();
            var file = Directory.Exists(target) ? Path.Combine(target, $"recommender-{TimeProvider.System.GetUtcNow():yyyyMMdd'T'HHmmss'Z'}.backup") : target;
            StoreBackup.Make(store, file);
            output.WriteLine($"{address} is backed up in {file}, {new FileInfo(file).Length / 1024:N0} KB. It holds personal data: keep it as safe as the store.");
            return 0;
        }
        catch (Exception e) when (e is InvalidSettingException or StoreUnavailableException or IOException or UnauthorizedAccessException)
        {
            error.WriteLine(e.Message);
            return 2;
        }
    }
}
