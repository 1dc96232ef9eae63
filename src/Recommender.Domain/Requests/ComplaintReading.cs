using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Requests;

/// <summary>Reads complaints by the rules of pain and programmes.</summary>
/// <param name="knowledge">Rules.</param>
/// <param name="vocabulary">Vocabulary.</param>
/// <param name="young">Whether the rules for growing athletes hold.</param>
/// <param name="restrictions">What clinicians wrote.</param>
internal sealed class ComplaintReading(KnowledgeBase knowledge, Vocabulary vocabulary, bool young, IReadOnlyList<ResolvedRestriction> restrictions)
{
    private const string Worse = "worse";

    /// <summary>A checked complaint with its gaps filled.</summary>
    public ResolvedComplaint Of(Complaint sent, Side side)
    {
        var rules = knowledge.Pain;
        IReadOnlyList<string> mornings = sent.Mornings is { Count: > 0 } given ? given : sent.NextMorning is { } latest ? [latest] : [];
        var worse = mornings is [Worse, ..];
        var rising = sent.Trend == "rising";
        var pain = sent.Pain!.Value;
        var raised = worse ? Raised(pain, rules.WorseMorning.AddsPain, rules.WorseMorning.AtMost) : pain;
        raised = rising ? Raised(raised, rules.RisingTrend.AddsPain, rules.RisingTrend.AtMost) : raised;
        var soreness = sent.Kind == "soreness" && !(sent.DaysSinceOnset > rules.Soreness.LastsAtMostDays);
        var flags = (sent.RedFlags ?? []).Distinct(StringComparer.Ordinal).Select(f => vocabulary.RedFlags.Find(f)!).ToList();
        var region = vocabulary.Regions.Find(sent.Region!)!;
        var stage = sent.Stage is { } id ? (LoadingStage?)vocabulary.LoadingStages.IndexOf(id) : null;
        var made = new ResolvedComplaint(region, side, pain, raised, worse, flags, [])
        {
            Soreness = soreness,
            Acute = !soreness && sent.Onset == "sudden" && !(sent.DaysSinceOnset > rules.Acute.WithinDays),
            WorseMorningsRunning = !soreness && mornings.TakeWhile(m => m == Worse).Count() >= rules.WorseMornings.RefersAfter,
            Rising = rising,
            SuspectedBone = sent.Tissue == TissueRule.Bone || flags.Exists(f => rules.BoneFlags.Contains(f.Id, StringComparer.Ordinal)),
            StageSent = stage,
            ProvokedBy = [.. (sent.ProvokedBy ?? []).Distinct(StringComparer.Ordinal)],
        };
        return made with { Stands = [.. vocabulary.Regions.PartsOf(region).Select(r => Sore(made, r, sent.Tissue))] };
    }

    private static int Raised(int pain, int adds, int atMost) => Math.Max(pain, Math.Min(atMost, pain + adds));

    private SoreRegion Sore(ResolvedComplaint complaint, RegionTerm region, string? tissue)
    {
        var rules = knowledge.Pain;
        var eased = complaint.Soreness && rules.Soreness.Regions.Contains(region.Id, StringComparer.Ordinal);
        var pain = eased ? Math.Min(complaint.EffectivePain, rules.Soreness.ReadAtMost) : complaint.EffectivePain;
        var programme = complaint.Soreness ? null : knowledge.ProgrammeOf(region.Id);
        var allowed = Allowed(complaint, region);
        var stage = programme?.InForce(pain, complaint.StageSent, allowed, complaint.Rising ? rules.RisingTrend.StagesBack : 0);
        var follows = programme is not null && !young && !complaint.ExaminedFirst && (tissue is null || programme.Tissues.Contains(tissue, StringComparer.Ordinal));
        return new SoreRegion(region, pain, eased, [.. Tissues(complaint, region, tissue, eased)], stage, (complaint.StageSent ?? allowed) is not null, follows);
    }

    /// <summary>The latest stage that every restriction allows, or null.</summary>
    private LoadingStage? Allowed(ResolvedComplaint complaint, RegionTerm region) =>
        restrictions.Where(r => r.IsAbout(region.Id, complaint.Side)).Min(r => r.Stage);

    private IEnumerable<TissueRule> Tissues(ResolvedComplaint complaint, RegionTerm region, string? tissue, bool eased)
    {
        if (complaint.SuspectedBone)
        {
            yield return knowledge.TissueRuleOf(TissueRule.Bone);
        }

        if (young && !eased && knowledge.Pain.Youth.GrowthPlateRegions.Contains(region.Id, StringComparer.Ordinal))
        {
            yield return knowledge.TissueRuleOf(TissueRule.GrowthPlate);
        }

        // Soreness is of muscle anyway, so muscle adds nothing to it.
        var said = eased && tissue == "muscle" ? null : tissue;
        if (said is not null and not TissueRule.Bone && said != knowledge.PainLimitOf(region.Id)!.Tissue)
        {
            yield return knowledge.TissueRuleOf(said);
        }
    }
}
