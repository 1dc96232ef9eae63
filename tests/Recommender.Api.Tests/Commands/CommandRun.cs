using Microsoft.Extensions.Configuration;
using Recommender.Api.Commands;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Commands;

/// <summary>A command, run in this process on the repository's data.</summary>
public static class CommandRun
{
    public static (int Exit, string Output, string Error) Of(params string[] args) => On(Repository.File("data"), args);

    public static (int Exit, string Output, string Error) On(string folder, params string[] args)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var configuration = new ConfigurationBuilder().AddInMemoryCollection(new Dictionary<string, string?> { ["Data:Path"] = folder }).Build();
        return (DataCommands.Run(args, configuration, output, error), output.ToString(), error.ToString());
    }
}
