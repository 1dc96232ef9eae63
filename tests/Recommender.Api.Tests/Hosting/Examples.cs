using System.Text.Json.Nodes;

namespace Recommender.Api.Tests.Hosting;

/// <summary>The examples of the document, as the program carries them.</summary>
public static class Examples
{
    public static readonly string[] Cases =
    [
        "long-jumper-with-a-sore-patellar-tendon", "1500-m-runner-with-stiff-hips-at-home", "discus-thrower-in-a-hotel", "100-m-sprinter-building-power", "high-jumper-with-a-locked-knee",
    ];

    public static TheoryData<string> CaseNames => new(Cases);

    public static string Case(string name) => Text($"recommend.request.{name}.json");

    public static string Text(string file)
    {
        using var stream = typeof(Program).Assembly.GetManifestResourceStream($"examples/{file}") ?? throw new InvalidOperationException($"There is no example {file}.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    public static IEnumerable<string> Files() =>
        typeof(Program).Assembly.GetManifestResourceNames().Where(n => n.StartsWith("examples/", StringComparison.Ordinal)).Select(n => n["examples/".Length..]).Order(StringComparer.Ordinal);

    /// <summary>The least that can be asked, with changes.</summary>
    public static string Minimal(Action<JsonObject>? change = null)
    {
        var body = JsonNode.Parse("""{"athlete":{"eventGroup":"jumps"},"phase":"competition"}""")!.AsObject();
        change?.Invoke(body);
        return body.ToJsonString();
    }
}
