using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>What complaints and earlier injuries need built. What is examined first is built on later, and soreness after training needs nothing built.</summary>
internal static class ComplaintNeeds
{
    /// <summary>Adds the needs of complaints, then those of earlier injuries.</summary>
    public static void Add(Situation situation, NeedSheet sheet)
    {
        var met = new HashSet<string>(StringComparer.Ordinal);
        foreach (var complaint in situation.Complaints.Where(c => !c.ExaminedFirst && !c.Soreness))
        {
            if (!ByStage(complaint, sheet, met) && !IsGrowthPlate(situation, complaint))
            {
                ByPain(situation, complaint, sheet, met);
            }

            ByProvocation(situation, complaint, sheet, met);
        }

        AddHistory(situation, sheet);
    }

    /// <summary>A stage that someone put the athlete on says what is built; false leaves it to pain.</summary>
    private static bool ByStage(ResolvedComplaint complaint, NeedSheet sheet, HashSet<string> met)
    {
        var any = false;
        foreach (var sore in complaint.Stands)
        {
            if (sore is { StageBinds: true, FollowsProgramme: true, Stage: { Builds.Count: > 0 } stage })
            {
                any = true;
                if (met.Add($"{sore.Region.Id} {stage.Stage}"))
                {
                    var label = $"{char.ToLowerInvariant(stage.Note[0])}{stage.Note[1..].TrimEnd('.')}";
                    Add(sheet, stage.Builds, 1, "complaint", label, stage.Basis, stage.Source);
                }
            }
        }

        return any;
    }

    private static bool IsGrowthPlate(Situation situation, ResolvedComplaint complaint) =>
        situation.Young && complaint.Stands.Any(s => situation.Knowledge.Pain.Youth.GrowthPlateRegions.Contains(s.Region.Id, StringComparer.Ordinal));

    private static void ByPain(Situation situation, ResolvedComplaint complaint, NeedSheet sheet, HashSet<string> met)
    {
        foreach (var rule in situation.Knowledge.Needs.Complaints)
        {
            if (rule.Regions.Contains(complaint.Region.Id, StringComparer.Ordinal)
                && complaint.EffectivePain >= rule.MinPain && complaint.EffectivePain <= rule.MaxPain && met.Add(rule.Id))
            {
                Add(sheet, rule.Qualities, 1, "complaint", rule.Note, rule.Basis, rule.Source);
            }
        }
    }

    private static void ByProvocation(Situation situation, ResolvedComplaint complaint, NeedSheet sheet, HashSet<string> met)
    {
        foreach (var build in situation.Knowledge.Provocation.Builds)
        {
            if (complaint.EffectivePain <= build.MaxPain && complaint.ProvokedBy.Contains(build.ProvokedBy, StringComparer.Ordinal)
                && build.Regions.Contains(complaint.Region.Id, StringComparer.Ordinal) && met.Add(build.Id))
            {
                Add(sheet, build.Qualities, 1, "complaint", build.Note, build.Basis, build.Source);
            }
        }
    }

    /// <summary>A region that was hurt before keeps a share of what it needed when it was settling; all of them together stay under the cap.</summary>
    private static void AddHistory(Situation situation, NeedSheet sheet)
    {
        var rule = situation.Knowledge.Returning.History;
        var latest = new Dictionary<string, decimal>(StringComparer.Ordinal);
        foreach (var injury in situation.Request.Athlete!.History ?? [])
        {
            var share = rule.ShareOf(injury.MonthsAgo!.Value, injury.Surgery == true);
            latest[injury.Region!] = Math.Max(share, latest.GetValueOrDefault(injury.Region!));
        }

        var needs = new List<(ComplaintNeed Need, decimal Share)>();
        foreach (var (region, share) in latest.Where(l => l.Value > 0))
        {
            if (situation.Knowledge.Needs.Complaints.Where(c => c.Regions.Contains(region, StringComparer.Ordinal)).MinBy(c => c.MinPain) is { } settled)
            {
                needs.Add((settled, share));
            }
        }

        var total = needs.Sum(n => n.Need.Qualities.Values.Sum() * n.Share);
        var scale = total > rule.WeightCap ? rule.WeightCap / total : 1;
        foreach (var (need, share) in needs)
        {
            Add(sheet, need.Qualities, share * scale, "history", $"{rule.Note}: {need.Note}", rule.Basis, rule.Source);
        }
    }

    private static void Add(NeedSheet sheet, IReadOnlyDictionary<string, decimal> qualities, decimal share, string source, string note, Catalogue.Basis basis, string? reference)
    {
        foreach (var (quality, weight) in qualities)
        {
            sheet.Add(quality, weight * share, source, note, basis, reference);
        }
    }
}
