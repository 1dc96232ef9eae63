using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Scoring;

/// <summary>What is sore in a request, and which exercises load it.</summary>
public sealed class SoreRegions
{
    private readonly ExerciseCatalogue catalogue;
    private readonly int[] regions;

    private SoreRegions(Situation situation)
    {
        catalogue = situation.Catalogue;
        regions = [.. situation.Complaints.SelectMany(c => c.Stands).Select(s => catalogue.Vocabulary.Regions.IndexOf(s.Region.Id)).Distinct()];
    }

    /// <summary>Those of a situation.</summary>
    public static SoreRegions Of(Situation situation) => new(situation);

    /// <summary>Whether the upper end of an exercise's load on any of them is above 0; null where nothing is sore. Hot path.</summary>
    /// <param name="position">Catalogue position.</param>
    public bool? LoadedBy(int position)
    {
        if (regions.Length == 0)
        {
            return null;
        }

        var loads = catalogue.TissueHigh.AsSpan(position * catalogue.RegionCount, catalogue.RegionCount);
        foreach (var region in regions)
        {
            if (loads[region] > 0)
            {
                return true;
            }
        }

        return false;
    }
}
