namespace Recommender.Api.Hosting;

/// <summary>Settings, from environment, arguments or appsettings.json.</summary>
/// <param name="DataFolder">Folder of the knowledge files; beside the program when not set.</param>
/// <param name="StorageFolder">Folder of the SQLite file; the user's local application-data folder when not set.</param>
public sealed record Settings(string DataFolder, string StorageFolder)
{
    /// <summary>Reads settings.</summary>
    /// <exception cref="InvalidSettingException">One cannot be used.</exception>
    public static Settings Of(IConfiguration configuration)
    {
        var provider = configuration["Storage:Provider"] ?? "sqlite";
        if (provider != "sqlite")
        {
            throw new InvalidSettingException($"Storage__Provider is \"{provider}\"; this version has sqlite.");
        }

        return new Settings(
            configuration["Data:Path"] ?? Path.Combine(AppContext.BaseDirectory, "data"),
            configuration["Storage:Path"] ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create), "track-accessory-recommender"));
    }
}

/// <summary>A setting cannot be used.</summary>
/// <param name="message">Which, and what would be right.</param>
public sealed class InvalidSettingException(string message) : Exception(message);
