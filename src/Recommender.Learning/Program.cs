using Recommender.Domain.Knowledge;
using Recommender.Learning;

if (args is not ["fit"] and not ["fit", _])
{
    await Console.Error.WriteLineAsync("Say: fit [data folder]. It refits the tissue-load models and rewrites their files; without a folder, data/ below here.");
    return 2;
}

try
{
    FitCommand.Run(args.Length > 1 ? args[1] : "data", Console.Out);
    return 0;
}
catch (Exception e) when (e is InvalidKnowledgeException or InvalidFitException or IOException)
{
    await Console.Error.WriteLineAsync($"Nothing was fitted. {e.Message}");
    return 1;
}
