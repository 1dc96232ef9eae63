using System.Buffers.Binary;

namespace Recommender.Storage.Tests;

/// <summary>A folder of its own for one SQLite store, gone afterwards.</summary>
public sealed class StoreFolder : StorePlace
{
    public StoreFolder() => Path = Directory.CreateTempSubdirectory("recommender-store-").FullName;

    public string Path { get; }

    public string File => System.IO.Path.Combine(Path, "recommender.db");

    public string WriteAheadLog => File + "-wal";

    public override IReadOnlyList<string> Arguments => ["sqlite", Path];

    public override Store Open() => SqliteStore.Open(Path);

    public override OutsideConnection Outside() => new(File);

    public override void Flush(OutsideConnection outside) => outside.Run("PRAGMA wal_checkpoint(TRUNCATE)");

    /// <summary>Commit frames of the write-ahead log, whose header holds a database size above 0. Source: sqlite.org/fileformat2.html, section 4.1.</summary>
    public override int Commits(OutsideConnection outside)
    {
        using var stream = new FileStream(WriteAheadLog, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var log = new byte[stream.Length];
        stream.ReadExactly(log);
        var frame = 24 + BinaryPrimitives.ReadInt32BigEndian(log.AsSpan(8));
        var commits = 0;
        for (var at = 32; at + frame <= log.Length; at += frame)
        {
            commits += BinaryPrimitives.ReadUInt32BigEndian(log.AsSpan(at + 4)) > 0 ? 1 : 0;
        }

        return commits;
    }

    public override void Dispose() => Directory.Delete(Path, recursive: true);
}
