using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using Json.Schema;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>
/// A schema, and which texts were found to fit it. Holding files against schemas is nine tenths of a read, and a draft changes one file of forty: what was found once in this program is not looked for again in the same bytes.
/// </summary>
/// <param name="schema">The schema.</param>
/// <param name="mark">Tells it from every other: its name, and the text of all that are read with it, since they name each other.</param>
internal sealed class KnowledgeSchema(JsonSchema schema, byte[] mark)
{
    /// <summary>Far more than one folder has; beyond it everything is looked at again.</summary>
    private const int MostRemembered = 5_000;
    private static readonly ConcurrentDictionary<string, bool> Fitting = new(StringComparer.Ordinal);

    /// <summary>The schema.</summary>
    public JsonSchema Schema => schema;

    /// <summary>A name for a text at a path under this schema.</summary>
    public string Name(string path, byte[] text)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(mark);
        hash.AppendData(Encoding.UTF8.GetBytes(path));
        hash.AppendData([0]);
        hash.AppendData(text);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>Whether it was found to fit.</summary>
    public static bool Knows(string name) => Fitting.ContainsKey(name);

    /// <summary>It fits.</summary>
    public static void Remember(string name)
    {
        if (Fitting.Count >= MostRemembered)
        {
            Fitting.Clear();
        }

        Fitting[name] = true;
    }

    /// <summary>What tells a schema from others.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="texts">Texts of all that are read with it.</param>
    public static byte[] MarkOf(string name, IEnumerable<byte[]> texts)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes(name));
        foreach (var text in texts)
        {
            hash.AppendData(BitConverter.GetBytes(text.Length));
            hash.AppendData(text);
        }

        return hash.GetHashAndReset();
    }
}
