using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace Recommender.Api.Tests.Hosting;

/// <summary>The real service in memory, on a store of its own.</summary>
public sealed class ApiHost : WebApplicationFactory<Program>
{
    private string folder = Directory.CreateTempSubdirectory("recommender-").FullName;
    private HttpClient? client;

    /// <summary>Another program on the same store; it takes the folder away when it is disposed.</summary>
    public ApiHost Again()
    {
        var next = new ApiHost();
        Directory.Delete(next.folder);
        next.folder = folder;
        return next;
    }

    /// <summary>Puts stand-ins where the service would have its own.</summary>
    public Action<IServiceCollection>? Replace { get; init; }

    /// <summary>Settings beside the store's folder.</summary>
    public IReadOnlyDictionary<string, string> Settings { get; init; } = new Dictionary<string, string>();

    /// <summary>Folder of the store.</summary>
    public string Folder => folder;

    // Following redirects would copy every body into memory first, and give it a length.
    public HttpClient Client => client ??= CreateClient(new WebApplicationFactoryClientOptions { AllowAutoRedirect = false, HandleCookies = false });

    public Task<HttpResponseMessage> Post(string path, string body, params (string Name, string Value)[] headers) => Post(path, Encoding.UTF8.GetBytes(body), headers);

    public Task<HttpResponseMessage> Post(string path, byte[] body, params (string Name, string Value)[] headers)
    {
        var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return Send(path, content, headers);
    }

    public async Task<HttpResponseMessage> Send(string path, HttpContent content, params (string Name, string Value)[] headers)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, path) { Content = content };
        foreach (var (name, value) in headers)
        {
            message.Headers.TryAddWithoutValidation(name, value);
        }

        return await Client.SendAsync(message);
    }

    /// <summary>Posts a body that must be answered with 200.</summary>
    public async Task<JsonObject> Answer(string path, string body)
    {
        using var response = await Post(path, body);
        var text = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == 200, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    /// <summary>Gets a path that must be answered with 200.</summary>
    public async Task<JsonObject> Get(string path)
    {
        using var response = await Client.GetAsync(path);
        var text = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == 200, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    /// <summary>Runs SQL on the store behind the service's back.</summary>
    public long Sql(string sql)
    {
        _ = Client;
        using var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "recommender.db")};Pooling=False");
        connection.Open();
        return connection.ExecuteScalar<long>(sql);
    }

    public long DecisionCount() => Sql("SELECT count(*) FROM decisions");

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseSetting("Storage:Path", folder);
        builder.UseSetting("Work:Single", "64"); // many tests ask many at once, on however few cores
        builder.UseSetting("Work:WaitSeconds", "600"); // and however slow these are
        builder.UseSetting("Work:DrainSeconds", "0"); // nobody spreads a load over it that has to see first that it stops
        foreach (var (name, value) in Settings)
        {
            builder.UseSetting(name, value);
        }

        if (Replace is not null)
        {
            builder.ConfigureTestServices(Replace);
        }
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        if (disposing)
        {
            SqliteConnection.ClearAllPools();
            try
            {
                Directory.Delete(folder, recursive: true);
            }
            catch (DirectoryNotFoundException)
            {
                // A host is disposed by more than one hand; the store's own files may also go while the folder is walked.
            }
        }
    }
}

/// <summary>Classes that share one service, since none of them needs a store to itself.</summary>
[CollectionDefinition(Name)]
public sealed class SharedApi : ICollectionFixture<ApiHost>
{
    public const string Name = "api";
}
