using System.Security.Cryptography;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>Walks the chains of a store with plain SQL and plain SHA-256.</summary>
public static class Chain
{
    /// <summary>Ids by organisation in the order of the chain, after every link was computed again: previous hash, then content hash, from 32 zero bytes on.</summary>
    public static Dictionary<string, List<string>> Walk(string file)
    {
        using var outside = new OutsideConnection(file);
        var last = new Dictionary<string, byte[]>();
        var ids = new Dictionary<string, List<string>>();
        foreach (var row in outside.Rows("SELECT organisation, decision_id, content_hash, previous_hash, hash FROM decisions ORDER BY position"))
        {
            var (organisation, id, content, previous, hash) = ((string)row[0]!, (string)row[1]!, (byte[])row[2]!, (byte[])row[3]!, (byte[])row[4]!);
            Assert.Equal(last.GetValueOrDefault(organisation, new byte[32]), previous);
            Assert.Equal(SHA256.HashData([.. previous, .. content]), hash);
            last[organisation] = hash;
            if (!ids.TryGetValue(organisation, out var list))
            {
                ids[organisation] = list = [];
            }

            list.Add(id);
        }

        return ids;
    }
}
