using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Recommender.Api.Tests.Hosting;

/// <summary>What every problem must be like, whatever went wrong.</summary>
public static partial class ProblemAssert
{
    public static async Task<JsonObject> Is(HttpResponseMessage response, int status, string code)
    {
        var text = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == status, $"{(int)response.StatusCode}: {text}");
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        var problem = JsonNode.Parse(text)!.AsObject();
        Assert.Equal($"/problems/{code}", (string)problem["type"]!);
        Assert.Equal(status, (int)problem["status"]!);
        Assert.NotEmpty((string)problem["title"]!);
        Assert.NotEmpty((string)problem["detail"]!);
        HoldsNoInternals(text);
        return problem;
    }

    public static async Task<JsonObject> Is(HttpResponseMessage response, int status, string code, string pointer, string errorCode)
    {
        var problem = await Is(response, status, code);
        Assert.True(problem["errors"]!.AsArray().Any(e => (string)e!["pointer"]! == pointer && (string)e["code"]! == errorCode), $"no {errorCode} at \"{pointer}\" in {problem.ToJsonString()}");
        Assert.All(problem["errors"]!.AsArray(), e => Assert.EndsWith(".", (string)e!["message"]!));
        return problem;
    }

    /// <summary>No type name, stack trace or path of the machine.</summary>
    public static void HoldsNoInternals(string text)
    {
        Assert.DoesNotMatch(Internals(), text);
        foreach (var folder in new[] { AppContext.BaseDirectory, Path.GetTempPath(), Environment.GetFolderPath(Environment.SpecialFolder.UserProfile) + Path.DirectorySeparatorChar })
        {
            Assert.DoesNotContain(folder, text, StringComparison.Ordinal);
        }

        Assert.DoesNotContain(Environment.MachineName.Length > 3 ? Environment.MachineName : "\0", text);
    }

    public static string Text(int value) => value.ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex(@"System\.|Microsoft\.|Recommender\.|Sqlite|SQLite|Exception|\bat [A-Z]\w+\.\w+|IReadOnly|Nullable|Int32|Decimal\b|\.NET|\.cs:line")]
    private static partial Regex Internals();
}
