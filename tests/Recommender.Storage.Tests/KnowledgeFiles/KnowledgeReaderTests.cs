using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Storage.Tests.KnowledgeFiles;

public sealed class KnowledgeReaderTests : IDisposable
{
    private const string Squat = "exercises/squat.json";
    private static readonly string[] Ladder = ["progressions", "regressions"];
    private readonly DataCopy data = new();

    public void Dispose() => data.Dispose();

    [Fact]
    public void The_data_folder_of_the_repository_reads_without_a_fault()
    {
        var edition = KnowledgeReader.Read(DataCopy.Shipped);

        Assert.NotEmpty(edition.Catalogue.Exercises);
        Assert.Equal(edition.Catalogue.Vocabulary.EventGroups.Count, edition.Knowledge.EventGroups.Count);
        Assert.Matches("^[0-9a-f]{32}$", edition.CatalogueVersion);
        Assert.Matches("^[0-9a-f]{32}$", edition.RulesVersion);
        Assert.NotEqual(edition.CatalogueVersion, edition.RulesVersion);
    }

    [Fact]
    public void Every_exercise_of_the_files_is_in_the_catalogue_with_the_loadings_of_its_dose_unit()
    {
        var ids = Directory.GetFiles(Path.Combine(DataCopy.Shipped, "exercises")).SelectMany(f => JsonNode.Parse(File.ReadAllText(f))!["exercises"]!.AsArray()).Select(e => (string)e!["id"]!);

        var edition = data.Read();

        Assert.Equal(ids.Order(StringComparer.Ordinal), edition.Catalogue.Exercises.Select(e => e.Id));
        Assert.All(edition.Catalogue.Exercises, e => Assert.Equal(edition.Knowledge.Dose.LoadingsPerUnit[e.DoseUnit].Value, e.LoadingsPerUnit));
    }

