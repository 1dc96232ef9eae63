using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>Limits that clinicians wrote, in the terms of the gates.</summary>
internal static class RestrictionLimits
{
    private static readonly LoadingRate[] Rates = Enum.GetValues<LoadingRate>();

    /// <summary>The limits of all restrictions; the stages they name also hold what those hold back.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="held">Takes what the stages hold back.</param>
    public static LimitSheet Of(Situation situation, List<HeldKind> held)
    {
        var sheet = new LimitSheet();
        foreach (var restriction in situation.Restrictions)
        {
            foreach (var region in restriction.Stands)
            {
                foreach (var rate in Rates)
                {
                    sheet.Add(region.Id, restriction.Side, rate, Most(situation, restriction, region, rate), Basis.CommonPractice, null);
                }

                HoldStage(situation, restriction, region, held);
            }
        }

        return sheet;
    }

    /// <summary>Bits of what the clearances in force still leave out, in the order of the edition's clearance masks.</summary>
    public static ulong ClearedMask(Situation situation)
    {
        ulong mask = 0;
        var bit = 0;
        foreach (var rule in situation.Knowledge.Returning.Clearances)
        {
            var inForce = situation.IsCleared(rule.Flag);
            foreach (var _ in rule.Holds)
            {
                mask |= inForce ? 1UL << bit : 0;
                bit++;
            }
        }

        return mask;
    }

    /// <summary>What the restriction allows at a loading rate; faster than it allows, only what quiet standing puts on the region.</summary>
    private static decimal Most(Situation situation, ResolvedRestriction restriction, RegionTerm region, LoadingRate rate)
    {
        var spared = situation.Knowledge.Pain.SparedLoad.Value;
        var most = restriction.MaxTissueLoad ?? 10;
        most = rate > restriction.MaxLoadingRate ? Math.Min(most, spared) : most;
        if (restriction.Stage is not { } stage)
        {
            return most;
        }

        return situation.Knowledge.ProgrammeOf(region.Id, stage) is { } programme ? Math.Min(most, programme.MaxTissueLoad[rate])
            : rate > situation.Knowledge.Programmes.WithoutProgramme[stage] ? Math.Min(most, spared)
            : most;
    }

    private static void HoldStage(Situation situation, ResolvedRestriction restriction, RegionTerm region, List<HeldKind> held)
    {
        if (restriction.Stage is { } stage && situation.Knowledge.ProgrammeOf(region.Id, stage) is { } programme)
        {
            HeldKind.Add(situation, programme.Holds, region, held);
        }
    }
}
