using CsCheck;
using Recommender.Domain.Audit;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Audit;

/// <summary>Changes between two recommendations against the stages of both.</summary>
public sealed class PickChangesTests
{
    private static readonly Gen<(RecommendationRequest Before, RecommendationRequest After)> Pairs =
        Gen.Select(One("100m", "800m", "long-jump", "discus", "heptathlon"), One("general-preparation", "pre-competition", "competition"), Gen.Int[0, 6], Gen.Int[-1, 3], Gen.Int[2, 14],
            One("club-gym", "hotel", "full-gym"), One("club-gym", "track", "full-gym")).Select((e, phase, pain, more, weeks, place, next) =>
            (Asked(e, phase, pain, weeks, place), Asked(e, more == 0 ? "taper" : phase, Math.Max(0, pain + more), Math.Max(0, weeks - 2), next)));

    private static Gen<string> One(params string[] of) => Gen.Int[0, of.Length - 1].Select(i => of[i]);

    [Fact]
    public void Each_change_has_a_reason_and_a_gate_that_closed_is_named()
    {
        var (gone, come, dosed, closed) = (0, 0, 0, 0);
        Sampling.Until(() => gone > 50 && come > 50 && dosed > 20 && closed > 20, () => Pairs.Sample(
            pair =>
            {
                var changes = PickChanges.Of(Decided(pair.Before), Decided(pair.After));
                var stages = Stages.Of(pair.After);
                foreach (var change in changes)
                {
                    Assert.True(change.Reasons.Count > 0 || change.Kind == PickChangeKind.Dosed, $"{change.Name}: {change.Kind} without a reason.");
                    var position = TestEdition.Current.Catalogue.PositionOf(change.Exercise);
                    if (change.Kind == PickChangeKind.Gone && EligibilityFilter.Gates.FirstOrDefault(g => g.Asks(stages.GateContext) && g.Refuses(stages.GateContext, position)) is { } gate)
                    {
                        closed++;
                        Assert.StartsWith(TestEdition.Vocabulary.Reasons.Find(gate.Reason)!.Label, change.Reasons[0], StringComparison.Ordinal);
                    }
                }

                gone += changes.Count(c => c.Kind == PickChangeKind.Gone);
                come += changes.Count(c => c.Kind == PickChangeKind.Come);
                dosed += changes.Count(c => c.Kind == PickChangeKind.Dosed);
            },
            iter: 200, threads: 1));
        Assert.True(gone > 50 && come > 50 && dosed > 20 && closed > 20, $"{gone} gone, {come} come, {dosed} dosed, {closed} closed: too few to say anything.");
    }

    [Fact]
    public void The_same_question_again_changes_nothing() => Pairs.Sample(pair => Assert.Empty(PickChanges.Of(Decided(pair.Before), Decided(pair.Before))), iter: 50, threads: 1);

    /// <summary>By the rules of pain: limits fall with pain, so of a jumper's usual picks some are above them before a clinician has to be seen.</summary>
    [Fact]
    public void More_pain_sends_out_what_the_tendon_no_longer_stands()
    {
        var before = Asked("long-jump", "pre-competition", 3, 5, "club-gym");
        var changes = Enumerable.Range(4, 3).SelectMany(pain => PickChanges.Of(Decided(before), Decided(before with { Complaints = [before.Complaints![0] with { Pain = pain }] })));
        Assert.Contains(changes, c => c.Kind == PickChangeKind.Gone && c.Reasons.Any(r => r.StartsWith("Tissue load too high", StringComparison.Ordinal)));
    }

    private static RecommendationRequest Asked(string athleteEvent, string phase, int pain, int weeks, string place) => new()
    {
        Athlete = new AthleteFacts { Event = athleteEvent, EventGroup = TestEdition.Vocabulary.Events.Find(athleteEvent)!.EventGroup, TrainingAgeYears = 5 },
        Phase = phase,
        WeeksToCompetition = weeks,
        Setting = new SettingFacts { Place = place },
        Complaints = [new Complaint { Region = "patellar-tendon", Side = "left", Pain = pain, NextMorning = "settled" }],
    };

    private static Decided Decided(RecommendationRequest request) => new(request, Stages.Answer(request), TestEdition.Current);
}
