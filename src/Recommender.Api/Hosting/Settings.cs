using System.Net;
using Recommender.Storage;

namespace Recommender.Api.Hosting;

/// <summary>Settings, from environment, arguments or appsettings.json.</summary>
/// <param name="DataFolder">Folder of the knowledge files; beside the program when not set.</param>
/// <param name="StorageFolder">Folder of the SQLite file; the user's local application-data folder when not set.</param>
/// <param name="Store">Which store: the file in that folder, or a PostgreSQL database.</param>
public sealed record Settings(string DataFolder, string StorageFolder, StoreAddress Store)
{
    /// <summary>Reads settings.</summary>
    /// <exception cref="InvalidSettingException">One cannot be used.</exception>
    public static Settings Of(IConfiguration configuration)
    {
        foreach (var url in (configuration["Urls"] ?? "").Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (!IsLoopback(url))
            {
                throw new InvalidSettingException($"Urls holds {url}; without access keys the service listens on loopback only, for example http://127.0.0.1:5080.");
            }
        }

        var storageFolder = configuration["Storage:Path"] ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create), "track-accessory-recommender");
        return new Settings(configuration["Data:Path"] ?? Path.Combine(AppContext.BaseDirectory, "data"), storageFolder, StoreOf(configuration, storageFolder));
    }

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

    private static bool IsLoopback(string url) =>
        Uri.TryCreate(url, UriKind.Absolute, out var address)
        && (address.Host == "localhost" || (IPAddress.TryParse(address.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip)));
}

/// <summary>A setting cannot be used.</summary>
/// <param name="message">Which, and what would be right.</param>
public sealed class InvalidSettingException(string message) : Exception(message);
