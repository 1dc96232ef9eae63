namespace Recommender.Domain.Catalogue;

/// <summary>What a region stands for: the regions that it covers, or itself where it covers none. Loads and limits are kept by parts alone.</summary>
public static class RegionParts
{
    /// <summary>Whether it is itself a part: exercises load it, and it covers no other.</summary>
    /// <param name="region">Region.</param>
    public static bool IsPart(this RegionTerm region) => region.Covers.Count == 0;

    /// <summary>The parts, in the vocabulary's order of the covering region.</summary>
    /// <param name="regions">The vocabulary's regions.</param>
    /// <param name="region">Region.</param>
    public static IReadOnlyList<RegionTerm> PartsOf(this Terms<RegionTerm> regions, RegionTerm region) =>
        region.IsPart() ? [region] : [.. region.Covers.Select(part => regions.Find(part)!)];
}
