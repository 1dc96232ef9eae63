using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Recommender.Api.Overload;
using Recommender.Service.Tests.Fuzzing;

namespace Recommender.Service.Tests.Overload;

/// <summary>Names that set a call apart are names of calls.</summary>
public sealed class WorkKindTests
{
    [Fact]
    public async Task Every_call_that_is_set_apart_is_there()
    {
        await using var host = new FuzzHost();
        var endpoints = host.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>().ToList();

        var names = endpoints.Select(e => e.Metadata.GetMetadata<IEndpointNameMetadata>()?.EndpointName).Concat(endpoints.Select(e => "/" + e.RoutePattern.RawText?.TrimStart('/'))).ToHashSet();

        Assert.All(WorkKinds.Named, name => Assert.Contains(name, names));
        Assert.All(endpoints.Where(e => e.RoutePattern.RawText is "/health/live" or "/health/ready" or "/metrics"), e => Assert.Equal(WorkKind.Free, WorkKinds.Of(e)));
    }
}
