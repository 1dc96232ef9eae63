using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>The limits that complaints and clinicians put on tissue load, what they hold besides, and the referral that red flags or pain bring.</summary>
public sealed class TissueLimits
{
    private static readonly LoadingRate[] Rates = Enum.GetValues<LoadingRate>();

    private readonly Situation situation;
    private readonly LimitSheet ofPain = new();
    private readonly ReferralSheet referral;
    private readonly List<string> cautions = [];
    private readonly List<HeldKind> held = [];

    private TissueLimits(Situation situation)
    {
        this.situation = situation;
        referral = new ReferralSheet(situation);
    }

    /// <summary>Limits in force, the strictest of pain and restrictions, in the order of the complaints, then of the restrictions, then of the loading rates.</summary>
    public IReadOnlyList<Limit> Limits { get; private set; } = [];

    /// <summary>The referral, or null.</summary>
    public Referral? Referral { get; private set; }

    /// <summary>What a person should read beside the limits.</summary>
    public IReadOnlyList<string> Cautions => cautions;

    /// <summary>Region positions that are barred: nothing above the spared load passes.</summary>
    public IReadOnlyCollection<int> Barred => referral.Barred;

    /// <summary>Whether no landing is offered at all, on either leg: bone may be hurt.</summary>
    public bool NoImpact { get; private set; }

    /// <summary>Strictest limits of pain by region: (region position, hundredths by loading rate).</summary>
    public (int Region, int[] Hundredths)[] Rows { get; private set; } = [];

    /// <summary>Strictest limits that clinicians wrote, by region: (region position, hundredths by loading rate).</summary>
    public (int Region, int[] Hundredths)[] Restricted { get; private set; } = [];

    /// <summary>Kinds of exercise that are held because they provoke a complaint or its stage is not there yet.</summary>
    public IReadOnlyList<HeldKind> Held => held;

    /// <summary>Bit per provocation rule of which any is held.</summary>
    public ulong HeldMask { get; private set; }

    /// <summary>Bit per kind of exercise that a clearance still leaves out.</summary>
    public ulong ClearedMask { get; private set; }

    /// <summary>Derives limits and referral from complaints, red flags, restrictions and clearances.</summary>
    public static TissueLimits Of(Situation situation)
    {
        var made = new TissueLimits(situation);
        foreach (var flag in situation.GeneralRedFlags)
        {
            made.referral.Flag(flag, null);
        }

        foreach (var complaint in situation.Complaints)
        {
            made.Complaint(complaint);
        }

        foreach (var caution in situation.LearnedCautions)
        {
            made.Learned(caution);
        }

        made.referral.Limitations();
        made.Settle();
        return made;
    }

    private void Complaint(ResolvedComplaint complaint)
    {
        foreach (var flag in complaint.RedFlags)
        {
            referral.Flag(flag, complaint.Region);
        }

        foreach (var sore in complaint.Stands)
        {
            Limit(complaint, sore);
            referral.Pain(complaint, sore);
            Stage(complaint, sore);
            Provoked(complaint, sore);
            ImpactOfBone(complaint, sore);
        }

        cautions.AddRange(CareNotes.Of(situation, complaint));
    }

    /// <summary>The strictest of the region's own limits, those of its tissue, and those of the growing athlete.</summary>
    private void Limit(ResolvedComplaint complaint, SoreRegion sore)
    {
        var pain = situation.Knowledge.Pain;
        List<(PainLimit Table, Basis Basis, string? Source)> tables = [];
        var own = situation.Knowledge.PainLimitOf(sore.Region.Id)!;
        tables.Add((own, own.Basis, own.Source));
        if (situation.Young && !sore.Eased)
        {
            tables.Add((pain.Limits.First(l => l.Id == pain.Youth.LimitsOf), pain.Youth.Basis, pain.Youth.Source));
        }

        foreach (var tissue in sore.Tissues)
        {
            tables.AddRange(tissue.LimitsOf.Select(id => (pain.Limits.First(l => l.Id == id), tissue.Basis, tissue.Source)));
        }

        foreach (var rate in Rates)
        {
            var (strictest, most) = (tables[0], tables[0].Table.MaxTissueLoad[rate][sore.Pain]);
            for (var t = 1; t < tables.Count; t++)
            {
                if (tables[t].Table.MaxTissueLoad[rate][sore.Pain] is var other && other < most)
                {
                    (strictest, most) = (tables[t], other);
                }
            }

            ofPain.Add(sore.Region.Id, complaint.Side, rate, most, strictest.Basis, strictest.Source);
        }
    }

