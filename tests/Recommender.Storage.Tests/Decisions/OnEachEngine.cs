using System.Text;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

// The same tests on each engine, and those that only one of them can be asked.
public sealed class SqliteDecisionLogTests() : DecisionLogTests(Engine.Sqlite);

public sealed class PostgresDecisionLogTests() : DecisionLogTests(Engine.Postgres);

public sealed class SqliteDecisionReaderTests() : DecisionReaderTests(Engine.Sqlite);

public sealed class PostgresDecisionReaderTests() : DecisionReaderTests(Engine.Postgres);

public sealed class SqliteIdempotencyClaimTests() : IdempotencyClaimTests(Engine.Sqlite);

public sealed class PostgresIdempotencyClaimTests() : IdempotencyClaimTests(Engine.Postgres);

public sealed class SqliteSharedCommitTests() : SharedCommitTests(Engine.Sqlite);

public sealed class PostgresSharedCommitTests() : SharedCommitTests(Engine.Postgres);

public sealed class PostgresChainVerifierTests() : ChainVerifierTests(Engine.Postgres);

public sealed class SqliteChainVerifierTests() : ChainVerifierTests(Engine.Sqlite)
{
    [Fact]
    public async Task A_file_that_was_cut_off_is_told_and_not_thrown()
    {
        var file = ((StoreFolder)Place).File;
        await Fill();
        Outside.Run("PRAGMA wal_checkpoint(TRUNCATE)");
        await Log.DisposeAsync();
        Store.CloseIdle();
        using (var stream = File.OpenWrite(file))
        {
            stream.SetLength(stream.Length / 8 * 5 / 4096 * 4096);
        }

        var check = await Verifier.Verify("club");

        Assert.NotNull(check.FirstBroken);
        Assert.Equal(check.Checked + 1, check.FirstBroken.Position);
    }
}

public sealed class PostgresErasureTests() : ErasureTests(Engine.Postgres);

public sealed class SqliteErasureTests() : ErasureTests(Engine.Sqlite)
{
    private const string Secret = "Personal-Mark-Qx7";

    [Fact]
    public async Task Leaves_no_byte_of_it_in_the_files()
    {
        await Log.Append([.. Enumerable.Range(0, 50).Select(i => Record($"d-{i}") with { AthleteRef = Secret, Personal = Encoding.UTF8.GetBytes($$$"""{"ref":"{{{Secret}}}","notes":{}}""") })], Claim().About([Secret]));
        Assert.True(InFiles());

        await Log.Erase("club", Secret);

        Assert.False(InFiles());
    }

    private bool InFiles() => Directory.GetFiles(((StoreFolder)Place).Path).Any(f =>
    {
        using var stream = new FileStream(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        return copy.GetBuffer().AsSpan(0, (int)copy.Length).IndexOf(Encoding.UTF8.GetBytes(Secret)) >= 0;
    });
}
