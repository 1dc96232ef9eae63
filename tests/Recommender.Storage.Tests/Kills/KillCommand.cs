using System.Globalization;

namespace Recommender.Storage.Tests.Kills;

/// <summary>The kills at full size, by hand: <c>dotnet run -c Release --project tests/Recommender.Storage.Tests -- kills 200</c>.</summary>
internal static class KillCommand
{
    private const int FullSize = 200;

    /// <param name="args">How many kills on each store, then a seed, then sqlite or postgres for one of them; all may be left out.</param>
    /// <returns>0 when nothing was lost.</returns>
    public static async Task<int> Run(string[] args)
    {
        var kills = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : FullSize;
        var seed = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1;
        var lost = false;
        (string Id, string Name, Func<KilledPlace> Place)[] all = [("sqlite", "SQLite", KilledPlace.Sqlite), ("postgres", "PostgreSQL, every other kill the server too", KilledPlace.Postgres)];
        foreach (var (_, name, place) in all.Where(a => args.Length < 3 || a.Id == args[2]))
        {
            using var killed = place();
            var report = await new KillRun(killed, seed).Run(kills, round => Console.Write(round % 20 == 0 ? $" {round}" : ""));
            Console.WriteLine();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{name}: {report.Kills} kills, {report.Answered} appends answered, {report.Stored} records there, {report.Missing} missing, {report.Half} half-written, chain {(report.ChainHolds ? "intact" : "BROKEN")}, longest start to first answer {report.LongestStart.TotalSeconds:0.00} s"));
            lost |= report.Missing > 0 || report.Half > 0 || !report.ChainHolds;
        }

        return lost ? 1 : 0;
    }

    public static int Usage()
    {
        Console.Error.WriteLine("Give kills [HOW MANY] [SEED] [sqlite|postgres].");
        return 2;
    }
}
