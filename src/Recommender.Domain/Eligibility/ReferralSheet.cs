using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>Gathers what belongs before a clinician first, and which regions are spared until then.</summary>
/// <param name="situation">The situation.</param>
internal sealed class ReferralSheet(Situation situation)
{
    private static readonly string[] Urgencies = ["emergency", "same-day", "within-days"];

    private readonly List<ReferralReason> reasons = [];
    private readonly SortedSet<int> barred = [];
    private int urgency = Urgencies.Length - 1;
    private bool all;
    private bool clinical;

    /// <summary>Region positions that are barred, ascending.</summary>
    public IReadOnlyCollection<int> Barred => barred;

    /// <summary>A red flag of a complaint's region, or one that stands alone.</summary>
    public void Flag(RedFlagTerm flag, RegionTerm? region)
    {
        if (situation.IsCleared(flag.Id))
        {
            return;
        }

        // A sign of one body part that came without its complaint could be anywhere, so nothing is offered.
        var general = flag.Scope == "all" || region is null;
        all |= general;
        var lost = flag.Scope != "all" && region is null ? " Send it with the complaint it belongs to, so that the rest of the body can be trained." : "";
        var lapsed = situation.Clearances.FirstOrDefault(c => c.Rule.Flag == flag.Id) is { } old
            ? $" The clearance is {old.DaysAgo} days old and holds for {old.Rule.ValidDays}; ask for a new one." : "";
        Because(flag.Urgency, new ReferralReason(flag.Id, region?.Id, flag.Label + "." + lost + lapsed));
        if (!general)
        {
            Bar(region!, withNeighbours: true);
        }
    }

    /// <summary>Pain, its course and its tissue. Soreness after training never refers by itself.</summary>
    public void Pain(ResolvedComplaint complaint, SoreRegion sore)
    {
        if (complaint.Soreness)
        {
            return;
        }

        var rules = situation.Knowledge.Pain;
        var rule = situation.Knowledge.PainLimitOf(sore.Region.Id)!;
        var referFrom = situation.Young ? Math.Min(rule.ReferFromPain, rules.Youth.ReferFromPain) : rule.ReferFromPain;
        if (complaint.EffectivePain >= referFrom)
        {
            Refer(sore.Region, rule.Urgency, PainText(complaint, sore.Region, referFrom));
        }

        foreach (var tissue in sore.Tissues)
        {
            if (complaint.EffectivePain >= tissue.ReferFromPain)
            {
                var sameDay = tissue.SameDayRegions?.Contains(sore.Region.Id, StringComparer.Ordinal) == true;
                Refer(sore.Region, sameDay ? "same-day" : tissue.Urgency, $"{sore.Region.Label}: pain {complaint.Pain} of 10. {tissue.Note}");
            }
        }

        foreach (var provoked in rules.Youth.Provoked ?? [])
        {
            if ((situation.AgeYears < provoked.BelowAge || situation.InGrowthSpurt) && provoked.Regions.Contains(sore.Region.Id, StringComparer.Ordinal)
                && complaint.ProvokedBy.Any(by => provoked.ProvokedBy.Contains(by, StringComparer.Ordinal)))
            {
                Refer(sore.Region, provoked.Urgency, $"{sore.Region.Label}: {provoked.Note}");
            }
        }

        if (complaint.WorseMorningsRunning)
        {
            Refer(sore.Region, rule.Urgency, $"{sore.Region.Label}: {rules.WorseMornings.Note}");
        }

        if (complaint.Acute)
        {
            Refer(sore.Region, rules.Acute.Urgency, $"{sore.Region.Label}: {rules.Acute.Note}");
        }
    }

    /// <summary>Lasting limitations are not served yet; nothing is guessed.</summary>
    public void Limitations()
    {
        if (situation.Request.Athlete?.Limitations is { Count: > 0 })
        {
            all = true;
            reasons.Add(new ReferralReason(null, null, "Lasting limitations are not served yet, so no exercise is suggested rather than a guessed one."));
        }
    }

    /// <summary>The referral, or null when nothing asks for one.</summary>
    public Referral? Settle() => reasons.Count == 0 ? null
        : new Referral(all ? "all" : "regions", all ? [] : [.. barred.Select(r => situation.Catalogue.Vocabulary.Regions[r].Id)], Urgencies[urgency], reasons, Advice());

    private void Refer(RegionTerm region, string urgent, string text)
    {
        Because(urgent, new ReferralReason(null, region.Id, text));
        Bar(region, withNeighbours: false);
    }

    private void Because(string urgent, ReferralReason reason)
    {
        clinical = true;
        urgency = Math.Min(urgency, Array.IndexOf(Urgencies, urgent));
        reasons.Add(reason);
    }

    private static string PainText(ResolvedComplaint complaint, RegionTerm region, int referFrom)
    {
        var morning = complaint.WorseMorning ? ", worse next morning" : "";
        return complaint.Pain >= referFrom || complaint.WorseMorning
            ? $"{region.Label}: pain {complaint.Pain} of 10{morning}; from {referFrom} on it is examined before it is loaded."
            : $"{region.Label}: pain {complaint.Pain} of 10; examined before it is loaded.";
    }

    private void Bar(RegionTerm region, bool withNeighbours)
    {
        var spared = withNeighbours ? situation.Knowledge.Pain.RedFlagSpares.GetValueOrDefault(region.Id) ?? [] : [];
        var regions = situation.Catalogue.Vocabulary.Regions;
        barred.UnionWith(regions.PartsOf(region).Select(r => r.Id).Concat(spared).Select(regions.IndexOf));
    }

    private string Advice()
    {
        if (!clinical)
        {
            return "No exercise is suggested: a coach and a clinician who know the athlete choose together.";
        }

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
