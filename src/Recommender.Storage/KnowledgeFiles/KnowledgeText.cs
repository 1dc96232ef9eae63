using System.Buffers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Recommender.Domain.Decisions;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>
/// The files of a catalogue or of a set of rules as one text: a JSON object of path and content, in canonical form (RFC 8785). Its hash is its version, so a version can only ever mean
/// this text.
/// </summary>
public sealed class KnowledgeText
{
    /// <summary>Hexadecimal digits of a version: 128 bits of SHA-256.</summary>
    public const int VersionLength = 32;

    private readonly Lazy<IReadOnlyDictionary<string, byte[]>> files;

    private KnowledgeText(byte[] utf8, IReadOnlyDictionary<string, byte[]>? files = null)
    {
        Utf8 = utf8;
        this.files = files is null ? new(Split) : new(files);
        Version = Convert.ToHexStringLower(SHA256.HashData(utf8))[..VersionLength];
    }

    /// <summary>The text.</summary>
    public ReadOnlyMemory<byte> Utf8 { get; }

    /// <summary>Its version.</summary>
    public string Version { get; }

    /// <summary>The text of some files.</summary>
    /// <param name="files">Path and content in canonical form.</param>
    public static KnowledgeText Of(IEnumerable<KeyValuePair<string, byte[]>> files)
    {
        var output = new ArrayBufferWriter<byte>();
        output.Write("{"u8);
        var sorted = files.OrderBy(f => f.Key, StringComparer.Ordinal).ToList();
        foreach (var (path, content) in sorted)
        {
            output.Write(output.WrittenCount == 1 ? ""u8 : ","u8);
            output.Write(JsonSerializer.SerializeToUtf8Bytes(path));
            output.Write(":"u8);
            output.Write(content);
        }

        output.Write("}"u8);
        return new KnowledgeText(output.WrittenSpan.ToArray(), sorted.ToDictionary(StringComparer.Ordinal));
    }

    /// <summary>A text as it was stored.</summary>
    /// <param name="utf8">The text.</param>
    /// <param name="version">The version that it was stored under.</param>
    /// <exception cref="InvalidDataException">It is not the text of this version.</exception>
    public static KnowledgeText Stored(byte[] utf8, string version)
    {
        var text = new KnowledgeText(utf8);
        return text.Version == version ? text : throw new InvalidDataException($"The stored text of version {version} was changed.");
    }

    /// <summary>Its files: path and content, always the same arrays.</summary>
    public IReadOnlyDictionary<string, byte[]> Files => files.Value;

    /// <summary>The text with some files changed.</summary>
    /// <param name="changed">Path and content in any JSON form; null takes a file away.</param>
    /// <exception cref="JsonException">A content has no canonical form.</exception>
    public KnowledgeText With(IEnumerable<KeyValuePair<string, byte[]?>> changed)
    {
        var next = Files.ToDictionary(StringComparer.Ordinal);
        foreach (var (path, content) in changed)
        {
            if (content is null)
            {
                next.Remove(path);
            }
            else
            {
                next[path] = CanonicalJson.Of(content);
            }
        }

        return Of(next);
    }

    private Dictionary<string, byte[]> Split()
    {
        using var document = JsonDocument.Parse(Utf8);
        return document.RootElement.EnumerateObject().ToDictionary(f => f.Name, f => Encoding.UTF8.GetBytes(f.Value.GetRawText()), StringComparer.Ordinal);
    }
}

/// <summary>Knowledge files as they were stored.</summary>
/// <param name="catalogue">Files of the catalogue.</param>
/// <param name="rules">Files of the rules.</param>
public sealed class StoredKnowledge(KnowledgeText catalogue, KnowledgeText rules) : IKnowledgeSource
{
    private readonly Dictionary<string, byte[]> files = catalogue.Files.Concat(rules.Files).ToDictionary(StringComparer.Ordinal);

    /// <inheritdoc/>
    public string Name => $"catalogue {catalogue.Version} with rules {rules.Version}";

    /// <inheritdoc/>
    public bool NamesSchemas => false;

    /// <inheritdoc/>
    public bool Exists => true;

    /// <inheritdoc/>
    public IReadOnlyList<string> Below(string folder) =>
        [.. files.Keys.Where(p => p.StartsWith(folder + "/", StringComparison.Ordinal) && !p[(folder.Length + 1)..].Contains('/', StringComparison.Ordinal)).Order(StringComparer.Ordinal)];

    /// <inheritdoc/>
    public byte[] Read(string path) => files.TryGetValue(path, out var content) ? content : throw new FileNotFoundException($"{path} is not among the stored files.");
}
