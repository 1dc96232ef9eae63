using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Answers.Wire;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Answers;

/// <summary>A change of a version's files, as it was posted.</summary>
internal abstract class KnowledgeEdit
{
    private readonly List<Fault> faults = [];

    /// <summary>What is wrong with the edit itself.</summary>
    public IReadOnlyList<Fault> Faults => faults;

    /// <summary>The text with the edit made; null, with a fault added, when it cannot be made.</summary>
    public abstract KnowledgeText? Apply(KnowledgeText before);

    /// <summary>A fault of the edited files, told where it stands in the edit.</summary>
    public abstract Fault Told(KnowledgeFault fault, KnowledgeText after);

    /// <summary>The edit without the parts that have faults, so that the others can still be asked about; null where that says nothing.</summary>
    protected virtual KnowledgeEdit? WithoutFaulty(IReadOnlyList<Fault> told) => null;

    /// <summary>Whether a fault is about a part that was left out, and would not be there with it.</summary>
    protected virtual bool IsAboutLeftOut(KnowledgeFault fault) => false;

    /// <summary>Reads the files as edited, and tells everything that is wrong at once: parts of a wrong shape, and what does not fit in the others.</summary>
    /// <param name="before">The files that are edited.</param>
    /// <param name="after">The edited files.</param>
    /// <param name="read">Reads files; throws <see cref="InvalidKnowledgeException"/>.</param>
    public (Edition? Edition, IReadOnlyList<Fault> Faults) Check(KnowledgeText before, KnowledgeText after, Func<KnowledgeText, Edition> read)
    {
        try
        {
            return (read(after), []);
        }
        catch (InvalidKnowledgeException e)
        {
            List<Fault> told = [.. e.Faults.Select(f => Told(f, after))];
            if (e.OfShape && WithoutFaulty(told) is { } rest && rest.Apply(before) is { } without)
            {
                try
                {
                    read(without);
                }
                catch (InvalidKnowledgeException further)
                {
                    told.AddRange(further.Faults.Where(f => !rest.IsAboutLeftOut(f)).Select(f => rest.Told(f, without)));
                }
            }

            return (null, [.. told.Distinct()]);
        }
    }

    /// <summary>Adds a fault for each entry of a list that is null: the reader of bodies lets it through.</summary>
    protected void AddMissing(string pointer, IReadOnlyList<string?> entries, string what)
    {
        for (var i = 0; i < entries.Count; i++)
        {
            if (entries[i] is null)
            {
                Add($"{pointer}/{i}", "required", $"null stands here; give {what}, or leave it out.");
            }
        }
    }

    /// <summary>Adds a fault.</summary>
    protected void Add(string pointer, string code, string message) => faults.Add(new Fault(pointer, code, message));

    /// <summary>A fault that stands in no posted part: the edit makes something else wrong.</summary>
    protected static Fault Elsewhere(KnowledgeFault fault) => new("", "contradiction", Sentence($"{fault.File}{fault.Pointer}: {fault.Reason}"));

    /// <summary>What a schema says ends without a stop.</summary>
    protected static string Sentence(string reason) => reason.EndsWith('.') ? reason : reason + ".";
}

/// <summary>Exercises that come and go.</summary>
internal sealed class CatalogueEdit : KnowledgeEdit
{
    private const int Most = 5000;
    private const string Modelled = "modelled";
    private readonly List<(string Id, string Pattern, JsonObject Exercise)> upsert = [];
    private readonly List<(string Id, string Pattern, JsonObject Exercise)> leftOut = [];
    private readonly Dictionary<string, int> indexes = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Dictionary<int, string>> idsByFile = new(StringComparer.Ordinal);
    private readonly IReadOnlyList<string> remove;
    private readonly ExerciseCatalogue? read;

    private CatalogueEdit(IReadOnlyList<JsonObject?> upsert, IReadOnlyList<string> remove, ExerciseCatalogue? read)
    {
        (this.remove, this.read) = (remove, read);
        if (upsert.Count > Most || remove.Count > Most)
        {
            Add(upsert.Count > Most ? "/upsert" : "/remove", "too-many", $"more than {Most} exercises; send fewer.");
            return;
        }

        AddMissing("/remove", remove, "the id of an exercise");
        for (var i = 0; i < upsert.Count; i++)
        {
            if (upsert[i] is not { } exercise)
            {
                Add($"/upsert/{i}", "required", "null stands here; give an exercise, or leave it out.");
                continue;
            }

            var (id, pattern) = (Text(exercise, "id"), Text(exercise, "pattern"));
            if (id is null || pattern is null)
            {
                Add($"/upsert/{i}/{(id is null ? "id" : "pattern")}", "required", "an exercise has an id and a pattern, each a text.");
                continue;
            }

            if (!indexes.TryAdd(id, i))
            {
                Add($"/upsert/{i}/id", "contradiction", $"{id} stands twice; give it once.");
            }

            // What the rules add when an edition is read goes out with an exercise, and what is not there goes out as null; the files hold neither.
            exercise.Remove("loadingsPerUnit");
            DropNulls(exercise);
            this.upsert.Add((id, pattern, exercise));
        }
    }

