using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Testing;

/// <summary>The repository's own knowledge, read once a run, and small editions made from it.</summary>
public static class TestEdition
{
    private static readonly Lazy<string> TopFolder = new(FindTop);
    private static readonly Lazy<Edition> FromData = new(() => KnowledgeReader.Read(DataFolder));

    /// <summary>The folder with Recommender.sln, found by walking up from where the tests run.</summary>
    public static string Top => TopFolder.Value;

    /// <summary>The repository's data folder.</summary>
    public static string DataFolder => Path.Combine(Top, "data");

    /// <summary>The edition of the data folder. Shared by all tests; it is immutable.</summary>
    public static Edition Current => FromData.Value;

    /// <summary>The vocabulary of the data folder.</summary>
    public static Vocabulary Vocabulary => Current.Catalogue.Vocabulary;

    /// <summary>The rules of the data folder.</summary>
    public static KnowledgeBase Knowledge => Current.Knowledge;

    /// <summary>The rules of the data folder, or others, with exercises of one's own.</summary>
    /// <param name="exercises">The whole catalogue of the edition.</param>
    /// <param name="knowledge">Rules; null for those of the data folder.</param>
    public static Edition Of(IEnumerable<Exercise> exercises, KnowledgeBase? knowledge = null) =>
        new(new ExerciseCatalogue(exercises, Vocabulary), knowledge ?? Knowledge, "hand-made", "hand-made");

    /// <summary>The catalogue of the data folder with other rules.</summary>
    public static Edition Under(KnowledgeBase knowledge) => new(Current.Catalogue, knowledge, Current.CatalogueVersion, "hand-made");

    /// <summary>The exercise of the data folder with this id.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static Exercise Exercise(string id) => Current.Catalogue.Find(id) ?? throw new ArgumentException($"{id} is not in the catalogue; was it renamed?", nameof(id));

    private static string FindTop()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Recommender.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException($"No folder above {AppContext.BaseDirectory} holds Recommender.sln.");
    }
}
