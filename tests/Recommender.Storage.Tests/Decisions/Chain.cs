using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using ZstdSharp;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>Walks the chains of a store with plain SQL, plain SHA-256 and the runtime's own JSON.</summary>
public static class Chain
{
    /// <summary>
    /// Ids by organisation in the order of the chain, after every hash was computed again from what is stored: SHA-256 of a body with sorted members, the hash before it among them,
    /// from 32 zero bytes on. Ids here are plain ASCII, so that sorted members and no white space make the canonical form.
    /// </summary>
    public static Dictionary<string, List<string>> Walk(string file)
    {
        using var outside = new OutsideConnection(file);
        return Walk(outside);
    }

    /// <inheritdoc cref="Walk(string)"/>
    public static Dictionary<string, List<string>> Walk(OutsideConnection outside)
    {
        var last = new Dictionary<string, byte[]>();
        var ids = new Dictionary<string, List<string>>();
        foreach (var row in outside.Rows("""
            SELECT organisation, sequence, decision_id, kind, created_at, status, top, engine, catalogue_version, rules_version, preference_version, personal_hash, previous_hash, hash, request, answer
            FROM decisions ORDER BY organisation, sequence
            """))
        {
            var organisation = (string)row[0]!;
            if (!ids.TryGetValue(organisation, out var list))
            {
                ids[organisation] = list = [];
                last[organisation] = new byte[32];
            }

            list.Add((string)row[2]!);
            Assert.Equal(list.Count, (long)row[1]!);
            Assert.Equal(last[organisation], (byte[])row[12]!);
            var body = new SortedDictionary<string, object?>(StringComparer.Ordinal)
            {
                ["organisation"] = organisation,
                ["sequence"] = row[1],
                ["decisionId"] = row[2],
                ["kind"] = row[3],
                ["createdAt"] = DateTimeOffset.FromUnixTimeMilliseconds((long)row[4]!).UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture),
                ["status"] = row[5],
                ["top"] = Text(row[6]),
                ["versions"] = new SortedDictionary<string, object?>(StringComparer.Ordinal) { ["engine"] = row[7], ["catalogue"] = row[8], ["rules"] = row[9], ["preference"] = Text(row[10]) },
                ["personalHash"] = Hex(row[11]),
                ["previousHash"] = Hex(row[12]),
                ["requestHash"] = Hex(SHA256.HashData(Unpacked(row[14]))),
                ["answerHash"] = Hex(SHA256.HashData(Unpacked(row[15]))),
            };
            Assert.Equal(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(body)), (byte[])row[13]!);
            last[organisation] = (byte[])row[13]!;
        }

        return ids;

        static string? Text(object? cell) => cell as string;
        static string Hex(object? bytes) => Convert.ToHexStringLower((byte[])bytes!);
    }

    private static byte[] Unpacked(object? cell)
    {
        using var unpacker = new Decompressor();
        return unpacker.Unwrap(((byte[])cell!).AsSpan(sizeof(int))).ToArray();
    }
}
