using System.Threading.RateLimiting;

namespace Recommender.Api.Access;

/// <summary>
/// How often an address may send keys that this program does not know: each costs a read of the store, which is counted before it is done. A key that was found keeps being known, so that whoever makes keys up takes
/// nothing from those who hold one; only a good key that this program has not met yet shares the rate of its address.
/// </summary>
/// <param name="settings">The rate: that of an address without a key.</param>
internal sealed class KeyLookups(AccessSettings settings) : IDisposable
{
    private readonly PartitionedRateLimiter<HttpContext> limiter = PartitionedRateLimiter.Create<HttpContext, string>(context =>
        RateLimitPartition.GetTokenBucketLimiter(RequestRates.AddressOf(context), _ => RequestRates.Options(settings.WithoutKey)));

    /// <summary>Takes one read of the store from those that the sender may cause now.</summary>
    /// <returns>A lease that says when the next one can be had, where this one cannot.</returns>
    public RateLimitLease Take(HttpContext context) => limiter.AttemptAcquire(context);

    public void Dispose() => limiter.Dispose();
}
