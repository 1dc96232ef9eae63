using System.Net.Http.Headers;
using Microsoft.Extensions.Configuration;
using Recommender.Answers.Access;
using Recommender.Api.Access;
using Recommender.Api.Commands;
using Recommender.Api.Hosting;
using Recommender.Api.Tests.Hosting;
using Recommender.Testing;

namespace Recommender.Api.Tests.Access;

/// <summary>Who may reach the service from where, how often, and from which pages.</summary>
public sealed class ReachTests
{
    [Theory]
    [InlineData("evil.example", null, 401)]
    [InlineData("169.254.169.254", null, 401)]
    [InlineData("localhost", "X-Forwarded-For", 401)]
    [InlineData("localhost", "X-Forwarded-Host", 401)]
    [InlineData("localhost", "x-original-for", 401)]
    [InlineData("localhost", "X-Real-IP", 401)]
    [InlineData("localhost", "True-Client-IP", 401)]
    [InlineData("localhost", "Forwarded", 401)]
    [InlineData("localhost", "Via", 401)]
    [InlineData("localhost", "X-Request-Id", 200)]
    [InlineData("127.0.0.1:5080", null, 200)]
    [InlineData("[::1]:5080", null, 200)]
    [InlineData("localhost:5080", null, 200)]
    public async Task Open_use_is_for_this_machine_by_its_own_name(string host, string? header, int status)
    {
        await using var api = new ApiHost();

        await api.Text(null, status, "GET", "/v1/vocabulary", null, header is null ? [("Host", host)] : [("Host", host), (header, "192.0.2.7")]);
    }

    /// <summary>Fetch, Origin header, and Fetch Metadata (W3C): a browser says for which page it asks, and no script can change that.</summary>
    [Theory]
    [InlineData("Sec-Fetch-Site", "cross-site", 401)]
    [InlineData("Sec-Fetch-Site", "same-origin", 200)]
    [InlineData("Sec-Fetch-Site", "none", 200)]
    [InlineData("Origin", "https://evil.example", 401)]
    [InlineData("Origin", "null", 401)]
    [InlineData("Origin", "https://localhost.evil.example", 401)]
    [InlineData("Origin", "http://127.0.0.1:5080", 200)]
    [InlineData("Origin", "http://[::1]:5080", 200)]
    [InlineData("Origin", "http://localhost:3000", 200)]
    public async Task Open_use_is_not_for_pages_of_other_sites(string header, string value, int status)
    {
        await using var api = new ApiHost();

        await api.Text(null, status, "GET", "/v1/vocabulary", null, (header, value));
    }

