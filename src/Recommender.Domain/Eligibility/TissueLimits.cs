using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>The limits that complaints put on tissue load, and the referral that red flags or pain bring.</summary>
public sealed class TissueLimits
{
    private static readonly string[] Urgencies = ["emergency", "same-day", "within-days"];

    private readonly Situation situation;
    private readonly List<Limit> limits = [];
    private readonly List<ReferralReason> reasons = [];
    private readonly SortedSet<int> barred = [];
    private readonly List<string> cautions = [];
    private int urgency = Urgencies.Length - 1;
    private bool all;

    private TissueLimits(Situation situation) => this.situation = situation;

    /// <summary>Limits in force, in the order of the complaints, then of the loading rates.</summary>
    public IReadOnlyList<Limit> Limits => limits;

    /// <summary>The referral, or null.</summary>
    public Referral? Referral { get; private set; }

    /// <summary>What a person should read beside the limits.</summary>
    public IReadOnlyList<string> Cautions => cautions;

    /// <summary>Region positions that are barred: nothing above the spared load passes.</summary>
    public IReadOnlyCollection<int> Barred => barred;

    /// <summary>Strictest limits by region: (region position, hundredths by loading rate).</summary>
    public (int Region, int[] Hundredths)[] Rows { get; private set; } = [];

    /// <summary>Derives limits and referral from complaints and red flags.</summary>
    public static TissueLimits Of(Situation situation)
    {
        var made = new TissueLimits(situation);
        foreach (var flag in situation.GeneralRedFlags)
        {
            made.Flag(flag, null);
        }

        foreach (var complaint in situation.Complaints)
        {
            made.Complaint(complaint);
        }

        made.Settle();
        return made;
    }

    private void Flag(RedFlagTerm flag, RegionTerm? region)
    {
        // A sign of one body part that came without its complaint could be anywhere, so nothing is offered.
        var general = flag.Scope == "all" || region is null;
        all |= general;
        urgency = Math.Min(urgency, Array.IndexOf(Urgencies, flag.Urgency));
        var lost = flag.Scope != "all" && region is null ? " Send it with the complaint it belongs to, so that the rest of the body can be trained." : "";
        reasons.Add(new ReferralReason(flag.Id, region?.Id, flag.Label + "." + lost));
        if (!general)
        {
            Bar(region!, withNeighbours: true);
        }
    }

    private void Complaint(ResolvedComplaint complaint)
    {
        foreach (var flag in complaint.RedFlags)
        {
            Flag(flag, complaint.Region);
        }

        foreach (var region in Stands(complaint.Region))
        {
            var rule = situation.Knowledge.PainLimitOf(region.Id)!;
            var youth = situation.Knowledge.Pain.Youth;
            var young = situation.AgeYears < youth.BelowAge;
            var referFrom = young ? Math.Min(rule.ReferFromPain, youth.ReferFromPain) : rule.ReferFromPain;
            if (complaint.EffectivePain >= referFrom)
            {
                urgency = Math.Min(urgency, Array.IndexOf(Urgencies, rule.Urgency));
                reasons.Add(new ReferralReason(null, region.Id, PainReason(complaint, region, referFrom)));
                Bar(region, withNeighbours: false);
            }

            if (young)
            {
                cautions.Add($"{region.Label}: {youth.Note}");
            }

            foreach (var rate in Enum.GetValues<LoadingRate>())
            {
                var own = rule.MaxTissueLoad[rate][complaint.EffectivePain];
                var strict = young ? situation.Knowledge.Pain.Limits.First(l => l.Id == youth.LimitsOf).MaxTissueLoad[rate][complaint.EffectivePain] : own;
                Add(region, complaint.Side, rate, Math.Min(own, strict), strict < own ? youth.Basis : rule.Basis, strict < own ? youth.Source : rule.Source);
            }
        }
    }

    private static string PainReason(ResolvedComplaint complaint, RegionTerm region, int referFrom)
    {
        var morning = complaint.WorseMorning ? ", worse next morning" : "";
        return complaint.Pain >= referFrom || complaint.WorseMorning
            ? $"{region.Label}: pain {complaint.Pain} of 10{morning}; from {referFrom} on it is examined before it is loaded."
            : $"{region.Label}: pain {complaint.Pain} of 10; examined before it is loaded.";
    }

    private IEnumerable<RegionTerm> Stands(RegionTerm region) =>
        region.Covers.Count == 0 ? [region] : region.Covers.Select(r => situation.Catalogue.Vocabulary.Regions.Find(r)!);

    private void Bar(RegionTerm region, bool withNeighbours)
    {
        var vocabulary = situation.Catalogue.Vocabulary;
        var names = Stands(region).Select(r => r.Id);
        if (withNeighbours)
        {
            names = names.Concat(situation.Knowledge.Pain.RedFlagSpares.GetValueOrDefault(region.Id) ?? []);
        }

        barred.UnionWith(names.Select(vocabulary.Regions.IndexOf));
    }

    private void Add(RegionTerm region, Side side, LoadingRate rate, decimal max, Basis basis, string? source)
    {
        var at = limits.FindIndex(l => l.Region == region.Id && l.Side == side && l.LoadingRate == rate);
        var limit = new Limit(region.Id, side, rate, max, basis, source);
        if (at < 0)
        {
            limits.Add(limit);
        }
        else if (max < limits[at].MaxTissueLoad)
        {
            limits[at] = limit;
        }
    }

    private void Settle()
    {
        var vocabulary = situation.Catalogue.Vocabulary;
        var spared = situation.Knowledge.Pain.SparedLoad;
        foreach (var region in barred)
        {
            var term = vocabulary.Regions[region];
            var sides = limits.Where(l => l.Region == term.Id).Select(l => l.Side).Distinct().DefaultIfEmpty(Side.Both).ToList();
            foreach (var side in sides)
            {
                foreach (var rate in Enum.GetValues<LoadingRate>())
                {
                    Add(term, side, rate, spared.Value, spared.Basis, spared.Source);
                }
            }
        }

        Rows = [.. limits
            .GroupBy(l => vocabulary.Regions.IndexOf(l.Region))
            .OrderBy(g => g.Key)
            .Select(g => (g.Key, Enum.GetValues<LoadingRate>()
                .Select(rate => (int)decimal.Round(g.Where(l => l.LoadingRate == rate).Min(l => l.MaxTissueLoad) * 100))
                .ToArray()))];
        if (reasons.Count > 0)
        {
            Referral = new Referral(all ? "all" : "regions", all ? [] : [.. barred.Select(r => vocabulary.Regions[r].Id)], Urgencies[urgency], reasons, Advice());
        }
    }

    private string Advice()
    {
        var when = Urgencies[urgency] switch
        {
            "emergency" => "Stop now and call the emergency services or go to an emergency department.",
            "same-day" => "Stop and have it examined by a doctor or physiotherapist today.",
            _ => "Have it examined by a doctor or physiotherapist in the next days.",
        };
        return all
            ? when + " No exercise is suggested until then."
            : when + " Until then nothing that loads it is suggested; the rest of the body may be trained if that stays free of symptoms.";
    }
}
