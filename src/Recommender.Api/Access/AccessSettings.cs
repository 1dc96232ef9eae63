using System.Globalization;
using System.Net;
using Recommender.Api.Hosting;

namespace Recommender.Api.Access;

/// <summary>Settings of who is let in, and how often.</summary>
/// <param name="Reachable">An address that other machines can reach, or null when the service listens on loopback alone.</param>
/// <param name="Origins">Origins whose scripts may call the API; empty for none.</param>
/// <param name="Proxies">Addresses or networks of the proxies whose word on who asks is taken; empty for none.</param>
/// <param name="OfKey">Rate of each key.</param>
/// <param name="WithoutKey">Rate of each address that sends no key, off loopback or behind a known proxy.</param>
public sealed record AccessSettings(string? Reachable, IReadOnlyList<string> Origins, IReadOnlyList<IPNetwork> Proxies, Rate OfKey, Rate WithoutKey)
{
    /// <summary>How the first key is made.</summary>
    public const string FirstKey = "dotnet run --project src/Recommender.Api -- keys create --organisation NAME --scopes recommend,audit,curate,admin";

    private static readonly char[] Between = [';', ',', ' '];
    private static readonly string[] PortSettings = ["Http_Ports", "Https_Ports"];

    /// <summary>Reads settings.</summary>
    /// <exception cref="InvalidSettingException">One cannot be used.</exception>
    public static AccessSettings Of(IConfiguration configuration) => new(
        Addresses(configuration).FirstOrDefault(url => !IsLoopback(url)),
        [.. Parts(configuration["Cors:Origins"]).Select(Origin)],
        [.. Parts(configuration["Proxies:Known"]).Select(Network)],
        new Rate(Number(configuration, "Limits:PerSecond", 200), Number(configuration, "Limits:Burst", 400)),
        new Rate(Number(configuration, "Limits:WithoutKeyPerSecond", 10), Number(configuration, "Limits:WithoutKeyBurst", 40)));

    /// <summary>Every address that the server was told to listen on, by whichever of its settings.</summary>
    private static IEnumerable<string> Addresses(IConfiguration configuration)
    {
        var urls = (configuration["Urls"] ?? "").Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        var ports = PortSettings.SelectMany(name => Parts(configuration[name])).Select(port => $"http://*:{port}");
        return configuration.GetSection("Kestrel:Endpoints").GetChildren().Select(e => e["Url"]).OfType<string>().Concat(urls.Length > 0 ? urls : ports);
    }

    private static bool IsLoopback(string url) =>
        Uri.TryCreate(url, UriKind.Absolute, out var address)
        && (address.Host == "localhost" || (IPAddress.TryParse(address.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip)));

    private static string[] Parts(string? list) => (list ?? "").Split(Between, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    private static string Origin(string text) =>
        Uri.TryCreate(text, UriKind.Absolute, out var origin) && origin.Scheme is "http" or "https" && origin.GetLeftPart(UriPartial.Authority) is var whole && string.Equals(whole, text.TrimEnd('/'), StringComparison.OrdinalIgnoreCase)
            ? whole
            : throw new InvalidSettingException($"Cors__Origins holds \"{text}\"; give origins such as https://planner.example, without a path. A star is not taken: whoever may call from a browser is named.");

    private static IPNetwork Network(string text) =>
        IPNetwork.TryParse(text, out var network) ? network
        : IPAddress.TryParse(text, out var address) ? new IPNetwork(address, address.GetAddressBytes().Length * 8)
        : throw new InvalidSettingException($"Proxies__Known holds \"{text}\"; give addresses or networks such as 10.0.0.7 or 10.0.0.0/24.");

    private static int Number(IConfiguration configuration, string name, int usual) =>
        configuration[name] is not { } text ? usual
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number is > 0 and <= 1_000_000 ? number
        : throw new InvalidSettingException($"{name.Replace(":", "__", StringComparison.Ordinal)} is \"{text}\"; give a whole number from 1 to 1000000.");
}

/// <summary>How often may be asked.</summary>
/// <param name="PerSecond">Requests a second that come in again.</param>
/// <param name="Burst">Most that can be saved up.</param>
public sealed record Rate(int PerSecond, int Burst);
