using System.Globalization;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>Derives what an athlete needs from event and phase, the coach, tests and complaints.</summary>
public static class NeedAnalysis
{
    /// <summary>The need profile of a situation.</summary>
    /// <returns>At least one need; weights sum to 1 exactly.</returns>
    public static NeedProfile Derive(Situation situation)
    {
        var sheet = new NeedSheet(situation.Catalogue.Vocabulary);
        AddEventProfile(situation, sheet);
        AddCoachNeeds(situation, sheet);
        AddComplaintNeeds(situation, sheet);
        var cautions = TestNeeds.Add(situation, sheet);
        return new NeedProfile(sheet.Settle(), cautions);
    }

    private static void AddEventProfile(Situation situation, NeedSheet sheet)
    {
        var emphasis = situation.Edition.EmphasisOf(situation.Event, situation.Phase);
        foreach (var (quality, share) in emphasis.Qualities)
        {
            sheet.Add(quality, share, "event-profile", emphasis.Note, situation.Profile.Basis, situation.Profile.Source);
        }
    }

    private static void AddCoachNeeds(Situation situation, NeedSheet sheet)
    {
        foreach (var need in situation.Request.Needs ?? [])
        {
            var importance = need.Importance ?? "medium";
            var rule = situation.Knowledge.Needs.Importances[importance];
            var weight = need.Weight ?? rule.Value;
            var note = need.Weight is { } w ? $"the coach gave it weight {w.ToString("0.##", CultureInfo.InvariantCulture)}" : $"the coach called it {importance}";
            var alias = situation.Catalogue.Vocabulary.Aliases.Find(need.Quality!);
            foreach (var quality in alias?.Qualities ?? [need.Quality!])
            {
                sheet.Add(quality, alias is null ? weight : weight * situation.Knowledge.Needs.AliasShare.Value, "coach", note, rule.Basis, rule.Source);
            }
        }
    }

    private static void AddComplaintNeeds(Situation situation, NeedSheet sheet)
    {
        var met = new HashSet<string>(StringComparer.Ordinal);
        foreach (var complaint in situation.Complaints.Where(c => c.RedFlags.Count == 0))
        {
            foreach (var rule in situation.Knowledge.Needs.Complaints)
            {
                if (rule.Regions.Contains(complaint.Region.Id, StringComparer.Ordinal)
                    && complaint.EffectivePain >= rule.MinPain && complaint.EffectivePain <= rule.MaxPain && met.Add(rule.Id))
                {
                    foreach (var (quality, weight) in rule.Qualities)
                    {
                        sheet.Add(quality, weight, "complaint", rule.Note, rule.Basis, rule.Source);
                    }
                }
            }
        }
    }
}
