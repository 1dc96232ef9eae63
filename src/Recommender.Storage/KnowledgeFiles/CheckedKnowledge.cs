using System.Security.Cryptography;
using System.Text;
using Dapper;
using Json.Schema;
using Recommender.Domain.Knowledge;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>
/// Remembers in the store which data folders were found free of faults. The same program finds the same in the same bytes, and checking is half of what a start takes; a service that comes back after a
/// crash need not do it again. Any other byte in the folder, or another build of the program, is checked anew.
/// </summary>
/// <param name="store">The open store.</param>
public sealed class CheckedKnowledge(Store store)
{
    private const string Kind = "knowledge-checked:";
    private const string Known = "SELECT count(*) FROM marks WHERE name = @mark";
    private const string Add = "INSERT INTO marks (name) VALUES (@mark) ON CONFLICT (name) DO NOTHING";

    /// <summary>Whether a folder with this mark was found free of faults.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public bool Holds(string mark) => store.UseNow(c => c.ExecuteScalar<long>(Known, new { mark })) > 0;

    /// <summary>Remembers that a folder with this mark was found free of faults.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be written.</exception>
    public void Remember(string mark) => store.UseNow(c => c.Execute(Add, new { mark }));

    /// <summary>The mark of a folder: a hash over the path and bytes of every file in it, and over the builds of what checks them.</summary>
    /// <returns>Null when a file cannot be read; checking then tells which.</returns>
    public static string? MarkOf(string folder)
    {
        try
        {
            return Directory.Exists(folder) ? Kind + Hash(folder) : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static string Hash(string folder)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var type in new[] { typeof(KnowledgeReader), typeof(KnowledgeChecks), typeof(JsonSchema) })
        {
            hash.AppendData(type.Module.ModuleVersionId.ToByteArray());
        }

        foreach (var file in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            var bytes = File.ReadAllBytes(file);
            hash.AppendData(Encoding.UTF8.GetBytes(Path.GetRelativePath(folder, file)));
            hash.AppendData([0]);
            hash.AppendData(BitConverter.GetBytes(bytes.LongLength));
            hash.AppendData(bytes);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
