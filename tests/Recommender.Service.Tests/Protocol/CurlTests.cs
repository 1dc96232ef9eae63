using System.Diagnostics;
using System.Text.Json.Nodes;
using Recommender.Testing;

namespace Recommender.Service.Tests.Protocol;

/// <summary>RFC 9110 (HTTP semantics) and RFC 9457 (problem details) as curl sees them, a client that was not written here. Section numbers stand beside each.</summary>
/// <param name="running">One service for all of them: none changes it.</param>
public sealed class CurlTests(RunningService running) : IClassFixture<RunningService>
{
    private readonly ServiceProcess service = running.Service;

    [Theory]
    // 9.3.2: HEAD is GET without the body, and general-purpose servers must know both (9.1).
    [InlineData("/v1/vocabulary", "200")]
    [InlineData("/v1/exercises/back-squat", "200")]
    [InlineData("/v1/exercises/nothing", "404")]
    [InlineData("/health/live", "200")]
    [InlineData("/exercises", "200")]
    public async Task Head_has_the_head_of_get_and_no_body(string path, string status)
    {
        var get = await Curl(path);
        var head = await Curl(path, "--head");

        Assert.Equal(status, head.Status);
        Assert.Equal(get.Status, head.Status);
        Assert.Equal(get.Headers["content-type"], head.Headers["content-type"]);
        Assert.Empty(head.Body);
        Assert.NotEmpty(get.Body);
    }

    [Fact]
    public async Task A_method_that_is_not_offered_is_405_with_allow()
    {
        // 15.5.6
        var answer = await Curl("/v1/recommendations", "-X", "PATCH");

        IsProblem(answer, "405", "method-not-allowed");
        Assert.Contains("POST", answer.Headers["allow"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_content_type_that_is_not_json_is_415()
    {
        // 15.5.16
        IsProblem(await Curl("/v1/recommendations", "-H", "Content-Type: text/plain", "-d", "phase=taper"), "415", "unsupported-media-type");
    }

    [Fact]
    public async Task A_content_coding_is_415_and_the_answer_says_that_none_is_taken()
    {
        // 8.4 and 12.5.3
        var answer = await Curl("/v1/recommendations", "-H", "Content-Type: application/json", "-H", "Content-Encoding: gzip", "-d", Bodies.Least);

        IsProblem(answer, "415", "unsupported-media-type");
        Assert.Equal("identity", answer.Headers["accept-encoding"]);
    }

    [Fact]
    public async Task A_body_that_is_too_large_is_413_with_and_without_a_length()
    {
        // 15.5.14
        var file = Path.GetTempFileName();
        await File.WriteAllBytesAsync(file, new byte[300_000]);

        IsProblem(await Curl("/v1/recommendations", "-H", "Content-Type: application/json", "--data-binary", "@" + file), "413", "body-too-large");
        IsProblem(await Curl("/v1/recommendations", "-H", "Content-Type: application/json", "-H", "Transfer-Encoding: chunked", "--data-binary", "@" + file), "413", "body-too-large");
        File.Delete(file);
    }

    [Fact]
    public async Task Expect_continue_is_heeded()
    {
        // 10.1.1
        var answer = await Curl("/v1/recommendations", "-H", "Content-Type: application/json", "-H", "Expect: 100-continue", "-d", Bodies.Least);

        Assert.Equal("200", answer.Status);
    }

    [Theory]
    [InlineData("{", "400", "malformed-request")]
    [InlineData("{\"phase\":\"winter\"}", "422", "invalid-request")]
    public async Task Faults_come_as_problem_details(string body, string status, string code) =>
        // RFC 9457, 3
        IsProblem(await Curl("/v1/recommendations", "-H", "Content-Type: application/json", "-d", body), status, code);

    private static void IsProblem((string Status, Dictionary<string, string> Headers, string Body) answer, string status, string code)
    {
        Assert.Equal(status, answer.Status);
        Assert.Equal("application/problem+json", answer.Headers["content-type"]);
        var problem = JsonNode.Parse(answer.Body)!;
        Assert.Equal($"/problems/{code}", (string)problem["type"]!);
        Assert.Equal(status, problem["status"]!.ToString());
        Assert.NotEmpty((string)problem["title"]!);
        Assert.NotEmpty((string)problem["detail"]!);
    }

    private async Task<(string Status, Dictionary<string, string> Headers, string Body)> Curl(string path, params string[] arguments)
    {
        var start = new ProcessStartInfo("curl", ["--silent", "--show-error", "--include", "--max-time", "30", .. arguments, new Uri(service.Address, path).ToString()]) { RedirectStandardOutput = true };
        using var curl = Process.Start(start)!;
        var said = await curl.StandardOutput.ReadToEndAsync();
        await curl.WaitForExitAsync();
        // An interim answer (100) stands before the final one.
        while (said.StartsWith("HTTP/1.1 100", StringComparison.Ordinal))
        {
            said = said[(said.IndexOf("\r\n\r\n", StringComparison.Ordinal) + 4)..];
        }

        var end = said.IndexOf("\r\n\r\n", StringComparison.Ordinal);
        Assert.True(end > 0, $"curl ended with {curl.ExitCode}: {said}");
        var lines = said[..end].Split("\r\n");
        return (lines[0].Split(' ')[1], lines.Skip(1).Select(l => l.Split(": ", 2)).ToDictionary(l => l[0].ToLowerInvariant(), l => l[1]), said[(end + 4)..]);
    }
}
