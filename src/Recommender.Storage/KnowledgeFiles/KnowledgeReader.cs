using System.Text.Json.Nodes;
using Json.Schema;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>Reads the data folder: schemas first, then types, then what neither can see.</summary>
public sealed class KnowledgeReader
{
    private readonly string folder;
    private readonly List<KnowledgeFault> faults = [];
    private readonly List<KnowledgeFile> catalogueFiles = [];
    private readonly List<KnowledgeFile> ruleFiles = [];
    private readonly Dictionary<string, JsonSchema> schemas = new(StringComparer.Ordinal);

    private KnowledgeReader(string folder) => this.folder = folder;

    /// <summary>Reads an edition.</summary>
    /// <param name="folder">The data folder.</param>
    /// <exception cref="InvalidKnowledgeException">Something is missing or wrong; carries every fault found.</exception>
    public static Edition Read(string folder) => new KnowledgeReader(folder).Read();

    private Edition Read()
    {
        if (!Directory.Exists(folder))
        {
            faults.Add(new KnowledgeFault(folder, "", "the data folder is not there; set Data__Path to the folder with vocabulary.json."));
            Stop();
        }

        ReadSchemas();
        var vocabulary = One<Domain.Catalogue.Vocabulary>("vocabulary.json", "vocabulary", catalogueFiles);
        var sources = Sources();
        var exercises = Exercises();
        var groups = Many("event-profiles", "event-profiles", ruleFiles).Select(f => f.As<EventGroupProfile>(f.Body, "", faults)).ToList();
        var needs = One<NeedRules>("rules/needs.json", "needs", ruleFiles);
        var pain = One<PainRules>("rules/pain.json", "pain", ruleFiles);
        var peaking = One<PeakingRules>("rules/peaking.json", "peaking", ruleFiles);
        var competence = One<CompetenceRules>("rules/competence.json", "competence", ruleFiles);
        var scoring = One<ScoringRules>("rules/scoring.json", "scoring", ruleFiles);
        var dose = One<DoseRules>("rules/dose.json", "dose", ruleFiles);
        var defaults = One<DefaultRules>("rules/defaults.json", "defaults", ruleFiles);
        var tests = One<TestBattery>("tests/battery.json", "battery", ruleFiles);
        Stop();

        faults.AddRange(CatalogueChecks.Of(exercises, vocabulary!, sources.Select(s => s.Id).ToHashSet(StringComparer.Ordinal)));
        if (groups.GroupBy(g => g!.EventGroup, StringComparer.Ordinal).Any(g => g.Count() > 1) || groups.SelectMany(g => g!.Events).GroupBy(e => e.Event, StringComparer.Ordinal).Any(g => g.Count() > 1))
        {
            faults.Add(new KnowledgeFault("event-profiles", "", "an event group or an event has two profiles; give one."));
            Stop();
        }

        var knowledge = new KnowledgeBase(sources, [.. groups.Select(g => g!)], needs!, pain!, peaking!, competence!, scoring!, dose!, defaults!, tests!);
        faults.AddRange(KnowledgeChecks.Of(knowledge, [.. exercises.Select(e => e.Exercise)], vocabulary!,
            EligibilityFilter.Gates.Select(g => g.Reason), [.. ScoringEngine.Factors.Select(f => f.Id)]));
        Stop();
        var dosed = exercises.Select(e => e.Exercise with { LoadingsPerUnit = knowledge.Dose.LoadingsPerUnit[e.Exercise.DoseUnit].Value });
        return new Edition(new ExerciseCatalogue(dosed, vocabulary!), knowledge, KnowledgeFile.HashOf(catalogueFiles), KnowledgeFile.HashOf(ruleFiles));
    }

    private void ReadSchemas()
    {
        foreach (var name in new[] { "vocabulary", "sources", "exercises", "event-profiles", "needs", "pain", "peaking", "competence", "scoring", "dose", "defaults", "battery" })
        {
            var path = $"schemas/{name}.schema.json";
            try
            {
                schemas[name] = JsonSchema.FromText(File.ReadAllText(Path.Combine(folder, path)));
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or System.Text.Json.JsonException)
            {
                faults.Add(new KnowledgeFault(path, "", $"cannot be read as a schema ({e.Message})"));
            }
        }

        Stop();
    }

    private T? One<T>(string path, string schema, List<KnowledgeFile> kept) where T : class
    {
        if (KnowledgeFile.Read(folder, path, schemas, schema, faults) is not { } file)
        {
            return null;
        }

        kept.Add(file);
        return file.As<T>(file.Body, "", faults);
    }

    private List<KnowledgeFile> Many(string below, string schema, List<KnowledgeFile> kept)
    {
        var path = Path.Combine(folder, below);
        var names = Directory.Exists(path) ? Directory.GetFiles(path, "*.json").Select(f => $"{below}/{Path.GetFileName(f)}").Order(StringComparer.Ordinal).ToList() : [];
        if (names.Count == 0)
        {
            faults.Add(new KnowledgeFault(below, "", "no file is there; at least one is needed."));
        }

        var files = names.Select(name => KnowledgeFile.Read(folder, name, schemas, schema, faults)).OfType<KnowledgeFile>().ToList();
        kept.AddRange(files);
        return files;
    }

    private List<Source> Sources()
    {
        if (KnowledgeFile.Read(folder, "sources.json", schemas, "sources", faults) is not { } file)
        {
            return [];
        }

        catalogueFiles.Add(file);
        var read = Items(file, "sources").Select(x => file.As<Source>(x.Node, x.Pointer, faults)).OfType<Source>().ToList();
        foreach (var twice in read.GroupBy(s => s.Id, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            faults.Add(new KnowledgeFault(file.Path, "/sources", $"\"{twice.Key}\" stands twice; ids are unique."));
        }

        return read;
    }

    private List<ReadExercise> Exercises()
    {
        var read = new List<ReadExercise>();
        foreach (var file in Many("exercises", "exercises", catalogueFiles))
        {
            foreach (var (node, pointer) in Items(file, "exercises"))
            {
                if (file.As<Exercise>(node, pointer, faults) is not { } exercise)
                {
                    continue;
                }

                if (exercise.Pattern != (string?)file.Body["pattern"])
                {
                    faults.Add(new KnowledgeFault(file.Path, pointer + "/pattern", $"is {exercise.Pattern}; the file is for {file.Body["pattern"]}."));
                }

                read.Add(new ReadExercise(file.Path, pointer, exercise));
            }
        }

        return read;
    }

    private static IEnumerable<(JsonNode? Node, string Pointer)> Items(KnowledgeFile file, string list) =>
        file.Body[list]!.AsArray().Select((node, i) => (node, $"/{list}/{i}"));

    private void Stop()
    {
        if (faults.Count > 0)
        {
            throw new InvalidKnowledgeException(faults);
        }
    }
}
