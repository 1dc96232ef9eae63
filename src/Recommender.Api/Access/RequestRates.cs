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
            : RateLimitPartition.GetTokenBucketLimiter(AddressOf(context), _ => withoutKey));
        limiter.OnRejected = async (rejected, _) => await Refuse(rejected.HttpContext, rejected.Lease, rejected.HttpContext.CallerOrNull() is null ? settings.WithoutKey : settings.OfKey);
    });

    /// <summary>Answers that this was too often, and when to come again.</summary>
    /// <param name="context">The request.</param>
    /// <param name="lease">What was not given.</param>
    /// <param name="rate">How often it may be.</param>
    public static Task Refuse(HttpContext context, RateLimitLease lease, Rate rate)
    {
        var wait = lease.TryGetMetadata(MetadataName.RetryAfter, out var after) ? Math.Max(1, (int)Math.Ceiling(after.TotalSeconds)) : 1;
        context.Response.Headers.RetryAfter = wait.ToString(CultureInfo.InvariantCulture);
        var text = $"More than {rate.PerSecond} requests a second came from here and the {rate.Burst} saved up are used. Send this one again after {wait} seconds.";
        return PageResults.Wanted(context.Request) ? PageResults.Write(context, StatusCodes.Status429TooManyRequests, "Too many at once", text) : Problem.Of(ProblemTypes.TooMany, text).ExecuteAsync(context);
    }

    /// <summary>Name of the bucket of who sent a request, as far as its address tells.</summary>
    public static string AddressOf(HttpContext context) => Of(context.Connection.RemoteIpAddress);

    /// <summary>A bucket of a rate.</summary>
    public static TokenBucketRateLimiterOptions Options(Rate rate) => new()
    {
        TokenLimit = rate.Burst,
        TokensPerPeriod = rate.PerSecond,
        ReplenishmentPeriod = TimeSpan.FromSeconds(1),
        QueueLimit = 0,
        AutoReplenishment = true,
    };

    /// <summary>An address as a name; of IPv6 the first half, since whoever has one address there has all of the network.</summary>
    private static string Of(IPAddress? address)
    {
        if (address is not { AddressFamily: AddressFamily.InterNetworkV6 } || address.IsIPv4MappedToIPv6)
        {
            return $"address {address?.MapToIPv4()}";
        }

        return $"network {Convert.ToHexStringLower(address.GetAddressBytes().AsSpan(0, 8))}";
    }
}
