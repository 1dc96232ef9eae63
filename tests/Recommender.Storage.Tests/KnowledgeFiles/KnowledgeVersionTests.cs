using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Domain.Knowledge;

namespace Recommender.Storage.Tests.KnowledgeFiles;

public sealed class KnowledgeVersionTests : IDisposable
{
    private static readonly JsonSerializerOptions Wide = new() { WriteIndented = true, IndentSize = 3 };
    private readonly DataCopy data = new();

    public void Dispose() => data.Dispose();

    [Fact]
    public void White_space_changes_no_version()
    {
        var before = data.Read();
        foreach (var file in Directory.GetFiles(data.Folder, "*.json", SearchOption.AllDirectories))
        {
            File.WriteAllText(file, JsonSerializer.Serialize(JsonNode.Parse(File.ReadAllText(file)), Wide) + "\n\n");
        }

        Assert.Equal(Versions(before), Versions(data.Read()));
    }

    [Fact]
    public void Reading_twice_gives_the_same_versions() => Assert.Equal(Versions(data.Read()), Versions(data.Read()));

    [Theory]
    [InlineData("exercises/squat.json", "/exercises/0/howTo")]
    [InlineData("exercises/trunk.json", "/exercises/1/setUpMinutes")]
    [InlineData("sources.json", "/sources/0/citation")]
    [InlineData("vocabulary.json", "/places/0/label")]
    public void A_changed_value_of_the_catalogue_changes_its_version_and_leaves_that_of_the_rules(string file, string pointer)
    {
        var before = data.Read();

        var after = data.Edit(file, f => Change(f, pointer)).Read();

        Assert.NotEqual(before.CatalogueVersion, after.CatalogueVersion);
        Assert.Equal(before.RulesVersion, after.RulesVersion);
    }

    [Theory]
    [InlineData("rules/needs.json", "/importances/low/note")]
    [InlineData("rules/pain.json", "/limits/0/note")]
    [InlineData("rules/peaking.json", "/windows/0/note")]
    [InlineData("rules/competence.json", "/ages/0/note")]
    [InlineData("rules/scoring.json", "/needMatch/minPoints")]
    [InlineData("rules/dose.json", "/rows/0/restSeconds")]
    [InlineData("rules/defaults.json", "/count")]
    [InlineData("tests/battery.json", "/tests/0/label")]
    [InlineData("event-profiles/throws.json", "/events/0/note")]
    public void A_changed_value_of_the_rules_changes_their_version_and_leaves_that_of_the_catalogue(string file, string pointer)
    {
        var before = data.Read();

        var after = data.Edit(file, f => Change(f, pointer)).Read();

        Assert.NotEqual(before.RulesVersion, after.RulesVersion);
        Assert.Equal(before.CatalogueVersion, after.CatalogueVersion);
    }

    [Fact]
    public void What_is_beside_the_knowledge_changes_no_version()
    {
        var before = data.Read();
        data.EditText("demo/squad.json", text => text.Replace("invented", "made up", StringComparison.Ordinal));
        data.EditText("schemas/pain.schema.json", text => text.Replace("Pain rules", "Rules of pain", StringComparison.Ordinal));

        Assert.Equal(Versions(before), Versions(data.Read()));
    }

    private static (string, string) Versions(Edition edition) => (edition.CatalogueVersion, edition.RulesVersion);

    private static void Change(JsonObject file, string pointer)
    {
        JsonNode at = file;
        foreach (var part in pointer[1..].Split('/'))
        {
            at = (at is JsonArray list ? list[int.Parse(part, null)] : at[part])!;
        }

        at.ReplaceWith(at.GetValueKind() == JsonValueKind.Number ? JsonValue.Create((decimal)at + 1) : JsonValue.Create((string)at! + " Changed."));
    }
}