    /// <summary>The edit of a draft.</summary>
    /// <param name="upsert">Exercises that come.</param>
    /// <param name="remove">Ids of those that go.</param>
    /// <param name="read">The catalogue that it is based on as it is read, modelled loads put in; null where it cannot be read.</param>
    public static CatalogueEdit Of(IReadOnlyList<JsonObject> upsert, IReadOnlyList<string> remove, ExerciseCatalogue? read) => new(upsert, remove, read);

    /// <inheritdoc/>
    protected override KnowledgeEdit? WithoutFaulty(IReadOnlyList<Fault> told)
    {
        var faulty = told.Select(f => f.Pointer.Split('/', 4)).Where(parts => parts is [_, "upsert", ..]).Select(parts => parts[2]).ToHashSet(StringComparer.Ordinal);
        var rest = new CatalogueEdit([], remove, read);
        foreach (var one in upsert)
        {
            (faulty.Contains(indexes[one.Id].ToString(CultureInfo.InvariantCulture)) ? rest.leftOut : rest.upsert).Add(one);
            rest.indexes[one.Id] = indexes[one.Id];
        }

        return rest.leftOut.Count > 0 && rest.upsert.Count > 0 ? rest : null;
    }

    /// <inheritdoc/>
    protected override bool IsAboutLeftOut(KnowledgeFault fault) => leftOut.Exists(l => fault.Reason.Contains(l.Id, StringComparison.Ordinal));

    /// <inheritdoc/>
    public override KnowledgeText? Apply(KnowledgeText before)
    {
        var files = before.Files.Where(f => f.Key.StartsWith("exercises/", StringComparison.Ordinal)).ToDictionary(f => f.Key, f => JsonNode.Parse(f.Value)!.AsObject(), StringComparer.Ordinal);
        var known = files.Values.SelectMany(f => f["exercises"]!.AsArray()).Select(e => (string)e!["id"]!).ToHashSet(StringComparer.Ordinal);
        for (var i = 0; i < remove.Count; i++)
        {
            if (!known.Contains(remove[i]))
            {
                Add($"/remove/{i}", "unknown-id", $"there is no exercise {remove[i]} in the version that this is based on.");
            }
            else if (indexes.ContainsKey(remove[i]))
            {
                Add($"/remove/{i}", "contradiction", $"{remove[i]} is upserted and removed; do one.");
            }
        }

        if (Faults.Count > 0)
        {
            return null;
        }

        foreach (var id in remove)
        {
            Take(files, id);
        }

        foreach (var (id, pattern, exercise) in upsert)
        {
            Put(files, id, pattern, exercise);
        }

        return before.With(files.Select(f => KeyValuePair.Create(f.Key, f.Value["exercises"]!.AsArray().Count == 0 ? null : JsonSerializer.SerializeToUtf8Bytes(f.Value))));
    }

    /// <inheritdoc/>
    public override Fault Told(KnowledgeFault fault, KnowledgeText after)
    {
        var parts = fault.Pointer.Split('/', 4);
        if (parts.Length < 3 || !int.TryParse(parts[2], out var place) || !Ids(fault.File, after).TryGetValue(place, out var id) || !indexes.TryGetValue(id, out var index))
        {
            return Elsewhere(fault);
        }

        return new Fault($"/upsert/{index}{(parts.Length > 3 ? "/" + parts[3] : "")}", "invalid", Sentence(fault.Reason));
    }

    /// <summary>Ids by place in an edited file; an upload may have a thousand faults, and a file is parsed once.</summary>
    private Dictionary<int, string> Ids(string path, KnowledgeText after)
    {
        if (!idsByFile.TryGetValue(path, out var ids))
        {
            idsByFile[path] = ids = path.StartsWith("exercises/", StringComparison.Ordinal) && after.Files.TryGetValue(path, out var file)
                ? JsonNode.Parse(file)!["exercises"]!.AsArray().Select((e, i) => (Id: (string)e!["id"]!, i)).ToDictionary(x => x.i, x => x.Id)
                : [];
        }

        return ids;
    }

    private static void Take(Dictionary<string, JsonObject> files, string id)
    {
        foreach (var list in files.Values.Select(f => f["exercises"]!.AsArray()))
        {
            if (list.FirstOrDefault(e => (string?)e!["id"] == id) is { } found)
            {
                list.Remove(found);
            }
        }
    }

    /// <summary>In its place where it was, so that only what changed differs; else at the end of its pattern's file.</summary>
    private void Put(Dictionary<string, JsonObject> files, string id, string pattern, JsonObject exercise)
    {
        var path = files.FirstOrDefault(f => (string?)f.Value["pattern"] == pattern).Key ?? $"exercises/{pattern}.json";
        if (!files.TryGetValue(path, out var file))
        {
            files[path] = file = new JsonObject { ["pattern"] = pattern, ["exercises"] = new JsonArray() };
        }

        var list = file["exercises"]!.AsArray();
        var place = list.Select((e, i) => (e, i)).Where(x => (string?)x.e!["id"] == id).Select(x => x.i).DefaultIfEmpty(-1).First();
        if (place >= 0)
        {
            var next = exercise.DeepClone().AsObject();
            KeepAgreed(list[place]!.AsObject(), next, id);
            list[place] = next;
            return;
        }

        Take(files, id);
        list.Add(exercise.DeepClone());
    }

