using System.Text.RegularExpressions;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>Sends what the document allows through a validating proxy from outside the project, and counts the answers that it says deviate from the document.</summary>
internal static partial class ProxyRun
{
    private const string Header = "sl-violations";
    private const int MostShown = 20;

    /// <summary>Runs.</summary>
    /// <param name="proxy">The proxy, which passes everything on and names what deviates in a header.</param>
    /// <param name="service">The service behind it.</param>
    /// <param name="requests">How many.</param>
    /// <returns>0 when no answer deviated.</returns>
    public static async Task<int> Run(Uri proxy, Uri service, int requests)
    {
        using var direct = new HttpClient { BaseAddress = service };
        using var through = new HttpClient { BaseAddress = proxy, Timeout = TimeSpan.FromSeconds(100) };
        var (maker, _) = await Preparation.Of(direct);
        var (sent, deviations, failed) = (0, 0, 0);
        for (var number = 0; sent < requests; number++)
        {
            var asked = maker.Make(seed: 1, number);
            if (asked.Making != Making.Valid)
            {
                continue;
            }

            sent++;
            using var message = FuzzRun.Message(proxy, asked);
            using var answer = await through.SendAsync(message);
            failed += answer.Headers.Contains("Retry-After") || (int)answer.StatusCode < 500 ? 0 : 1;
            // The proxy knows no lines of JSON and no tables: it reads each answer as one value. The fuzz run holds those against the document.
            if (answer.Content.Headers.ContentType?.MediaType is "application/x-ndjson" or "text/csv")
            {
                continue;
            }

            if (answer.Headers.TryGetValues(Header, out var found) && Responses(string.Concat(found)) is { Count: > 0 } wrong && ++deviations <= MostShown)
            {
                Console.WriteLine($"{asked.Method} {asked.Target} {(int)answer.StatusCode}: {string.Join("; ", wrong)}");
            }
        }

        Console.WriteLine($"{sent} requests through the proxy, {deviations} answers deviate from the document, {failed} failed");
        return deviations + failed == 0 ? 0 : 1;
    }

    /// <summary>
    /// What is held against the answer; what is held against a request is not the service's doing. The proxy cuts off a schema that holds itself, such as the parts of a part, and then
    /// calls every member unknown; the fuzz run holds those against the document. Where it found very many it says so and cuts the list.
    /// </summary>
    private static List<string> Responses(string violations) =>
        [.. Violation().Matches(violations).Where(v => v.Groups["location"].Value is var at && at.StartsWith("\"response\"", StringComparison.Ordinal) && !Inside().IsMatch(at)).Select(v => v.Value)];

    [GeneratedRegex("""\{"location":\[(?<location>[^\]]*)\][^}]*\}""")]
    private static partial Regex Violation();

    [GeneratedRegex("\"details\"")]
    private static partial Regex Inside();
}
