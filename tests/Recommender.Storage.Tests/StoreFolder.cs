namespace Recommender.Storage.Tests;

/// <summary>A folder of its own for one store, gone afterwards.</summary>
public sealed class StoreFolder : IDisposable
{
    public StoreFolder() => Path = Directory.CreateTempSubdirectory("recommender-store-").FullName;

    public string Path { get; }

    public string File => System.IO.Path.Combine(Path, "recommender.db");

    public string WriteAheadLog => File + "-wal";

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
