namespace Recommender.Storage.Tests.Kills;

/// <summary>A seeded share of the kills; the full size is <see cref="KillCommand"/>.</summary>
public abstract class KillTests(Func<KilledPlace> newPlace)
{
    private const int Kills = 6;

    [SkippableFact]
    public async Task Killed_programs_lose_nothing_that_they_had_answered_and_leave_nothing_half_written()
    {
        using var place = newPlace();

        var report = await new KillRun(place, seed: 20261126).Run(Kills);

        Assert.True(report.Answered >= Kills, $"{report}");
        Assert.True(report is { Missing: 0, Half: 0, ChainHolds: true }, $"{report}");
    }
}

public sealed class SqliteKillTests() : KillTests(KilledPlace.Sqlite);

public sealed class PostgresKillTests() : KillTests(KilledPlace.Postgres);
