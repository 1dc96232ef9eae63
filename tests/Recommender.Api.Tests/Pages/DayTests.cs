using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Pages;

/// <summary>
/// Days are those of UTC wherever a replica runs. Here it runs in Pacific/Kiritimati, fourteen hours ahead (IANA time zone database): an hour before and an hour after midnight of UTC are
/// one afternoon there. The zone is the whole program's, so nothing else runs meanwhile.
/// </summary>
[Collection(Name)]
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class DayTests : IDisposable
{
    private const string Name = "zone";
    private const string Variable = "TZ";
    private readonly string? zone = Environment.GetEnvironmentVariable(Variable);

    public DayTests() => Put("Pacific/Kiritimati");

    public void Dispose() => Put(zone);

    [Fact]
    public async Task A_replica_far_from_UTC_tells_the_days_of_UTC()
    {
        Assert.Equal(TimeSpan.FromHours(14), TimeZoneInfo.Local.BaseUtcOffset);
        var clock = new SetClock(new DateTimeOffset(2026, 11, 25, 23, 30, 0, TimeSpan.Zero)) { Zone = TimeZoneInfo.Local };
        using var host = new ApiHost { Replace = services => services.RemoveAll<TimeProvider>().AddSingleton<TimeProvider>(clock) };
        var request = await host.Get("/v1/athletes/NM-04");
        request["athlete"]!["ref"] = (string)request["ref"]!;
        request.Remove("ref");
        request.Remove("name");
        await host.Answer("/v1/recommendations", request.ToJsonString());
        clock.Now = clock.Now.AddHours(1);
        await host.Answer("/v1/recommendations", request.ToJsonString());

        var page = WebUtility.HtmlDecode(await new FormClient(host).Get("/athletes/NM-04"));

        Assert.Contains("aria-label=\"Wednesday 25 November 2026\"", page, StringComparison.Ordinal);
        Assert.Contains("aria-label=\"Thursday 26 November 2026\"", page, StringComparison.Ordinal);
        Assert.Contains("Since Wed 25 November", page, StringComparison.Ordinal);
        Assert.DoesNotContain("asked 2 times that day", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Today_is_the_day_of_UTC()
    {
        var clock = new SetClock(new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero)) { Zone = TimeZoneInfo.Local };
        using var host = new ApiHost { Replace = services => services.RemoveAll<TimeProvider>().AddSingleton<TimeProvider>(clock) };
        Assert.Equal(new DateOnly(2026, 11, 25), host.Services.GetRequiredService<Recommender.Answers.SavedAthletes>().Today);
    }

    private static void Put(string? name)
    {
        Environment.SetEnvironmentVariable(Variable, name);
        TimeZoneInfo.ClearCachedData();
    }
}
