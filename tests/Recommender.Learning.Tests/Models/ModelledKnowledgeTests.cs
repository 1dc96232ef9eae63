using System.Text.Json.Nodes;
using Json.Schema;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Testing;

namespace Recommender.Learning.Tests.Models;

/// <summary>How the reader applies models, and what it refuses.</summary>
public sealed class ModelledKnowledgeTests : IDisposable
{
    private const string Model = "models/patellar-tendon.json";
    private readonly string folder = Directory.CreateTempSubdirectory("recommender-models-").FullName;

    public ModelledKnowledgeTests()
    {
        foreach (var file in Directory.GetFiles(TestEdition.DataFolder, "*.json", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(folder, Path.GetRelativePath(TestEdition.DataFolder, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_data_folder_without_models_serves_what_was_agreed()
    {
        var agreed = KnowledgeReader.ReadAsWritten(folder);
        Directory.Delete(Path.Combine(folder, "models"), recursive: true);
        File.Delete(Path.Combine(folder, "schemas", "tissue-load-model.schema.json"));

        var without = KnowledgeReader.Read(folder);

        Assert.Empty(without.Catalogue.TissueLoadModels);
        Assert.Equal(agreed.Catalogue.Find("box-jump")!.TissueLoad, without.Catalogue.Find("box-jump")!.TissueLoad);
        Assert.NotEqual(agreed.CatalogueVersion, without.CatalogueVersion);
    }

    [Fact]
    public void A_changed_constant_is_another_catalogue_under_the_same_rules()
    {
        var before = KnowledgeReader.Read(folder);
        Edit(Model, m => m["fitted"]!["constants"]!["perRateClass"] = 1.5);
        var after = KnowledgeReader.Read(folder);

        Assert.NotEqual(before.CatalogueVersion, after.CatalogueVersion);
        Assert.Equal(before.RulesVersion, after.RulesVersion);
        Assert.NotEqual(before.Catalogue.Find("box-jump")!.TissueLoad["patellar-tendon"], after.Catalogue.Find("box-jump")!.TissueLoad["patellar-tendon"]);
    }

    [Fact]
    public void A_file_cannot_call_modelled_what_no_model_speaks_for()
    {
        EditExercise("squat", "back-squat", e => e["tissueLoad"]!["patellar-tendon"]!["basis"] = "modelled");

        var fault = Assert.Single(Faults());

        Assert.Equal("exercises/squat.json", fault.File);
        Assert.EndsWith("/tissueLoad/patellar-tendon", fault.Pointer, StringComparison.Ordinal);
        Assert.Contains("common-practice", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_modelled_value_that_came_back_from_a_spreadsheet_is_made_anew()
    {
        var served = KnowledgeReader.Read(folder).Catalogue.Find("box-jump")!.TissueLoad["patellar-tendon"];
        EditExercise("jump", "box-jump", e =>
        {
            e["tissueLoad"]!["patellar-tendon"]!["basis"] = "modelled";
            e["tissueLoad"]!["patellar-tendon"]!["value"] = e["tissueLoad"]!["patellar-tendon"]!["low"]!.DeepClone();
        });

        Assert.Equal(served, KnowledgeReader.Read(folder).Catalogue.Find("box-jump")!.TissueLoad["patellar-tendon"]);
    }

    [Theory]
    [InlineData("region", "knee-cap", "/region", "vocabulary")]
    [InlineData("source", "nobody-1999", "/source", "sources.json")]
    public void A_model_of_unknown_words_is_named(string field, string value, string pointer, string word)
    {
        Edit(Model, m => m[field] = value);

        Assert.Contains(Faults(), f => f.File == Model && f.Pointer == pointer && f.Reason.Contains(word, StringComparison.Ordinal));
    }

    [Fact]
    public void Two_models_of_one_region_are_refused()
    {
        File.Copy(Path.Combine(folder, Model), Path.Combine(folder, "models", "second.json"));

        Assert.Contains(Faults(), f => f.File == "models/second.json" && f.Reason.Contains("already has a model", StringComparison.Ordinal));
    }

    [Fact]
    public void A_least_rank_below_six_tenths_does_not_fit_the_schema()
    {
        Edit(Model, m => m["leastSpearman"] = 0.3);

        Assert.Contains(Faults(), f => f.File == Model && f.Pointer == "/leastSpearman");
    }

    [Fact]
    public void The_published_orders_fit_their_schema_and_name_known_sources_regions_and_qualities()
    {
        var schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(folder, "schemas", "published-orders.schema.json")));
        Assert.True(schema.Evaluate(System.Text.Json.JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, PublishedOrders.File))).RootElement).IsValid);
        Assert.All(PublishedOrders.Read(folder), o =>
        {
            Assert.Contains(TestEdition.Knowledge.Sources, s => s.Id == o.Source);
            Assert.True(o.Region is null ? TestEdition.Vocabulary.Qualities.Has(o.Quality!) : TestEdition.Vocabulary.Regions.Has(o.Region));
        });
    }

    private IReadOnlyList<KnowledgeFault> Faults() => Assert.Throws<InvalidKnowledgeException>(() => KnowledgeReader.Read(folder)).Faults;

    private void EditExercise(string pattern, string id, Action<JsonObject> change) =>
        Edit($"exercises/{pattern}.json", body => change(body["exercises"]!.AsArray().Single(e => (string?)e!["id"] == id)!.AsObject()));

    private void Edit(string file, Action<JsonObject> change)
    {
        var path = Path.Combine(folder, file);
        var body = JsonNode.Parse(File.ReadAllText(path))!.AsObject();
        change(body);
        File.WriteAllText(path, body.ToJsonString());
    }
}
