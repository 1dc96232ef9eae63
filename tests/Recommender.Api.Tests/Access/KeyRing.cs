using System.Net.Http.Headers;
using System.Text;
using Microsoft.Extensions.DependencyInjection;
using Recommender.Answers.Access;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Access;

/// <summary>Makes keys on the store of a service, and asks with them.</summary>
internal static class KeyRing
{
    /// <summary>A key as its owner gets it.</summary>
    public static async Task<string> Key(this ApiHost api, string organisation, Scopes scopes) =>
        (await api.Services.GetRequiredService<AccessKeys>().Create(organisation, scopes, null, null))!.Value.Secret.Reveal();

    /// <summary>Sends a request with a key, or with none.</summary>
    public static async Task<HttpResponseMessage> Ask(this ApiHost api, string? key, string method, string path, string? body = null, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method.ToUpperInvariant()), path);
        if (key is not null)
        {
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
        }

        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        if (body is not null)
        {
            request.Content = new StringContent(body, Encoding.UTF8, "application/json");
        }

        return await api.Client.SendAsync(request);
    }

    /// <summary>Sends a request that must be answered with a status, and gives the text of the answer.</summary>
    public static async Task<string> Text(this ApiHost api, string? key, int status, string method, string path, string? body = null, params (string Name, string Value)[] headers)
    {
        using var response = await api.Ask(key, method, path, body, headers);
        var text = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == status, $"{method} {path}: {(int)response.StatusCode} {text}");
        return text;
    }
}
