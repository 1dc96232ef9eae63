using Recommender.Benchmarks;
using Recommender.Benchmarks.Audit;
using Recommender.Benchmarks.Engine;
using Recommender.Benchmarks.Http;
using Recommender.Benchmarks.Learning;
using Recommender.Benchmarks.Record;
using Recommender.Benchmarks.Sessions;
using Recommender.Benchmarks.Stores;

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
        StageBenchmark.Run();
        SubstitutionBenchmark.Run();
        SessionBenchmark.Run();
        AuditBenchmark.Run();
        await RecordBenchmark.Run();
        await StoreBenchmark.Run();
        LearningBenchmark.Run();
        await HttpBenchmark.Run();
        await StartBenchmark.Run();
        await KeyBenchmark.Run();
        await TelemetryBenchmark.Run();
        await ReplicaBenchmark.Run();
        return 0;
    case ["engine"]:
        EngineBenchmark.Run();
        return 0;
    case ["stages"]:
        StageBenchmark.Run();
        return 0;
    case ["substitution"]:
        SubstitutionBenchmark.Run();
        return 0;
    case ["session"]:
        SessionBenchmark.Run();
        return 0;
    case ["audit"]:
        AuditBenchmark.Run();
        return 0;
    case ["record"]:
        await RecordBenchmark.Run();
        return 0;
    case ["stores"]:
        await StoreBenchmark.Run();
        return 0;
    case ["replicas"]:
        await ReplicaBenchmark.Run();
        return 0;
    case ["learning"]:
        LearningBenchmark.Run();
        return 0;
    case ["http"]:
        await HttpBenchmark.Run();
        return 0;
    case ["keys"]:
        await KeyBenchmark.Run();
        return 0;
    case ["telemetry"]:
        await TelemetryBenchmark.Run();
        return 0;
    case ["start"]:
        await StartBenchmark.Run();
        return 0;
    case ["load", var port, var seconds]:
        Console.WriteLine(await LoadDriver.For(TimeSpan.FromSeconds(int.Parse(seconds, System.Globalization.CultureInfo.InvariantCulture)),
            int.Parse(port, System.Globalization.CultureInfo.InvariantCulture), Requests.Bodies()));
        return 0;
    default:
        await Console.Error.WriteLineAsync("Give engine, stages, substitution, session, audit, record, stores, replicas, learning, http, keys, telemetry or start, or nothing for all; load PORT SECONDS drives a server that runs already.");
        return 1;
}
