using System.Globalization;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>Derives what an athlete needs from event and phase, the coach, tests and complaints.</summary>
public static class NeedAnalysis
{
    /// <summary>The need profile of a situation.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="shown">Whether measures are wanted that raise nothing; the needs are the same either way.</param>
    /// <returns>At least one need; weights sum to 1 exactly.</returns>
    public static NeedProfile Derive(Situation situation, bool shown = false)
    {
        var (sheet, tests) = Gather(situation, shown);
        return tests is null ? new NeedProfile(sheet.Settle(), []) : new NeedProfile(sheet.Settle(), tests.Cautions) { Derived = tests.Derived, WeakerSides = tests.WeakerSides };
    }

    /// <summary>What each origin adds, before all are scaled to 1; the event profile first.</summary>
    internal static IReadOnlyList<WeighedNeed> Lines(Situation situation) => Gather(situation, shown: false).Sheet.Lines;

    private static (NeedSheet Sheet, TestNeeds? Tests) Gather(Situation situation, bool shown)
    {
        var sheet = new NeedSheet(situation.Catalogue.Vocabulary);
        AddEventProfile(situation, sheet);
        AddCoachNeeds(situation, sheet);
        ComplaintNeeds.Add(situation, sheet);
        var tests = TestNeeds.Of(situation, shown);
        foreach (var raise in tests?.Raises ?? [])
        {
            sheet.Add(raise.Quality, raise.Weight, "test", raise.Note, raise.Basis, raise.Source);
        }

        return (sheet, tests);
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
}