    [Fact]
    public async Task Off_loopback_it_starts_with_a_key_and_then_asks_for_one()
    {
        await using var api = new ApiHost { Settings = new Dictionary<string, string> { ["Urls"] = "http://0.0.0.0:5221", ["Limits:WithoutKeyPerSecond"] = "1", ["Limits:WithoutKeyBurst"] = "2" } };
        var (exit, key, told) = await Command(api.Folder, "create", "--organisation", "club", "--scopes", "recommend");
        Assert.True(exit == 0, told);

        await api.Text(key, 200, "GET", "/v1/vocabulary");
        await api.Text(null, 401, "GET", "/v1/vocabulary");
        var many = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => api.Ask(null, "GET", "/v1/vocabulary")));
        Assert.Contains(many, r => (int)r.StatusCode == 429);
        await api.Text(key, 200, "GET", "/v1/vocabulary");
        Array.ForEach(many, r => r.Dispose());
    }

    [Fact]
    public async Task A_key_that_asks_too_often_is_told_when_to_come_back_and_holds_up_no_other()
    {
        await using var api = new ApiHost { Settings = new Dictionary<string, string> { ["Limits:PerSecond"] = "1", ["Limits:Burst"] = "2" } };
        var (busy, calm) = (await api.Key("club", Scopes.Recommend), await api.Key("club", Scopes.Recommend));

        var many = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => api.Ask(busy, "GET", "/v1/vocabulary")));

        var refused = many.First(r => (int)r.StatusCode == 429);
        await ProblemAssert.Is(refused, 429, "too-many-requests");
        Assert.True(refused.Headers.RetryAfter?.Delta >= TimeSpan.FromSeconds(1));
        await api.Text(calm, 200, "GET", "/v1/vocabulary");
        Array.ForEach(many, r => r.Dispose());
    }

    /// <summary>The table is taken away, so that a read of it shows as a store that cannot be used.</summary>
    [Fact]
    public async Task Keys_that_are_made_up_are_counted_before_the_store_is_read_for_them_and_hold_up_no_good_one()
    {
        await using var api = new ApiHost { Settings = new Dictionary<string, string> { ["Limits:WithoutKeyPerSecond"] = "1", ["Limits:WithoutKeyBurst"] = "3" } };
        var good = await api.Key("club", Scopes.Recommend);
        await api.Text(good, 200, "GET", "/v1/vocabulary");
        api.Sql("ALTER TABLE access_keys RENAME TO away; SELECT 1");

        var many = await Task.WhenAll(Enumerable.Range(0, 60).Select(_ => api.Ask(KeySecret.Make().Reveal(), "GET", "/v1/vocabulary")));

        api.Sql("ALTER TABLE away RENAME TO access_keys; SELECT 1");
        Assert.All(many, r => Assert.True((int)r.StatusCode is 429 or 503, $"{(int)r.StatusCode}"));
        Assert.Contains(many, r => (int)r.StatusCode == 503);
        var counted = many.First(r => (int)r.StatusCode == 429);
        await ProblemAssert.Is(counted, 429, "too-many-requests");
        Assert.True(counted.Headers.RetryAfter?.Delta >= TimeSpan.FromSeconds(1));
        await api.Text(good, 200, "GET", "/v1/vocabulary");
        await Task.Delay(AccessKeys.Remembered);
        await api.Text(good, 200, "GET", "/v1/vocabulary");

        // In time it is told again that such a key does not hold.
        Assert.True(await Within(async () => (int)(await api.Ask(KeySecret.Make().Reveal(), "GET", "/v1/vocabulary")).StatusCode == 401), "it goes on refusing to look");
        Array.ForEach(many, r => r.Dispose());
    }

    [Fact]
    public async Task Scripts_of_named_origins_alone_may_call_and_never_with_a_cookie()
    {
        await using var api = new ApiHost { Settings = new Dictionary<string, string> { ["Cors:Origins"] = "https://planner.example" } };
        using var asked = await api.Ask(null, "OPTIONS", "/v1/recommendations", null, ("Origin", "https://planner.example"), ("Access-Control-Request-Method", "POST"), ("Access-Control-Request-Headers", "authorization,content-type"));
        Assert.Equal(204, (int)asked.StatusCode);
        Assert.Equal("https://planner.example", asked.Headers.GetValues("Access-Control-Allow-Origin").Single());
        Assert.False(asked.Headers.Contains("Access-Control-Allow-Credentials"));
        using var other = await api.Ask(null, "GET", "/v1/vocabulary", null, ("Origin", "https://evil.example"));
        Assert.False(other.Headers.Contains("Access-Control-Allow-Origin"));
        await using var closed = new ApiHost();
        using var none = await closed.Ask(null, "GET", "/v1/vocabulary", null, ("Origin", "https://planner.example"));
        Assert.False(none.Headers.Contains("Access-Control-Allow-Origin"));
    }

    [Theory]
    [InlineData("Cors:Origins", "*")]
    [InlineData("Cors:Origins", "https://planner.example/path")]
    [InlineData("Proxies:Known", "nearby")]
    [InlineData("Limits:PerSecond", "0")]
    [InlineData("Limits:Burst", "many")]
    public void A_setting_that_cannot_be_used_is_told(string name, string value) =>
        Assert.Contains(value, Assert.Throws<InvalidSettingException>(() => AccessSettings.Of(Configuration((name, value)))).Message);

    [Theory]
    [InlineData("Urls", "http://127.0.0.1:5080;http://[::1]:5080;http://localhost:1", null)]
    [InlineData("Urls", "http://127.0.0.1:5080;http://0.0.0.0:80", "http://0.0.0.0:80")]
    [InlineData("Http_Ports", "8080", "http://*:8080")]
    [InlineData("Kestrel:Endpoints:Main:Url", "http://192.0.2.1:80", "http://192.0.2.1:80")]
    public void An_address_that_others_can_reach_is_seen_whichever_setting_names_it(string name, string value, string? reachable) =>
        Assert.Equal(reachable, AccessSettings.Of(Configuration((name, value))).Reachable);

    [Fact]
    public async Task The_command_makes_lists_changes_and_ends_keys_on_a_store()
    {
        var folder = Directory.CreateTempSubdirectory("recommender-keys-");
        try
        {
            var (made, key, told) = await Command(folder.FullName, "create", "--organisation", "club", "--scopes", "audit,recommend", "--note", "staff room", "--expires-in-days", "30");
            Assert.Equal(0, made);
            var id = KeySecret.Read(key)!.Id;
            Assert.Contains($"Key {id} of club: recommend audit", told);
            Assert.DoesNotContain(key[^64..], told);
            var (_, listed, _) = await Command(folder.FullName, "list");
            Assert.Contains($"{id}  club  usable  recommend audit", listed);
            Assert.Contains("staff room", listed);
            var (changed, other, _) = await Command(folder.FullName, "rotate", id, "--overlap-minutes", "5");
            Assert.Equal((0, id), (changed, KeySecret.Read(other)!.Id));
            Assert.NotEqual(key, other);
            Assert.Equal(0, (await Command(folder.FullName, "revoke", id)).Exit);
            Assert.Equal(1, (await Command(folder.FullName, "revoke", id)).Exit);
            Assert.Equal(1, (await Command(folder.FullName, "rotate", id)).Exit);
            Assert.Contains("revoked", (await Command(folder.FullName, "list", "--organisation", "club")).Output);
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData("--organisation", "create", "--scopes", "recommend")]
    [InlineData("--scopes", "create", "--organisation", "club", "--scopes", "everything")]
    [InlineData("--organisation", "create", "--organisation", "The Club", "--scopes", "recommend")]
    [InlineData("--expires-in-days", "create", "--organisation", "club", "--scopes", "recommend", "--expires-in-days", "0")]
    [InlineData("--colour", "list", "--colour", "red")]
    [InlineData("keys create", "invent")]
    public async Task What_the_command_cannot_use_it_tells(string named, params string[] arguments)
    {
        var folder = Directory.CreateTempSubdirectory("recommender-keys-");
        try
        {
            var (exit, output, error) = await Command(folder.FullName, arguments);

            Assert.Equal((2, ""), (exit, output));
            Assert.Contains(named, error);
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            folder.Delete(recursive: true);
        }
    }

    /// <summary>The built program over a real connection, asked by curl, which knows RFC 6750 by itself.</summary>
    [Fact]
    public async Task Once_a_key_is_made_beside_it_a_running_service_asks_for_it_and_refuses_it_when_it_is_ended()
    {
        using var server = await ServiceProcess.Start();
        using var client = new HttpClient { BaseAddress = server.Address };
        Assert.Equal(200, (int)(await client.GetAsync("/v1/vocabulary")).StatusCode);
        var (exit, output, error) = await server.Command("keys", "create", "--organisation", "club", "--scopes", "recommend");
        Assert.True(exit == 0, error);
        var key = output.Trim();

        Assert.True(await Within(async () => (int)(await client.GetAsync("/v1/vocabulary")).StatusCode == 401), "it stays open");
        Assert.Equal("200", await Curl(server.Address, "--oauth2-bearer", key));
        Assert.Equal("401", await Curl(server.Address, "--oauth2-bearer", key[..^1] + (key[^1] == '0' ? '1' : '0')));
        Assert.Equal("401", await Curl(server.Address, "-u", "club:secret"));
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        Assert.Equal(200, (int)(await client.GetAsync("/v1/vocabulary")).StatusCode);

        Assert.Equal(0, (await server.Command("keys", "revoke", KeySecret.Read(key)!.Id)).ExitCode);
        Assert.True(await Within(async () => (int)(await client.GetAsync("/v1/vocabulary")).StatusCode == 401), "it still takes the key");
    }

    private static async Task<bool> Within(Func<Task<bool>> holds)
    {
        // The service promises two seconds; the rest is for a busy machine.
        for (var end = DateTime.UtcNow.AddMinutes(1); DateTime.UtcNow < end; await Task.Delay(100))
        {
            if (await holds())
            {
                return true;
            }
        }

        return false;
    }

    private static async Task<string> Curl(Uri address, params string[] arguments)
    {
        using var curl = System.Diagnostics.Process.Start(new System.Diagnostics.ProcessStartInfo("curl", [.. arguments, "-s", "-o", "/dev/null", "-w", "%{http_code}", new Uri(address, "/v1/vocabulary").ToString()]) { RedirectStandardOutput = true })!;
        var output = await curl.StandardOutput.ReadToEndAsync();
        await curl.WaitForExitAsync();
        return output;
    }

    private static IConfiguration Configuration(params (string Name, string Value)[] settings) =>
        new ConfigurationBuilder().AddInMemoryCollection(settings.Select(s => KeyValuePair.Create(s.Name, (string?)s.Value))).Build();

    internal static async Task<(int Exit, string Output, string Error)> Command(string folder, params string[] arguments)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var exit = await KeysCommand.Run([KeysCommand.Name, .. arguments], Configuration(("Storage:Path", folder)), output, error, TimeProvider.System);
        return (exit, output.ToString().TrimEnd('\n'), error.ToString());
    }
}
