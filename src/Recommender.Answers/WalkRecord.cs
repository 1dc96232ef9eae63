using System.Runtime.CompilerServices;
using System.Threading.Channels;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Walks an organisation's record along its chain and says how far it is.</summary>
/// <param name="verifier">Walks chains.</param>
public sealed class WalkRecord(ChainVerifier verifier)
{
    /// <summary>How many records were appended, and the hash of the last.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public Task<ChainEnd> End(string organisation) => verifier.End(organisation);

    /// <summary>Walks it.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="noted">A hash that was noted earlier and is looked for; null for none.</param>
    /// <param name="cancellation">Stops the walk.</param>
    /// <returns>Records walked so far after each stretch, and as the last one what was found.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async IAsyncEnumerable<ChainStep> Along(string organisation, byte[]? noted, [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        var steps = Channel.CreateUnbounded<long>();
        var walk = Walk();
        await foreach (var walked in steps.Reader.ReadAllAsync(CancellationToken.None).ConfigureAwait(false))
        {
            yield return new ChainStep(walked, null);
        }

        var check = await walk.ConfigureAwait(false);
        yield return new ChainStep(check.Checked, check);

        async Task<ChainCheck> Walk()
        {
            try
            {
                return await verifier.Verify(organisation, noted, walked => steps.Writer.TryWrite(walked), cancellation).ConfigureAwait(false);
            }
            finally
            {
                steps.Writer.Complete();
            }
        }
    }
}

/// <summary>How far a walk is.</summary>
/// <param name="Walked">Records that fit so far.</param>
/// <param name="Found">What was found; null until the end.</param>
public sealed record ChainStep(long Walked, ChainCheck? Found);