    /// <summary>A stage that someone put the athlete on binds by load; what it holds back is held whether it was sent or read from pain.</summary>
    private void Stage(ResolvedComplaint complaint, SoreRegion sore)
    {
        var spared = situation.Knowledge.Pain.SparedLoad;
        if (sore.StageBinds && sore.Stage is { } stage)
        {
            foreach (var rate in Rates)
            {
                ofPain.Add(sore.Region.Id, complaint.Side, rate, stage.MaxTissueLoad[rate], stage.Basis, stage.Source);
            }
        }
        else if (complaint.StageSent is { } sent && sore.Stage is null)
        {
            foreach (var rate in Rates.Where(r => r > situation.Knowledge.Programmes.WithoutProgramme[sent]))
            {
                ofPain.Add(sore.Region.Id, complaint.Side, rate, spared.Value, spared.Basis, spared.Source);
            }
        }

        if (sore.Stage is { } inForce && (sore.Pain > 0 || sore.StageBinds))
        {
            HeldKind.Add(situation, inForce.Holds, sore.Region, held);
        }
    }

    private void Provoked(ResolvedComplaint complaint, SoreRegion sore)
    {
        if (complaint.ProvokedBy.Count > 0)
        {
            HeldKind.Add(situation, [.. situation.Knowledge.Provocation.Rules.Where(r => r.ProvokedBy is { } by && complaint.ProvokedBy.Contains(by, StringComparer.Ordinal)).Select(r => r.Id)], sore.Region, held);
        }

        if (complaint.Acute)
        {
            HeldKind.Add(situation, situation.Knowledge.Pain.Acute.Holds, sore.Region, held);
        }
    }

    private void ImpactOfBone(ResolvedComplaint complaint, SoreRegion sore)
    {
        if (complaint.SuspectedBone && sore.Tissues.Any(t => t.NoImpactRegions?.Contains(sore.Region.Id, StringComparer.Ordinal) == true))
        {
            NoImpact = true;
            var spared = situation.Knowledge.Pain.SparedLoad;
            ofPain.Add(sore.Region.Id, Side.Both, LoadingRate.Impact, spared.Value, spared.Basis, spared.Source);
        }
    }

    /// <summary>After work that hurt, nothing as fast or faster comes near its load for a while. The strictest limit stands, so this can only lower one.</summary>
    private void Learned(LearnedCaution caution)
    {
        var rule = situation.Knowledge.Outcomes!.Caution;
        var vocabulary = situation.Catalogue.Vocabulary;
        var regions = new List<string>();
        foreach (var (region, load) in caution.Loads)
        {
            if (load < rule.LoadedFrom || vocabulary.Regions.IndexOf(region) < 0)
            {
                continue;
            }

            regions.Add(region);
            foreach (var rate in Rates.Where(r => r >= caution.LoadingRate))
            {
                ofPain.Add(region, Side.Both, rate, decimal.Round(load * rule.Share, 2, MidpointRounding.ToZero), rule.Basis, rule.Source);
            }
        }

        cautions.Add(CareNotes.Of(situation, caution, regions));
    }

    private void Settle()
    {
        var vocabulary = situation.Catalogue.Vocabulary;
        var spared = situation.Knowledge.Pain.SparedLoad;
        foreach (var region in Barred)
        {
            var term = vocabulary.Regions[region];
            foreach (var side in ofPain.SidesOf(term.Id))
            {
                foreach (var rate in Rates)
                {
                    ofPain.Add(term.Id, side, rate, spared.Value, spared.Basis, spared.Source);
                }
            }
        }

        Rows = ofPain.Rows(vocabulary);
        var written = RestrictionLimits.Of(situation, held);
        Restricted = written.Rows(vocabulary);
        Limits = LimitSheet.Strictest(ofPain, written);
        cautions.AddRange(CareNotes.Of(situation));
        foreach (var kind in held)
        {
            HeldMask |= kind.Bit;
        }

        ClearedMask = RestrictionLimits.ClearedMask(situation);
        Referral = referral.Settle();
    }
}
