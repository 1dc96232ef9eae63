using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Threading.RateLimiting;
using Recommender.Api.Problems;
using Recommender.Pages.Hosting;

namespace Recommender.Api.Access;

/// <summary>How often each key may ask, as a bucket that fills every second. Open use on loopback has no limit; off loopback, and where a proxy may bring in others, an address that sends no key has one of its own.</summary>
internal static class RequestRates
{
    private const string NoLimit = "";

    /// <summary>Registers the limits.</summary>
    public static void AddRequestRates(this IServiceCollection services, AccessSettings settings) => services.AddRateLimiter(limiter =>
    {
        var (ofKey, withoutKey) = (Options(settings.OfKey), Options(settings.WithoutKey));
        limiter.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(context =>
            context.CallerOrNull()?.KeyId is { } key ? RateLimitPartition.GetTokenBucketLimiter(key, _ => ofKey)
            : settings.Reachable is null && settings.Proxies.Count == 0 ? RateLimitPartition.GetNoLimiter(NoLimit)
            : RateLimitPartition.GetTokenBucketLimiter(Of(context.Connection.RemoteIpAddress), _ => withoutKey));
        limiter.OnRejected = async (rejected, _) =>
        {
            var (context, wait) = (rejected.HttpContext, rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after) ? Math.Max(1, (int)Math.Ceiling(after.TotalSeconds)) : 1);
            context.Response.Headers.RetryAfter = wait.ToString(CultureInfo.InvariantCulture);
            var rate = context.CallerOrNull() is null ? settings.WithoutKey : settings.OfKey;
            var text = $"More than {rate.PerSecond} requests a second came from here and the {rate.Burst} saved up are used. Send this one again after {wait} seconds.";
            await (PageResults.Wanted(context.Request) ? PageResults.Write(context, StatusCodes.Status429TooManyRequests, "Too many at once", text) : Problem.Of(ProblemTypes.TooMany, text).ExecuteAsync(context));
        };
    });

    /// <summary>An address as a name; of IPv6 the first half, since whoever has one address there has all of the network.</summary>
    private static string Of(IPAddress? address)
    {
        if (address is not { AddressFamily: AddressFamily.InterNetworkV6 } || address.IsIPv4MappedToIPv6)
        {
            return $"address {address?.MapToIPv4()}";
        }

        return $"network {Convert.ToHexStringLower(address.GetAddressBytes().AsSpan(0, 8))}";
    }

    private static TokenBucketRateLimiterOptions Options(Rate rate) => new()
    {
        TokenLimit = rate.Burst,
        TokensPerPeriod = rate.PerSecond,
        ReplenishmentPeriod = TimeSpan.FromSeconds(1),
        QueueLimit = 0,
        AutoReplenishment = true,
    };
}
