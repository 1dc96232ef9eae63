using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>An exercise with the place it was read from.</summary>
/// <param name="File">File, relative to the data folder.</param>
/// <param name="Pointer">JSON Pointer of the exercise in the file.</param>
/// <param name="Exercise">The exercise.</param>
public sealed record ReadExercise(string File, string Pointer, Exercise Exercise);

/// <summary>What a schema cannot see: ids that must be known and unique, ladders without cycles, sources that exist.</summary>
public static class CatalogueChecks
{
    /// <summary>Every fault, in file order; empty when the exercises can be used together.</summary>
    public static IReadOnlyList<KnowledgeFault> Of(IReadOnlyList<ReadExercise> read, Vocabulary vocabulary, IReadOnlySet<string> sources)
    {
        var faults = new List<KnowledgeFault>();
        var byId = new Dictionary<string, Exercise>(StringComparer.Ordinal);
        var names = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var r in read)
        {
            void Fault(string at, string reason) => faults.Add(new KnowledgeFault(r.File, $"{r.Pointer}/{at}", reason));
            if (!byId.TryAdd(r.Exercise.Id, r.Exercise))
            {
                Fault("id", $"\"{r.Exercise.Id}\" is used twice; ids are unique.");
                continue;
            }

            foreach (var name in r.Exercise.Synonyms.Prepend(r.Exercise.Name))
            {
                if (!names.TryAdd(name, r.Exercise.Id))
                {
                    Fault("synonyms", $"\"{name}\" already names {names[name]}; names and synonyms are unique.");
                }
            }

            One(r.Exercise, vocabulary, sources, Fault);
        }

        foreach (var r in read)
        {
            void Fault(string at, string reason) => faults.Add(new KnowledgeFault(r.File, $"{r.Pointer}/{at}", reason));
            Ladder(r.Exercise, byId, Fault);
        }

        Cycles(read, byId, faults);
        return faults;
    }

    private static void One(Exercise e, Vocabulary vocabulary, IReadOnlySet<string> sources, Action<string, string> fault)
    {
        Known("pattern", e.Pattern, vocabulary.Patterns);
        Known("direction", e.Direction, vocabulary.Directions);
        Known("contraction", e.Contraction, vocabulary.Contractions);
        foreach (var (id, rating) in e.Qualities)
        {
            Known($"qualities/{id}", id, vocabulary.Qualities);
            Sourced($"qualities/{id}", rating.Basis, rating.Source);
        }

        if (!e.Qualities.Values.Any(q => q.Value >= 2))
        {
            fault("qualities", "no quality is rated 2 or 3; an exercise must be strong for something.");
        }

        foreach (var (id, load) in e.TissueLoad)
        {
            Known($"tissueLoad/{id}", id, vocabulary.Regions);
            Sourced($"tissueLoad/{id}", load.Basis, load.Source);
            if (load.Low > load.Value || load.Value > load.High)
            {
                fault($"tissueLoad/{id}", $"{load.Value} is outside {load.Low} to {load.High}; low <= value <= high.");
            }

            if (vocabulary.Regions.Find(id) is { Covers.Count: > 0 } covering)
            {
                fault($"tissueLoad/{id}", $"{id} is a complaint region only; give {string.Join(" and ", covering.Covers)}.");
            }
        }

        for (var i = 0; i < e.Equipment.Count; i++)
        {
            foreach (var id in e.Equipment[i])
            {
                Known($"equipment/{i}", id, vocabulary.Equipment);
            }

            if (e.Equipment[i].Distinct(StringComparer.Ordinal).Count() != e.Equipment[i].Count)
            {
                fault($"equipment/{i}", "a thing is named twice; name it once.");
            }

            if (e.Equipment[i].Contains("dumbbell") && e.Equipment[i].Contains("dumbbells"))
            {
                fault($"equipment/{i}", "asks for one dumbbell and for a pair; a pair serves as one.");
            }
        }

        foreach (var place in e.Places)
        {
            Known("places", place, vocabulary.Places);
        }

        foreach (var competence in e.Competences)
        {
            Known("competences", competence, vocabulary.Competences);
        }

        if (e.LoadingRate == LoadingRate.Impact != e.ImpactContacts > 0)
        {
            fault("impactContacts", "impact work has contacts and other work has none.");
        }

        void Known<T>(string at, string id, Terms<T> terms) where T : Term
        {
            if (!terms.Has(id))
            {
                fault(at, $"\"{id}\" is not in the vocabulary.");
            }
        }

        void Sourced(string at, Basis basis, string? source)
        {
            if (source is null ? basis == Basis.Published : !sources.Contains(source))
            {
                fault(at, source is null ? "published without a source; name one of sources.json." : $"source \"{source}\" is not in sources.json.");
            }
        }
    }

    private static void Ladder(Exercise e, Dictionary<string, Exercise> byId, Action<string, string> fault)
    {
        foreach (var next in e.Progressions)
        {
            if (!byId.TryGetValue(next, out var harder))
            {
                fault("progressions", $"\"{next}\" is not in the catalogue.");
            }
            else if (!harder.Regressions.Contains(e.Id, StringComparer.Ordinal))
            {
                fault("progressions", $"{next} does not name {e.Id} among its regressions; the links are mutual.");
            }
        }

        foreach (var easier in e.Regressions)
        {
            if (!byId.TryGetValue(easier, out var other))
            {
                fault("regressions", $"\"{easier}\" is not in the catalogue.");
            }
            else if (!other.Progressions.Contains(e.Id, StringComparer.Ordinal))
            {
                fault("regressions", $"{easier} does not name {e.Id} among its progressions; the links are mutual.");
            }
        }
    }

    private static void Cycles(IReadOnlyList<ReadExercise> read, Dictionary<string, Exercise> byId, List<KnowledgeFault> faults)
    {
        var done = new HashSet<string>(StringComparer.Ordinal);
        var path = new List<string>();
        foreach (var r in read)
        {
            if (Walk(r.Exercise.Id) is { } cycle)
            {
                faults.Add(new KnowledgeFault(r.File, $"{r.Pointer}/progressions", $"the progressions run in a circle: {cycle}."));
                return;
            }
        }

        string? Walk(string id)
        {
            if (path.Contains(id, StringComparer.Ordinal))
            {
                return string.Join(" - ", path.SkipWhile(p => p != id).Append(id));
            }

            if (!byId.TryGetValue(id, out var e) || !done.Add(id))
            {
                return null;
            }

            path.Add(id);
            var cycle = e.Progressions.Select(Walk).FirstOrDefault(c => c is not null);
            path.RemoveAt(path.Count - 1);
            return cycle;
        }
    }
}
