using Recommender.Benchmarks;
using Recommender.Benchmarks.Engine;
using Recommender.Benchmarks.Http;
using Recommender.Benchmarks.Sessions;

switch (args)
{
    case ["serve", "bare", var url, var answerBytes]:
        await Servers.Bare(url, int.Parse(answerBytes, System.Globalization.CultureInfo.InvariantCulture));
        return 0;
    case ["serve", "serialising", var url]:
        await Servers.Serialising(url);
        return 0;
    case ["serve", "storing-off", var url]:
        await Servers.StoringOff(url);
        return 0;
    case []:
        EngineBenchmark.Run();
        SessionBenchmark.Run();
        await HttpBenchmark.Run();
        await StartBenchmark.Run();
        return 0;
    case ["engine"]:
        EngineBenchmark.Run();
        return 0;
    case ["session"]:
        SessionBenchmark.Run();
        return 0;
    case ["http"]:
        await HttpBenchmark.Run();
        return 0;
    case ["start"]:
        await StartBenchmark.Run();
        return 0;
    case ["load", var port, var seconds]:
        Console.WriteLine(await LoadDriver.For(TimeSpan.FromSeconds(int.Parse(seconds, System.Globalization.CultureInfo.InvariantCulture)),
            int.Parse(port, System.Globalization.CultureInfo.InvariantCulture), Requests.Bodies()));
        return 0;
    default:
        await Console.Error.WriteLineAsync("Give engine, session, http or start, or nothing for all; load PORT SECONDS drives a server that runs already.");
        return 1;
}
