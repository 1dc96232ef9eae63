using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Answers.Tests;

/// <summary>The repository's own data, read once.</summary>
public static class Shipped
{
    private static readonly Lazy<string> Found = new(Find);
    private static readonly Lazy<Edition> Read = new(() => KnowledgeReader.Read(Folder));

    public static string Folder => Found.Value;

    public static string Squad => Path.Combine(Folder, "demo", "squad.json");

    public static Edition Edition => Read.Value;

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Recommender.sln")))
            {
                return Path.Combine(folder.FullName, "data");
            }
        }

        throw new DirectoryNotFoundException("The repository's data folder is not above the tests.");
    }
}
