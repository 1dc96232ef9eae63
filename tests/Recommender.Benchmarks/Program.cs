using Recommender.Benchmarks.Engine;
using Recommender.Benchmarks.Http;

switch (args)
{
    case ["serve", "bare", var url, var answerBytes]:
        await Servers.Bare(url, int.Parse(answerBytes, System.Globalization.CultureInfo.InvariantCulture));
        return 0;
    case ["serve", "storing-off", var url]:
        await Servers.StoringOff(url);
        return 0;
    case []:
        EngineBenchmark.Run();
        await HttpBenchmark.Run();
        await StartBenchmark.Run();
        return 0;
    case ["engine"]:
        EngineBenchmark.Run();
        return 0;
    case ["http"]:
        await HttpBenchmark.Run();
        return 0;
    case ["start"]:
        await StartBenchmark.Run();
        return 0;
    default:
        await Console.Error.WriteLineAsync("Give engine, http or start, or nothing for all three.");
        return 1;
}
