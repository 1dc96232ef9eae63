using Recommender.Domain.Knowledge;
using Recommender.Learning;
using Recommender.Learning.Invented;
using Recommender.Learning.Preferences;
using Recommender.Storage.Decisions;

const string Say = """
    Say: fit [data folder]. It refits the tissue-load models and rewrites their files; without a folder, data/ below here.
    Or:  learn [data folder]. It learns from the reports in the store that Storage__Provider, Storage__Path or Storage__ConnectionString names, as the service reads them, and puts in force what helps.
    Or:  season [data folder [store folder]]. It plays a season of three invented coaches on a store of its own and prints what was learned; in a folder that is named the store is kept, to look at in the pages.
    """;

if (args is not ["fit" or "learn" or "season"] and not ["fit" or "learn" or "season", _] and not ["season", _, _])
{
    await Console.Error.WriteLineAsync(Say);
    return 2;
}

try
{
    var folder = args.Length > 1 ? args[1] : "data";
    if (args[0] == "fit")
    {
        FitCommand.Run(folder, Console.Out);
    }
    else if (args[0] == "learn")
    {
        using var store = StoreOfEnvironment.Open();
        await LearnCommand.Run(store, folder, Console.Out);
    }
    else
    {
        await SeasonCommand.Run(folder, Console.Out, args.Length > 2 ? args[2] : null);
    }

    return 0;
}
catch (Exception e) when (e is InvalidKnowledgeException or InvalidFitException or IOException or StoreUnavailableException or ArgumentException)
{
    await Console.Error.WriteLineAsync($"Nothing was fitted. {e.Message}");
    return 1;
}
