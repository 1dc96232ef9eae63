using Recommender.Api.Hosting;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Api.Commands;

/// <summary>Commands that read the knowledge and print; they start no service, open no store and change nothing.</summary>
public static class DataCommands
{
    /// <summary>Prints what the numbers rest on.</summary>
    public const string Basis = "basis";

    /// <summary>Prints how far the catalogue reaches.</summary>
    public const string Coverage = "coverage";

    /// <summary>Checks an edited file of exercises.</summary>
    public const string Check = "check";

    /// <summary>Runs the command that the first argument names.</summary>
    /// <param name="args">Arguments of the program.</param>
    /// <param name="configuration">Gives the data folder.</param>
    /// <param name="output">Takes the report.</param>
    /// <param name="error">Takes what keeps it from running.</param>
    /// <returns>Exit code: 0 all is well, 1 something was found, 2 the command cannot run.</returns>
    public static int Run(string[] args, IConfiguration configuration, TextWriter output, TextWriter error)
    {
        try
        {
            var folder = Settings.Of(configuration).DataFolder;
            return args switch
            {
                [Basis, ..] => BasisCommand.Run(KnowledgeReader.Read(folder), folder, output),
                [Coverage, ..] => CoverageCommand.Run(KnowledgeReader.Read(folder), output),
                [Check, var file, ..] when !file.StartsWith('-') => CheckCommand.Run(file, folder, output),
                _ => throw new InvalidSettingException($"{Check} needs the file: {Check} exercises.csv, or a .json file."),
            };
        }
        catch (Exception e) when (e is InvalidKnowledgeException or InvalidSettingException or IOException or UnauthorizedAccessException)
        {
            error.WriteLine(e.Message);
            return 2;
        }
    }
}
