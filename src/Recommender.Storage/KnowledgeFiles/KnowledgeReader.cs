using System.Text;
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
    private const string ModelSchema = "tissue-load-model";
    private const string PlanningSchema = "planning";
    private const string PlanningFile = "rules/planning.json";
    private const string OutcomesSchema = "outcomes";
    private const string OutcomesFile = "rules/outcomes.json";
    private static readonly string[] SchemaNames =
        ["vocabulary", "sources", "exercises", "event-profiles", "needs", "pain", "peaking", "week", "competence", "scoring", "dose", "defaults", "battery", "provocation", "programmes", "return", "substitution", "ledger", "session", "audit", "questions"];

    private readonly IKnowledgeSource source;
    private readonly IKnowledgeSource schemaSource;
    private readonly List<KnowledgeFault> faults = [];
    private readonly List<KnowledgeFile> catalogueFiles = [];
    private readonly List<KnowledgeFile> ruleFiles = [];
    private readonly Dictionary<string, KnowledgeSchema> schemas = new(StringComparer.Ordinal);

    /// <summary>A registry of its own: the validator's usual one keeps every schema that was ever read, so that each draft would take memory for good.</summary>
    private readonly BuildOptions build = new() { SchemaRegistry = new SchemaRegistry() };

    private readonly bool modelling;

    /// <summary>Whether files are in canonical form, and were checked before.</summary>
    private readonly bool trusted;

    /// <summary>Whether files are held against schemas and each other.</summary>
    private readonly bool checking;
    private KnowledgeText? catalogueText;
    private KnowledgeText? rulesText;

    private KnowledgeReader(IKnowledgeSource source, IKnowledgeSource schemaSource, bool modelling, bool trusted = false, bool checking = true)
    {
        this.trusted = trusted;
        this.checking = checking && !trusted;
        this.source = source;
        this.schemaSource = schemaSource;
        this.modelling = modelling;
    }

    /// <summary>Reads an edition; the tissue-load models speak where nothing was measured.</summary>
    /// <param name="folder">The data folder.</param>
    /// <exception cref="InvalidKnowledgeException">Something is missing or wrong; carries every fault found.</exception>
    public static Edition Read(string folder) => ReadWithText(folder).Edition;

    /// <summary>Reads an edition and the text of its files, under which its versions are kept.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="before">Remembers what was checked before, so that a start does not check the same files again; null checks always.</param>
    /// <exception cref="InvalidKnowledgeException">Something is missing or wrong; carries every fault found.</exception>
    /// <exception cref="Decisions.StoreUnavailableException">What was checked before cannot be read.</exception>
    public static (Edition Edition, KnowledgeText Catalogue, KnowledgeText Rules) ReadWithText(string folder, CheckedKnowledge? before = null)
    {
        var source = new KnowledgeFolder(folder);
        var mark = before is null ? null : CheckedKnowledge.MarkOf(folder);
        var known = mark is not null && before!.Holds(mark);
        var reader = new KnowledgeReader(source, source, modelling: true, checking: !known);
        var edition = reader.Read();
        if (mark is not null && !known)
        {
            before!.Remember(mark);
        }

        return (edition, reader.catalogueText!, reader.rulesText!);
    }

    /// <summary>Reads an edition as it was stored, checked like any other.</summary>
    /// <param name="stored">The stored files.</param>
    /// <param name="folder">The data folder that holds the schemas.</param>
    /// <exception cref="InvalidKnowledgeException">Something is missing or wrong; carries every fault found.</exception>
    public static Edition Read(StoredKnowledge stored, string folder) => new KnowledgeReader(stored, new KnowledgeFolder(folder), modelling: true).Read();

    /// <summary>Reads an edition as the files are written, no model applied: what was agreed stands, for fitting and for comparison.</summary>
    /// <param name="folder">The data folder.</param>
    /// <exception cref="InvalidKnowledgeException">Something is missing or wrong; carries every fault found.</exception>
    public static Edition ReadAsWritten(string folder) => new KnowledgeReader(new KnowledgeFolder(folder), new KnowledgeFolder(folder), modelling: false).Read();

    /// <summary>Reads an edition whose parts were checked before and that differs from another in a few values, without checking it again: for asking what one changed number does.</summary>
    /// <param name="stored">The stored files. Those that were read this way before are not parsed again.</param>
    /// <exception cref="InvalidKnowledgeException">A file does not fit its type.</exception>
    public static Edition ReadUnchecked(StoredKnowledge stored) => new KnowledgeReader(stored, stored, modelling: true, trusted: true).Read();

    private Edition Read()
    {
        if (!source.Exists)
        {
            faults.Add(new KnowledgeFault(source.Name, "", "the data folder is not there; set Data__Path to the folder with vocabulary.json."));
            Stop();
        }

        ReadSchemas();
        var vocabulary = One<Domain.Catalogue.Vocabulary>("vocabulary.json", "vocabulary", catalogueFiles);
        var sources = Sources();
        var exercises = Exercises();
        var models = TissueLoadModels();
        var groups = Many("event-profiles", "event-profiles", ruleFiles).Select(f => f.As<EventGroupProfile>(f.Body, "", faults)).ToList();
        var needs = One<NeedRules>("rules/needs.json", "needs", ruleFiles);
        var pain = One<PainRules>("rules/pain.json", "pain", ruleFiles);
        var peaking = One<PeakingRules>("rules/peaking.json", "peaking", ruleFiles);
        var week = One<WeekRules>("rules/week.json", "week", ruleFiles);
        var competence = One<CompetenceRules>("rules/competence.json", "competence", ruleFiles);
        var scoring = One<ScoringRules>("rules/scoring.json", "scoring", ruleFiles);
        var dose = One<DoseRules>("rules/dose.json", "dose", ruleFiles);
        var ledger = One<LedgerRules>("rules/ledger.json", "ledger", ruleFiles);
        var session = One<SessionRules>("rules/session.json", "session", ruleFiles);
        var defaults = One<DefaultRules>("rules/defaults.json", "defaults", ruleFiles);
        var tests = One<TestBattery>("tests/battery.json", "battery", ruleFiles);
        var provocation = One<ProvocationRules>("rules/provocation.json", "provocation", ruleFiles);
        var programmes = One<ProgrammeRules>("rules/programmes.json", "programmes", ruleFiles);
        var returning = One<ReturnRules>("rules/return.json", "return", ruleFiles);
        var substitution = One<SubstitutionRules>("rules/substitution.json", "substitution", ruleFiles);
        var audit = One<AuditRules>("rules/audit.json", "audit", ruleFiles);
        var questions = One<QuestionRules>("rules/questions.json", "questions", ruleFiles);

        // No answer rests on it, so rules that were published without it stay in force.
        var planning = HasPlanning ? One<PlanningRules>(PlanningFile, PlanningSchema, ruleFiles) : null;

        // Without it nothing is learned, as when those rules were published.
        var outcomes = HasOutcomes ? One<OutcomeRules>(OutcomesFile, OutcomesSchema, ruleFiles) : null;
        Stop(ofShape: true);

        (catalogueText, rulesText) = (TextOf(catalogueFiles), TextOf(ruleFiles));
        var sourceIds = sources.Select(s => s.Id).ToHashSet(StringComparer.Ordinal);
        if (checking)
        {
            faults.AddRange(CatalogueChecks.Of(exercises, vocabulary!, sourceIds));
            faults.AddRange(TissueLoadModelChecks.Of(models, exercises, vocabulary!, sourceIds));
        }

        if (groups.GroupBy(g => g!.EventGroup, StringComparer.Ordinal).Any(g => g.Count() > 1) || groups.SelectMany(g => g!.Events).GroupBy(e => e.Event, StringComparer.Ordinal).Any(g => g.Count() > 1))
        {
            faults.Add(new KnowledgeFault("event-profiles", "", "an event group or an event has two profiles; give one."));
            Stop();
        }

        var knowledge = new KnowledgeBase(sources, [.. groups.Select(g => g!)], needs!, pain!, peaking!, week!, competence!, scoring!, dose!, defaults!, tests!,
            provocation!, programmes!, returning!, substitution!, ledger!, session!, audit!, questions!, planning, outcomes);
        if (checking)
        {
            faults.AddRange(KnowledgeChecks.Of(knowledge, [.. exercises.Select(e => e.Exercise)], vocabulary!,
                EligibilityFilter.Gates.Select(g => g.Reason), [.. ScoringEngine.Factors.Select(f => f.Id)]));
            Stop();
            faults.AddRange(ComplaintRuleChecks.Of(knowledge, [.. exercises.Select(e => Modelled(e.Exercise))], vocabulary!));
        }

        Stop();
        var ready = exercises
            .Select(e => Modelled(e.Exercise))
            .Select(e => e with { LoadingsPerUnit = knowledge.Dose.LoadingsPerUnit[e.DoseUnit].Value });
        Exercise Modelled(Exercise exercise) => modelling ? models.Aggregate(exercise, (e, read) => read.Model.Apply(e)) : exercise;
        return new Edition(new ExerciseCatalogue(ready, vocabulary!, [.. models.Select(m => m.Model)]), knowledge, catalogueText.Version, rulesText.Version);
    }

    private void ReadSchemas()
    {
        if (!checking)
        {
            return;
        }

        var read = new List<(string Name, JsonSchema Schema, byte[] Text)>();
        foreach (var name in SchemaNames.Concat(HasModels ? [ModelSchema] : []).Concat(HasPlanning ? [PlanningSchema] : []).Concat(HasOutcomes ? [OutcomesSchema] : []))
        {
            var path = $"schemas/{name}.schema.json";
            try
            {
                var text = schemaSource.Read(path);
                read.Add((name, JsonSchema.FromText(Encoding.UTF8.GetString(text), build), text));
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or System.Text.Json.JsonException)
            {
                faults.Add(new KnowledgeFault(path, "", $"cannot be read as a schema ({e.Message})"));
            }
        }

        foreach (var (name, schema, _) in read)
        {
            schemas[name] = new KnowledgeSchema(schema, KnowledgeSchema.MarkOf(name, read.Select(r => r.Text)));
        }

        Stop();
    }

    private KnowledgeFile? Open(string path, string schema, List<KnowledgeFault> found) =>
        trusted ? KnowledgeFile.Trusted(path, source.Read(path)) : KnowledgeFile.Read(source, path, schema, checking ? schemas[schema] : null, found);

    private T? One<T>(string path, string schema, List<KnowledgeFile> kept) where T : class
    {
        if (Open(path, schema, faults) is not { } file)
        {
            return null;
        }

        kept.Add(file);
        return file.As<T>(file.Body, "", faults);
    }

    private List<KnowledgeFile> Many(string below, string schema, List<KnowledgeFile> kept)
    {
        var names = source.Below(below);
        if (names.Count == 0)
        {
            faults.Add(new KnowledgeFault(below, "", "no file is there; at least one is needed."));
        }

        // Holding exercises against their schema is most of what a start takes, and each file stands by itself.
        var opened = (trusted ? names.Select(Opened) : names.AsParallel().AsOrdered().Select(Opened)).ToList();
        faults.AddRange(opened.SelectMany(x => x.Found));
        List<KnowledgeFile> files = [.. opened.Select(x => x.File).OfType<KnowledgeFile>()];
        kept.AddRange(files);
        return files;

        (KnowledgeFile? File, List<KnowledgeFault> Found) Opened(string name)
        {
            var found = new List<KnowledgeFault>();
            return (Open(name, schema, found), found);
        }
    }

    private List<Source> Sources()
    {
        if (Open("sources.json", "sources", faults) is not { } file)
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

    /// <summary>Models are no must: without them what was not measured is what was agreed.</summary>
    private bool HasPlanning => source.Below("rules").Contains(PlanningFile, StringComparer.Ordinal);

    private bool HasOutcomes => source.Below("rules").Contains(OutcomesFile, StringComparer.Ordinal);

    private bool HasModels => source.Below("models").Count > 0;

    private List<ReadTissueLoadModel> TissueLoadModels() => HasModels
        ? [.. Many("models", ModelSchema, catalogueFiles)
            .Select(f => (f.Path, Model: f.As<TissueLoadModel>(f.Body, "", faults)))
            .Where(m => m.Model is not null)
            .Select(m => new ReadTissueLoadModel(m.Path, m.Model!))]
        : [];

    private static IEnumerable<(JsonNode? Node, string Pointer)> Items(KnowledgeFile file, string list) =>
        file.Body[list]!.AsArray().Select((node, i) => (node, $"/{list}/{i}"));

    private static KnowledgeText TextOf(IEnumerable<KnowledgeFile> files) => KnowledgeText.Of(files.Select(f => KeyValuePair.Create(f.Path, f.Canonical)));

    private void Stop(bool ofShape = false)
    {
        if (faults.Count > 0)
        {
            throw new InvalidKnowledgeException(faults) { OfShape = ofShape };
        }
    }
}
