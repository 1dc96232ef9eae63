using Recommender.Storage;

namespace Recommender.Learning;

/// <summary>The store that the service would use with the same environment.</summary>
internal static class StoreOfEnvironment
{
    /// <summary>Opens it.</summary>
    /// <exception cref="ArgumentException">The environment names no store.</exception>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">It cannot be opened.</exception>
    public static Store Open() => (Environment.GetEnvironmentVariable("Storage__Provider") ?? "sqlite") switch
    {
        "sqlite" => StoreAddress.InFolder(Environment.GetEnvironmentVariable("Storage__Path")
            ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create), "track-accessory-recommender")).Open(),
        "postgres" => StoreAddress.OnPostgres(Environment.GetEnvironmentVariable("Storage__ConnectionString") ?? "").Open(),
        var other => throw new ArgumentException($"Storage__Provider is \"{other}\"; give sqlite or postgres."),
    };
}
