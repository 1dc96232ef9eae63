using System.Text.Json.Nodes;
using Recommender.Testing;

namespace Recommender.Api.Tests.Hosting;

/// <summary>The built program, started with settings that it must refuse, and twice with settings that it must take.</summary>
public sealed class StartUpTests
{
    [Fact]
    public async Task A_missing_data_folder_stops_the_start_with_the_reason()
    {
        var missing = Path.Combine(Path.GetTempPath(), "recommender-no-such-folder");

        var (exitCode, _, error) = await ServiceProcess.Refused(("Data__Path", missing));

        Assert.NotEqual(0, exitCode);
        Assert.Contains(missing, error);
        Assert.Contains("Data__Path", error);
        Assert.DoesNotContain("   at ", error);
    }

    [Theory]
    [InlineData("exercises/hinge.json", "\"complexity\"", "\"complexities\"", "/exercises/0")]
    [InlineData("rules/defaults.json", "{", "[", "line")]
    [InlineData("vocabulary.json", "\"grip\"", "\"grasp\"", "grip")]
    public async Task A_broken_knowledge_file_stops_the_start_with_file_place_and_reason(string file, string from, string to, string place)
    {
        var folder = Directory.CreateTempSubdirectory("recommender-data-").FullName;
        try
        {
            CopyData(folder);
            var path = Path.Combine(folder, file);
            var text = File.ReadAllText(path);
            var at = text.IndexOf(from, StringComparison.Ordinal);
            File.WriteAllText(path, text[..at] + to + text[(at + from.Length)..]);

            var (exitCode, _, error) = await ServiceProcess.Refused(("Data__Path", folder));

            Assert.NotEqual(0, exitCode);
            Assert.Contains(place, error);
            Assert.True(error.Contains(file, StringComparison.Ordinal) || place == "grip", error);
            Assert.DoesNotContain("   at ", error);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Theory]
    [InlineData("http://0.0.0.0:0")]
    [InlineData("http://*:0")]
    [InlineData("http://127.0.0.1:0;http://192.0.2.1:0")]
    [InlineData("http://example.org:0")]
    public async Task Without_keys_an_address_that_others_can_reach_is_refused(string urls)
    {
        var (exitCode, output, error) = await ServiceProcess.Refused(("Urls", urls));

        Assert.NotEqual(0, exitCode);
        Assert.Contains("loopback", error);
        Assert.DoesNotContain("listening", output);
    }

    [Fact]
    public async Task A_storage_folder_that_cannot_be_made_stops_the_start_with_the_reason()
    {
        var (exitCode, _, error) = await ServiceProcess.Refused(("Storage__Path", Path.Combine(AppContext.BaseDirectory, "Recommender.Api.dll", "below-a-file")));

        Assert.NotEqual(0, exitCode);
        Assert.Contains("cannot be opened", error);
        Assert.DoesNotContain("   at ", error);
    }

    [Fact]
    public async Task Another_storage_provider_is_refused_by_name()
    {
        var (exitCode, _, error) = await ServiceProcess.Refused(("Storage__Provider", "floppy"));

        Assert.NotEqual(0, exitCode);
        Assert.Contains("floppy", error);
    }

    [Fact]
    public async Task Two_processes_give_byte_equal_answers()
    {
        using var one = await ServiceProcess.Start();
        using var other = await ServiceProcess.Start();
        using var client = new HttpClient();
        foreach (var name in Examples.Cases)
        {
            Assert.Equal(await Ask(client, one.Address, name), await Ask(client, other.Address, name));
        }
    }

    private static async Task<string> Ask(HttpClient client, Uri address, string name)
    {
        using var response = await client.PostAsync(new Uri(address, "/v1/recommendations"), new StringContent(Examples.Case(name), System.Text.Encoding.UTF8, "application/json"));
        var text = await response.Content.ReadAsStringAsync();
        Assert.Equal(200, (int)response.StatusCode);
        // All but the id, which names this one decision.
        var id = (string)JsonNode.Parse(text)!["decisionId"]!;
        return text.Replace(id, "", StringComparison.Ordinal);
    }

    private static void CopyData(string folder)
    {
        var source = Path.Combine(AppContext.BaseDirectory, "data");
        foreach (var file in Directory.GetFiles(source, "*", SearchOption.AllDirectories))
        {
            var target = Path.Combine(folder, Path.GetRelativePath(source, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }
    }
}
