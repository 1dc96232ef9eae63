using System.Text;

namespace Recommender.Service.Tests;

/// <summary>Bodies that are sent where it does not matter what is asked.</summary>
internal static class Bodies
{
    public const string Least = """{"athlete":{"eventGroup":"jumps"},"phase":"competition"}""";

    public static StringContent Json(string body) => new(body, Encoding.UTF8, "application/json");

    public static async Task<int> Ask(this HttpClient client, string path = "/v1/recommendations", string body = Least)
    {
        using var content = Json(body);
        using var answer = await client.PostAsync(new Uri(path, UriKind.Relative), content);
        return (int)answer.StatusCode;
    }

    /// <summary>Saves a profile, the same each time.</summary>
    public static async Task<int> Save(this HttpClient client)
    {
        using var content = Json("""{"name":"Ilka Varro","athlete":{"eventGroup":"jumps"}}""");
        using var answer = await client.PutAsync(new Uri("/v1/athletes/TF-90", UriKind.Relative), content);
        return (int)answer.StatusCode;
    }
}
