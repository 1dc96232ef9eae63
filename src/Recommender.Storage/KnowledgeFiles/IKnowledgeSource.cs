namespace Recommender.Storage.KnowledgeFiles;

/// <summary>Where knowledge files are read from. Paths are relative, with forward slashes.</summary>
public interface IKnowledgeSource
{
    /// <summary>Name of the place, as told in faults.</summary>
    string Name { get; }

    /// <summary>Whether its files name the schema that they belong to.</summary>
    bool NamesSchemas { get; }

    /// <summary>Whether it is there at all.</summary>
    bool Exists { get; }

    /// <summary>Paths of the JSON files right below a folder, sorted; none when the folder is not there.</summary>
    IReadOnlyList<string> Below(string folder);

    /// <summary>A file's bytes.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    byte[] Read(string path);
}

/// <summary>Knowledge files in a folder.</summary>
/// <param name="root">The folder.</param>
public sealed class KnowledgeFolder(string root) : IKnowledgeSource
{
    /// <inheritdoc/>
    public string Name => root;

    /// <inheritdoc/>
    public bool NamesSchemas => true;

    /// <inheritdoc/>
    public bool Exists => Directory.Exists(root);

    /// <inheritdoc/>
    public IReadOnlyList<string> Below(string folder)
    {
        var path = Path.Combine(root, folder);
        return Directory.Exists(path) ? [.. Directory.GetFiles(path, "*.json").Select(f => $"{folder}/{Path.GetFileName(f)}").Order(StringComparer.Ordinal)] : [];
    }

    /// <inheritdoc/>
    public byte[] Read(string path) => File.ReadAllBytes(Path.Combine(root, path));
}
