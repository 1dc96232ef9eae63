using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>A tissue-load model with the file it was read from.</summary>
/// <param name="File">File, relative to the data folder.</param>
/// <param name="Model">The model.</param>
public sealed record ReadTissueLoadModel(string File, TissueLoadModel Model);

/// <summary>What a schema cannot see about tissue-load models, and about the exercises that claim one.</summary>
public static class TissueLoadModelChecks
{
    /// <summary>Every fault; empty when models and exercises fit together.</summary>
    public static IReadOnlyList<KnowledgeFault> Of(IReadOnlyList<ReadTissueLoadModel> models, IReadOnlyList<ReadExercise> exercises, Vocabulary vocabulary, IReadOnlySet<string> sources)
    {
        var faults = new List<KnowledgeFault>();
        foreach (var (file, model) in models)
        {
            if (!vocabulary.Regions.Has(model.Region))
            {
                faults.Add(new KnowledgeFault(file, "/region", $"\"{model.Region}\" is not in the vocabulary."));
            }

            foreach (var (at, source) in new[] { ("/source", model.Source), ("/mechanics/source", model.Mechanics.Source) })
            {
                if (source is not null && !sources.Contains(source))
                {
                    faults.Add(new KnowledgeFault(file, at, $"source \"{source}\" is not in sources.json."));
                }
            }

            foreach (var (domain, at) in model.UsedWithin.Select((d, i) => (d, $"/usedWithin/{i}")).Prepend((model.FittedWithin, "/fittedWithin")))
            {
                Known(file, at + "/patterns", domain.Patterns, vocabulary.Patterns, faults);
                Known(file, at + "/directions", domain.Directions, vocabulary.Directions, faults);
            }
        }

        foreach (var twice in models.GroupBy(m => m.Model.Region, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            faults.Add(new KnowledgeFault(twice.Last().File, "/region", $"{twice.Key} already has a model; give one a region."));
        }

        foreach (var read in exercises)
        {
            foreach (var (region, _) in read.Exercise.TissueLoad.Where(l => l.Value.Basis == Basis.Modelled))
            {
                if (!models.Any(m => m.Model.Region == region && m.Model.SpeaksFor(read.Exercise)))
                {
                    faults.Add(new KnowledgeFault(read.File, $"{read.Pointer}/tissueLoad/{region}", "is called modelled, but no model speaks for this exercise; give what is agreed, as common-practice."));
                }
            }
        }

        return faults;
    }

    private static void Known(string file, string at, IReadOnlyList<string> ids, Terms<Term> terms, List<KnowledgeFault> faults)
    {
        foreach (var id in ids.Where(id => !terms.Has(id)))
        {
            faults.Add(new KnowledgeFault(file, at, $"\"{id}\" is not in the vocabulary."));
        }
    }
}
