using Recommender.Storage;

namespace Recommender.Api.Hosting;

/// <summary>Settings, from environment, arguments or appsettings.json.</summary>
/// <param name="DataFolder">Folder of the knowledge files; beside the program when not set.</param>
/// <param name="StorageFolder">Folder of the SQLite file; the user's local application-data folder when not set.</param>
/// <param name="Store">Which store: the file in that folder, or a PostgreSQL database.</param>
public sealed record Settings(string DataFolder, string StorageFolder, StoreAddress Store)
{
    private const double LeastWatchSeconds = 0.1;
    private const double MostWatchSeconds = 3600;
    private static readonly TimeSpan DefaultWatch = TimeSpan.FromSeconds(2);

    /// <summary>How often the store is asked whether another replica has put something in force: within about this time every replica answers on it.</summary>
    public TimeSpan Watch { get; init; } = DefaultWatch;

    /// <summary>Reads settings.</summary>
    /// <exception cref="InvalidSettingException">One cannot be used.</exception>
    public static Settings Of(IConfiguration configuration)
    {
        var storageFolder = configuration["Storage:Path"] ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create), "track-accessory-recommender");
        return new Settings(configuration["Data:Path"] ?? Path.Combine(AppContext.BaseDirectory, "data"), storageFolder, StoreOf(configuration, storageFolder))
        {
            Watch = configuration["Storage:WatchSeconds"] is { } watch ? WatchOf(watch) : DefaultWatch,
        };
    }

    private static TimeSpan WatchOf(string text) =>
        double.TryParse(text, System.Globalization.NumberStyles.AllowDecimalPoint, System.Globalization.CultureInfo.InvariantCulture, out var seconds) && seconds is >= LeastWatchSeconds and <= MostWatchSeconds
            ? TimeSpan.FromSeconds(seconds)
            : throw new InvalidSettingException($"Storage__WatchSeconds is \"{text}\"; give seconds, from {LeastWatchSeconds} to {MostWatchSeconds}, for example 2.");

    private static StoreAddress StoreOf(IConfiguration configuration, string storageFolder)
    {
        var provider = configuration["Storage:Provider"] ?? "sqlite";
        if (provider == "sqlite")
        {
            return StoreAddress.InFolder(storageFolder);
        }

        if (provider != "postgres")
        {
            throw new InvalidSettingException($"Storage__Provider is \"{provider}\"; give sqlite or postgres.");
        }

        try
        {
            return StoreAddress.OnPostgres(configuration["Storage:ConnectionString"] ?? "");
        }
        catch (ArgumentException e)
        {
            throw new InvalidSettingException($"Storage__ConnectionString names no PostgreSQL database: {e.Message}");
        }
    }
}

/// <summary>A setting cannot be used.</summary>
/// <param name="message">Which, and what would be right.</param>
public sealed class InvalidSettingException(string message) : Exception(message);