    /// <summary>What fitted once is remembered, and only for these bytes under these schemas.</summary>
    [Fact]
    public void A_file_that_fitted_before_is_held_against_a_schema_that_changed()
    {
        var exercises = data.Read().Catalogue.Count;

        var faults = data.EditText("schemas/exercises.schema.json", text => Regex.Replace(text, "\"name\": \\{[^}]*\\}", "\"name\": { \"const\": \"another\" }")).Faults();

        Assert.Equal(exercises, faults.Count(f => f.Pointer.EndsWith("/name", StringComparison.Ordinal) && f.Reason.Contains("another", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_folder_that_is_not_there_is_named()
    {
        var missing = data.PathOf("nowhere");

        var e = Assert.Throws<InvalidKnowledgeException>(() => KnowledgeReader.Read(missing));

        Assert.Equal(missing, Assert.Single(e.Faults).File);
        Assert.Contains("Data__Path", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("vocabulary.json")]
    [InlineData("sources.json")]
    [InlineData("rules/needs.json")]
    [InlineData("rules/pain.json")]
    [InlineData("rules/peaking.json")]
    [InlineData("rules/competence.json")]
    [InlineData("rules/scoring.json")]
    [InlineData("rules/dose.json")]
    [InlineData("rules/defaults.json")]
    [InlineData("tests/battery.json")]
    [InlineData("schemas/pain.schema.json")]
    public void A_missing_file_is_named(string file) => data.Delete(file).Fails(file, "", "cannot be read");

    [Theory]
    [InlineData("exercises")]
    [InlineData("event-profiles")]
    public void A_folder_without_files_is_named_even_beside_another_fault(string folder)
    {
        Directory.Delete(data.PathOf(folder), recursive: true);
        data.Delete("rules/pain.json");

        Assert.Equal([folder, "rules/pain.json"], data.Faults().Select(f => f.File));
    }

    [Fact]
    public void A_schema_that_is_no_schema_is_named() => data.EditText("schemas/dose.schema.json", _ => "{ \"type\": ").Fails("schemas/dose.schema.json", "", "schema");

    [Fact]
    public void What_is_not_JSON_is_named_with_its_line()
    {
        data.EditText("rules/pain.json", text => text.Replace("\"worseMorning\": {", "\"worseMorning\": {{", StringComparison.Ordinal));
        var line = File.ReadAllLines(data.PathOf("rules/pain.json")).ToList().FindIndex(l => l.Contains("{{", StringComparison.Ordinal)) + 1;

        data.Fails("rules/pain.json", "", "not JSON", $"line {line},");
    }

    [Fact]
    public void A_file_that_is_no_object_is_named() => data.EditText("rules/defaults.json", _ => "[]").Fails("rules/defaults.json", "", "object");

    [Fact]
    public void A_property_that_stands_twice_is_named() =>
        data.EditText("rules/defaults.json", text => text.Replace("\"count\":", "\"count\": 7, \"count\":", StringComparison.Ordinal)).Fails("rules/defaults.json", "", "count");

    [Fact]
    public void A_property_that_is_unknown_is_named() =>
        Assert.Contains(data.Edit(Squat, f => Exercise(f, 0)["colour"] = "red").Faults(), f => f is { File: Squat, Pointer: "/exercises/0/colour" });

    [Fact]
    public void A_property_that_is_missing_is_named() =>
        Assert.Contains(data.Edit(Squat, f => Exercise(f, 1).Remove("howTo")).Faults(), f => f is { File: Squat, Pointer: "/exercises/1" } && f.Reason.Contains("howTo", StringComparison.Ordinal));

    [Theory]
    [InlineData(4)]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(1.5)]
    public void A_rating_out_of_range_is_named(double rating)
    {
        var quality = "";
        data.Edit(Squat, f =>
        {
            var (id, value) = Exercise(f, 2)["qualities"]!.AsObject().First();
            quality = id;
            value!["value"] = rating;
        });

        // Alone: conditions of the schema that do not hold are no faults.
        data.Fails(Squat, $"/exercises/2/qualities/{quality}/value");
    }

    [Fact]
    public void A_tissue_load_above_ten_is_named()
    {
        data.Edit(Squat, f => Exercise(f, 0)["tissueLoad"]!["knee-of-glass"] = JsonNode.Parse("""{ "value": 11, "low": 1, "high": 11, "basis": "common-practice" }"""));

        Assert.Equal(["/exercises/0/tissueLoad/knee-of-glass/high", "/exercises/0/tissueLoad/knee-of-glass/value"], data.Faults().Select(f => f.Pointer).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_tissue_load_outside_its_own_interval_is_named()
    {
        data.Edit(Squat, f => Exercise(f, 0)["tissueLoad"]!["foot"] = JsonNode.Parse("""{ "value": 3, "low": 4, "high": 5, "basis": "common-practice" }"""));

        data.Fails(Squat, "/exercises/0/tissueLoad/foot", "3 is outside 4 to 5");
    }

    [Theory]
    [InlineData("direction")]
    [InlineData("contraction")]
    public void A_word_that_the_vocabulary_lacks_is_named(string property) =>
        data.Edit(Squat, f => Exercise(f, 3)[property] = "sideways-ish").Fails(Squat, $"/exercises/3/{property}", "\"sideways-ish\" is not in the vocabulary");

    [Fact]
    public void A_thing_to_train_with_that_the_vocabulary_lacks_is_named() =>
        data.Edit(Squat, f => Exercise(f, 0)["equipment"] = JsonNode.Parse("""[["barbell", "rack"], ["flying-carpet"]]""")).Fails(Squat, "/exercises/0/equipment/1", "flying-carpet");

    [Fact]
    public void A_set_of_things_that_cannot_be_needed_together_is_named() =>
        data.Edit(Squat, f => Exercise(f, 0)["equipment"] = JsonNode.Parse("""[["dumbbell", "dumbbells"]]""")).Fails(Squat, "/exercises/0/equipment/0", "a pair serves as one");

    [Fact]
    public void An_exercise_in_the_file_of_another_pattern_is_named() =>
        data.Edit(Squat, f => Exercise(f, 0)["pattern"] = "hinge").Fails(Squat, "/exercises/0/pattern", "is hinge", "for squat");

    [Fact]
    public void An_exercise_id_used_in_two_files_is_named()
    {
        var id = "";
        data.Edit(Squat, f => id = (string)Exercise(f, 0)["id"]!);
        data.Edit("exercises/trunk.json", f => Exercise(f, 0)["id"] = id);

        Assert.Contains(data.Faults(), f => f is { File: "exercises/trunk.json", Pointer: "/exercises/0/id" } && f.Reason.Contains($"\"{id}\" is used twice", StringComparison.Ordinal));
    }

    [Fact]
    public void A_synonym_that_names_another_exercise_is_named_whatever_its_case()
    {
        data.Edit(Squat, f => Exercise(f, 1)["synonyms"] = new JsonArray(((string)Exercise(f, 0)["name"]!).ToUpperInvariant()));

        data.Fails(Squat, "/exercises/1/synonyms", "already names");
    }

    [Fact]
    public void A_ladder_that_runs_in_a_circle_is_named()
    {
        data.Edit(Squat, f =>
        {
            var (a, b) = (Exercise(f, 0), Exercise(f, 1));
            foreach (var (e, other) in new[] { (a, b), (b, a) })
            {
                e["progressions"] = new JsonArray((string)other["id"]!);
                e["regressions"] = new JsonArray((string)other["id"]!);
            }

            // Nobody else may name the two, so that the circle is all that is wrong.
            foreach (var e in f["exercises"]!.AsArray().Skip(2))
            {
                foreach (var list in Ladder)
                {
                    e![list] = new JsonArray([.. e[list]!.AsArray().Select(x => (string)x!).Where(x => x != (string)a["id"]! && x != (string)b["id"]!).Select(x => (JsonNode)x)]);
                }
            }
        });

        Assert.Contains(data.Faults(), f => f.File == Squat && f.Pointer.EndsWith("/progressions", StringComparison.Ordinal) && f.Reason.Contains("circle", StringComparison.Ordinal));
    }

    [Fact]
    public void A_rung_that_leads_up_but_not_down_is_named()
    {
        var upper = "";
        var file = FileWithALadder(out var lower);
        data.Edit(file, f => upper = (string)Exercise(f, lower)["progressions"]![0]!);
        foreach (var other in Directory.GetFiles(data.PathOf("exercises")))
        {
            data.Edit(Path.GetRelativePath(data.Folder, other), f =>
            {
                foreach (var e in f["exercises"]!.AsArray().Where(e => (string)e!["id"]! == upper))
                {
                    e!["regressions"] = new JsonArray();
                }
            });
        }

        Assert.Contains(data.Faults(), f => f.File == file && f.Pointer == $"/exercises/{lower}/progressions" && f.Reason.Contains("mutual", StringComparison.Ordinal));
    }

    [Fact]
    public void A_rung_that_leads_nowhere_is_named() =>
        data.Edit(Squat, f => Exercise(f, 0)["regressions"]!.AsArray().Add("imaginary-squat")).Fails(Squat, "/exercises/0/regressions", "\"imaginary-squat\" is not in the catalogue");

    [Fact]
    public void A_source_that_is_not_listed_is_named()
    {
        var quality = "";
        data.Edit(Squat, f =>
        {
            quality = Exercise(f, 0)["qualities"]!.AsObject().First().Key;
            Exercise(f, 0)["qualities"]![quality]!["source"] = "nobody-1900";
        });

        data.Fails(Squat, $"/exercises/0/qualities/{quality}", "source \"nobody-1900\" is not in sources.json");
    }

    [Fact]
    public void A_source_of_the_rules_that_is_not_listed_is_named() =>
        data.Edit("rules/scoring.json", f => f["phaseFit"]!["source"] = "nobody-1900").Fails("rules/scoring.json", "/phaseFit", "nobody-1900");

    [Fact]
    public void What_is_published_without_a_source_is_named()
    {
        var quality = "";
        data.Edit(Squat, f =>
        {
            quality = Exercise(f, 0)["qualities"]!.AsObject().First().Key;
            Exercise(f, 0)["qualities"]![quality] = JsonNode.Parse("""{ "value": 3, "basis": "published" }""");
        });

        Assert.Contains(data.Faults(), f => f.File == Squat && f.Pointer == $"/exercises/0/qualities/{quality}" && f.Reason.Contains("source", StringComparison.Ordinal));
    }

    [Fact]
    public void A_source_that_stands_twice_is_named() =>
        data.Edit("sources.json", f => f["sources"]!.AsArray().Add(With(f["sources"]![0]!, "year", 1999))).Fails("sources.json", "/sources", "stands twice");

    [Fact]
    public void A_word_that_stands_twice_in_the_vocabulary_is_named() =>
        data.Edit("vocabulary.json", f => f["qualities"]!.AsArray().Add(With(f["qualities"]![0]!, "label", "Again"))).Fails("vocabulary.json", "/qualities", "stands twice");

    [Fact]
    public void A_list_that_fixes_the_order_of_columns_must_keep_it()
    {
        data.Edit("vocabulary.json", f => f["loadBands"] = new JsonArray([.. f["loadBands"]!.AsArray().Reverse().Select(x => x!.DeepClone())]));

        Assert.Contains(new KnowledgeFault("vocabulary.json", "/loadBands/3/id", "Expected \"heavy\""), data.Faults());
    }

    [Fact]
    public void An_event_without_a_profile_is_named()
    {
        var missing = "";
        data.Edit("event-profiles/throws.json", f =>
        {
            var last = f["events"]!.AsArray().Count - 1;
            missing = (string)f["events"]![last]!["event"]!;
            f["events"]!.AsArray().RemoveAt(last);
        });

        data.Fails("event-profiles/throws.json", "/events", $"{missing} has no profile");
    }

    [Fact]
    public void An_event_group_without_a_file_is_named_for_each_of_its_events()
    {
        var events = JsonNode.Parse(File.ReadAllText(data.PathOf("event-profiles/jumps.json")))!["events"]!.AsArray().Count;

        var faults = data.Delete("event-profiles/jumps.json").Faults();

        Assert.Equal(events, faults.Count(f => f is { File: "event-profiles/jumps.json", Pointer: "/events" }));
    }

    [Fact]
    public void An_event_with_two_profiles_is_named()
    {
        data.Edit("event-profiles/jumps.json", f => f["events"]!.AsArray().Add(With(f["events"]![0]!, "note", "Another opinion.")));

        Assert.Contains(data.Faults(), f => f.File == "event-profiles" && f.Reason.Contains("two profiles", StringComparison.Ordinal));
    }

    [Fact]
    public void A_limit_that_rises_with_pain_is_named()
    {
        data.Edit("rules/pain.json", f => f["limits"]!.AsArray().Single(l => (string)l!["id"]! == "patellar-tendon")!["maxTissueLoad"]!["fast"] = JsonNode.Parse("[10, 6, 6, 3, 3.1, 2, 1, 1, 1, 1, 1]"));

        data.Fails("rules/pain.json", "/limits/patellar-tendon/maxTissueLoad/fast", "rises with pain");
    }

    [Fact]
    public void A_region_that_no_pain_limit_holds_is_named() => Assert.Contains(
        data.Edit("vocabulary.json", f => f["regions"]!.AsArray().Add(JsonNode.Parse("""{ "id": "little-toe", "label": "Little toe", "definition": "The fifth toe.", "leansOn": null, "covers": [] }""")))
            .Faults(),
        f => (f.File, f.Pointer) == ("rules/pain.json", "/limits") && f.Reason.Contains("little-toe stands in 0 limits", StringComparison.Ordinal));

    [Fact]
    public void A_region_that_two_pain_limits_hold_is_named() =>
        data.Edit("rules/pain.json", f => f["limits"]![0]!["regions"]!.AsArray().Add((string)f["limits"]![1]!["regions"]![0]!)).Fails("rules/pain.json", "/limits", "stands in 2 limits");

    [Fact]
    public void A_number_too_large_for_its_type_is_named_by_a_pointer_into_the_file()
    {
        data.EditText("rules/scoring.json", text => Regex.Replace(text, "\"minPoints\": *[0-9.]+", "\"minPoints\": 1e60"));

        Assert.All(data.Faults(), f => Assert.Equal(("rules/scoring.json", "/needMatch/minPoints"), (f.File, f.Pointer)));
    }

    [Fact]
    public void A_number_too_large_inside_a_list_is_named_by_a_pointer_too()
    {
        data.EditText("tests/battery.json", text => new Regex("\"min\": *[0-9.]+").Replace(text, "\"min\": -1e60", 1));

        data.Fails("tests/battery.json", "/tests/0/min");
    }

    [Fact]
    public void Faults_of_several_files_are_told_together()
    {
        data.Delete("rules/dose.json").EditText("rules/pain.json", _ => "no").Edit(Squat, f => Exercise(f, 0)["complexity"] = 9).Edit("exercises/trunk.json", f => Exercise(f, 0)["complexity"] = 9);

        Assert.Equal(["exercises/squat.json", "exercises/trunk.json", "rules/dose.json", "rules/pain.json"], data.Faults().Select(f => f.File).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Faults_that_a_schema_cannot_see_are_told_together_for_catalogue_and_rules()
    {
        data.Edit(Squat, f => Exercise(f, 0)["direction"] = "sideways-ish").Edit(Squat, f => Exercise(f, 1)["contraction"] = "twitchy").Edit("rules/scoring.json", f => f["phaseFit"]!["source"] = "nobody-1900");

        Assert.Equal(["/exercises/0/direction", "/exercises/1/contraction", "/phaseFit"], data.Faults().Select(f => f.Pointer));
    }

    [Fact]
    public void The_message_lists_every_fault_with_file_pointer_and_reason()
    {
        data.Edit(Squat, f => Exercise(f, 0)["direction"] = "sideways-ish");

        Assert.Contains("exercises/squat.json#/exercises/0/direction: \"sideways-ish\" is not in the vocabulary.", Assert.Throws<InvalidKnowledgeException>(data.Read).Message, StringComparison.Ordinal);
    }

    private static JsonObject Exercise(JsonObject file, int i) => file["exercises"]![i]!.AsObject();

    private static JsonNode With(JsonNode node, string property, JsonNode value)
    {
        var copy = node.DeepClone();
        copy[property] = value;
        return copy;
    }

    private string FileWithALadder(out int position)
    {
        foreach (var file in Directory.GetFiles(data.PathOf("exercises")).Order(StringComparer.Ordinal))
        {
            var exercises = JsonNode.Parse(File.ReadAllText(file))!["exercises"]!.AsArray().ToList();
            position = exercises.FindIndex(e => e!["progressions"]!.AsArray().Count > 0);
            if (position >= 0)
            {
                return $"exercises/{Path.GetFileName(file)}";
            }
        }

        throw new InvalidOperationException("No exercise has a progression.");
    }
}