    /// <summary>A modelled load that came back as it went out stands for the agreed one below it: the files hold that one, and the model's is computed anew when they are read.</summary>
    private void KeepAgreed(JsonObject before, JsonObject next, string id)
    {
        if (read?.Find(id) is not { } known || before["tissueLoad"] is not JsonObject agreed || next["tissueLoad"] is not JsonObject loads)
        {
            return;
        }

        foreach (var (region, load) in known.TissueLoad.Where(l => l.Value.Basis == Basis.Modelled))
        {
            if (agreed[region] is { } below && loads[region] is JsonObject sent && (string?)below["basis"] != Modelled && Text(sent, "basis") == Modelled
                && Number(sent, "value") == load.Value && Number(sent, "low") == load.Low && Number(sent, "high") == load.High)
            {
                loads[region] = below.DeepClone();
            }
        }

        static decimal? Number(JsonObject sent, string name) => sent[name] is JsonValue value && value.TryGetValue<decimal>(out var number) ? number : null;
    }

    private static void DropNulls(JsonNode? node)
    {
        if (node is JsonArray list)
        {
            foreach (var item in list)
            {
                DropNulls(item);
            }
        }
        else if (node is JsonObject members)
        {
            foreach (var (name, value) in members.ToList())
            {
                if (value is null)
                {
                    members.Remove(name);
                }

                DropNulls(value);
            }
        }
    }

    private static string? Text(JsonObject exercise, string name) => exercise[name] is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;
}

/// <summary>Files of rules that come and go.</summary>
internal sealed class RulesEdit : KnowledgeEdit
{
    private const int Most = 200;
    private static readonly string[] Folders = ["rules/", "event-profiles/", "tests/"];
    private readonly IReadOnlyList<RulesFile> upsert;
    private readonly IReadOnlyList<string> remove;

    private RulesEdit(IReadOnlyList<RulesFile> upsert, IReadOnlyList<string> remove)
    {
        this.upsert = upsert;
        this.remove = remove;
        if (upsert.Count > Most || remove.Count > Most)
        {
            Add(upsert.Count > Most ? "/upsert" : "/remove", "too-many", $"more than {Most} files; send fewer.");
            return;
        }

        AddMissing("/remove", remove, "the path of a file");
        for (var i = 0; i < upsert.Count; i++)
        {
            if (upsert[i]?.File is not { } path || upsert[i].Content is null)
            {
                Add($"/upsert/{i}", "required", "a file has its path under file and its content under content.");
            }
            else if (!Folders.Any(f => path.StartsWith(f, StringComparison.Ordinal)) || !path.EndsWith(".json", StringComparison.Ordinal) || path.Count(c => c == '/') != 1)
            {
                Add($"/upsert/{i}/file", "unknown-id", $"{path} is no file of rules; give a path such as rules/pain.json, event-profiles/jumps.json or tests/battery.json.");
            }
            else if (upsert.Take(i).Any(u => u?.File == path))
            {
                Add($"/upsert/{i}/file", "contradiction", $"{path} stands twice; give it once.");
            }
        }
    }

    /// <summary>The edit of a draft.</summary>
    public static RulesEdit Of(IReadOnlyList<RulesFile> upsert, IReadOnlyList<string> remove) => new(upsert, remove);

    /// <inheritdoc/>
    public override KnowledgeText? Apply(KnowledgeText before)
    {
        for (var i = 0; i < remove.Count; i++)
        {
            if (!before.Files.ContainsKey(remove[i]))
            {
                Add($"/remove/{i}", "unknown-id", $"there is no file {remove[i]} in the version that this is based on.");
            }
            else if (upsert.Any(u => u.File == remove[i]))
            {
                Add($"/remove/{i}", "contradiction", $"{remove[i]} is upserted and removed; do one.");
            }
        }

        return Faults.Count > 0 ? null : before.With(
        [
            .. remove.Select(path => KeyValuePair.Create(path, (byte[]?)null)),
            .. upsert.Select(u => KeyValuePair.Create(u.File!, (byte[]?)JsonSerializer.SerializeToUtf8Bytes(Content(u.Content!)))),
        ]);
    }

    /// <inheritdoc/>
    public override Fault Told(KnowledgeFault fault, KnowledgeText after)
    {
        var index = upsert.ToList().FindIndex(u => u.File == fault.File);
        return index < 0 ? Elsewhere(fault) : new Fault($"/upsert/{index}/content{fault.Pointer}", "invalid", Sentence(fault.Reason));
    }

    /// <summary>The content without the schema reference that a file of the data folder has.</summary>
    private static JsonObject Content(JsonObject content)
    {
        var copy = content.DeepClone().AsObject();
        copy.Remove("$schema");
        return copy;
    }
}
