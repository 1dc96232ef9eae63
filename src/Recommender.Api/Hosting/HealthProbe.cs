namespace Recommender.Api.Hosting;

/// <summary>Asks a running service whether it is ready, for images that carry no other client.</summary>
public static class HealthProbe
{
    /// <summary>The argument that asks instead of serving.</summary>
    public const string Command = "health";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    /// <summary>Exit code: 0 when the service at the first of the configured addresses is ready.</summary>
    public static async Task<int> Run(IConfiguration configuration)
    {
        var address = (configuration["Urls"] ?? "").Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).FirstOrDefault();
        if (!Uri.TryCreate(address, UriKind.Absolute, out var service))
        {
            await Console.Error.WriteLineAsync("Urls holds no address to ask.").ConfigureAwait(false);
            return 1;
        }

        using var client = new HttpClient { Timeout = Patience };
        try
        {
            using var answer = await client.GetAsync(new Uri(service, "/health/ready")).ConfigureAwait(false);
            return answer.IsSuccessStatusCode ? 0 : 1;
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException)
        {
            await Console.Error.WriteLineAsync($"{service} does not answer.").ConfigureAwait(false);
            return 1;
        }
    }
}
