using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Benchmarks.Engine;

/// <summary>The shipped catalogue made larger or smaller, so that growth can be measured.</summary>
internal static class GrownCatalogue
{
    /// <summary>An edition with so many exercises: the shipped ones over and over, each copy with ids and families of its own.</summary>
    public static Edition Of(Edition shipped, int count)
    {
        var own = shipped.Catalogue.Exercises;
        var exercises = Enumerable.Range(0, count).Select(i =>
        {
            // A smaller catalogue takes exercises from all over, not the beginning of the alphabet.
            var original = own[count < own.Count ? i * own.Count / count : i % own.Count];
            var copy = i / own.Count;
            return copy == 0 ? original : original with { Id = Numbered(original.Id, copy), Family = Numbered(original.Family, copy) };
        });
        return new Edition(new ExerciseCatalogue(exercises, shipped.Catalogue.Vocabulary), shipped.Knowledge, shipped.CatalogueVersion, shipped.RulesVersion);
    }

    private static string Numbered(string id, int copy) => string.Create(CultureInfo.InvariantCulture, $"{id}-{copy}");
}
