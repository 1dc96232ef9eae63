using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Testing;

namespace Recommender.Storage.Tests.KnowledgeFiles;

/// <summary>A copy of the repository's data folder in which a test may break things.</summary>
public sealed class DataCopy : IDisposable
{
    public DataCopy()
    {
        Folder = Directory.CreateTempSubdirectory("recommender-data-").FullName;
        foreach (var file in Directory.GetFiles(Shipped, "*.json", SearchOption.AllDirectories))
        {
            var copy = PathOf(Path.GetRelativePath(Shipped, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
    }

    /// <summary>The repository's own data folder, not to be changed.</summary>
    public static string Shipped => TestEdition.DataFolder;

    public string Folder { get; }

    public string PathOf(string file) => Path.Combine(Folder, file);

    /// <summary>Changes a file as JSON.</summary>
    public DataCopy Edit(string file, Action<JsonObject> change)
    {
        var body = JsonNode.Parse(File.ReadAllText(PathOf(file)))!.AsObject();
        change(body);
        File.WriteAllText(PathOf(file), body.ToJsonString(new JsonSerializerOptions { WriteIndented = true }));
        return this;
    }

    /// <summary>Changes a file as text; the change must change something.</summary>
    public DataCopy EditText(string file, Func<string, string> change)
    {
        var before = File.ReadAllText(PathOf(file));
        var after = change(before);
        Assert.NotEqual(before, after);
        File.WriteAllText(PathOf(file), after);
        return this;
    }

    public DataCopy Delete(string file)
    {
        File.Delete(PathOf(file));
        return this;
    }

    public Edition Read() => KnowledgeReader.Read(Folder);

    /// <summary>The faults that reading it gives.</summary>
    public IReadOnlyList<KnowledgeFault> Faults() => Assert.Throws<InvalidKnowledgeException>(Read).Faults;

    /// <summary>Requires that reading it gives one fault, in this file, at this pointer, for a reason that holds all of these words.</summary>
    public void Fails(string file, string pointer, params string[] words)
    {
        var fault = Assert.Single(Faults());
        Assert.Equal(file, fault.File);
        Assert.Equal(pointer, fault.Pointer);
        Assert.All(words, word => Assert.Contains(word, fault.Reason, StringComparison.Ordinal));
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
