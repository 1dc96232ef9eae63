using System.Numerics;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>What coach and athlete read beside the limits: stage, growth, restrictions, clearances, time off. Plain words, no numbers of its own.</summary>
internal static class CareNotes
{
    /// <summary>Lines of one complaint.</summary>
    public static IEnumerable<string> Of(Situation situation, ResolvedComplaint complaint)
    {
        var rules = situation.Knowledge.Pain;
        foreach (var sore in complaint.Stands)
        {
            if (complaint.Soreness)
            {
                yield return $"{sore.Region.Label}: {(sore.Eased ? rules.Soreness.Note : rules.Soreness.ElsewhereNote)}";
            }

            if (situation.Young && !sore.Eased)
            {
                var growthPlate = rules.Youth.GrowthPlateRegions.Contains(sore.Region.Id, StringComparer.Ordinal);
                yield return $"{sore.Region.Label}: {(growthPlate ? rules.Youth.GrowthPlateNote + " " : "")}{rules.Youth.Note}";
            }

            foreach (var tissue in sore.Tissues.Where(t => t.Id != TissueRule.Bone && !(situation.Young && t.Id == TissueRule.GrowthPlate)))
            {
                yield return $"{sore.Region.Label}: {tissue.Note}";
            }

            if (complaint.Rising && !complaint.Soreness)
            {
                yield return $"{sore.Region.Label}: {rules.RisingTrend.Note}";
            }

            if (sore is { FollowsProgramme: true, Stage: { } stage })
            {
                var name = situation.Catalogue.Vocabulary.LoadingStages.InSentence((int)stage.Stage);
                var back = complaint.StageSent > stage.Stage
                    ? $" It was sent as {situation.Catalogue.Vocabulary.LoadingStages.InSentence((int)complaint.StageSent.Value)}; today's pain belongs here." : "";
                yield return $"{sore.Region.Label}, {SideWords(complaint.Side)}: {name} stage. {stage.Note}{back} On to the next when: {Lower(stage.Exit)}";
            }
        }
    }

    /// <summary>What earlier work taught: what rose, what is held because of it and for how long.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="caution">What was reported.</param>
    /// <param name="regions">Region ids that are held.</param>
    public static string Of(Situation situation, LearnedCaution caution, IReadOnlyList<string> regions)
    {
        var rule = situation.Knowledge.Outcomes!.Caution;
        var (words, name) = (situation.Catalogue.Vocabulary.Regions, situation.Catalogue.Find(caution.Exercise)?.Name ?? caution.Exercise);
        var rose = caution.PainDuring - caution.PainBefore >= rule.RiseDuring ? $"pain rose from {caution.PainBefore} to {caution.PainDuring} during the work" : $"pain was {caution.PainNextMorning} next morning, {caution.PainBefore} before the work";
        var ago = caution.DaysAgo switch { 0 => "today", 1 => "yesterday", var days => $"{days} days ago" };
        var left = rule.Days - caution.DaysAgo;
        var until = left == 0 ? "Today still" : $"Today and for {left} more {(left == 1 ? "day" : "days")}";
        return regions.Count == 0 ? $"{name}, reported {ago}: {rose}. It loads nothing notably that could be held; watch it."
            : $"{name}, reported {ago}: {rose}. {until} work at its speed or faster is held to {rule.Share * 100:0.#} % of its load on {string.Join(", ", regions.Select(words.InSentence))}.";
    }

    /// <summary>Lines that hang on no complaint.</summary>
    public static IEnumerable<string> Of(Situation situation)
    {
        var athlete = situation.Request.Athlete!;
        var youth = situation.Knowledge.Pain.Youth;
        if (athlete.GrowthSpurt == true)
        {
            yield return youth.SpurtNote;
        }

        if (situation.Young && athlete.Supervised == false)
        {
            yield return youth.UnsupervisedNote;
        }

        foreach (var restriction in situation.Restrictions)
        {
            yield return $"{restriction.Region.Label}, {SideWords(restriction.Side)}: a clinician's restriction holds beside the rules, the stricter of both. {Review(restriction.ReviewInDays)}";
        }

        foreach (var clearance in situation.Clearances.Where(c => !c.Lapsed))
        {
            var frame = situation.Restrictions.Count == 0
                ? " The clearance came without written limits: ask for them; only easy, slow work is offered." : "";
            yield return $"{clearance.Rule.Note} No dose is set here: the clinician doses.{frame}";
        }

        if (situation.Layoff is { } layoff)
        {
            yield return layoff.Note + (layoff.NoFailure ? " No set goes to failure until then." : "");
        }

        if (situation.LayoffBits is var holds and not 0)
        {
            // The last in force is the strictest; the refusals tell each.
            yield return situation.Knowledge.Returning.LayoffHolds![BitOperations.Log2(holds)].Note;
        }
    }

    private static string Review(int? days) => days switch
    {
        null => "No review is known: ask when it is.",
        < 0 => $"Its review is overdue by {Days(-days.Value)}: it is kept until the clinician has looked.",
        0 => "Its review is today.",
        _ => $"Its review is in {Days(days.Value)}.",
    };

    private static string Days(int days) => days == 1 ? "1 day" : $"{days} days";

    private static string SideWords(Side side) => side switch
    {
        Side.Left => "left",
        Side.Right => "right",
        _ => "both sides",
    };

    private static string Lower(string sentence) => char.ToLowerInvariant(sentence[0]) + sentence[1..];
}
