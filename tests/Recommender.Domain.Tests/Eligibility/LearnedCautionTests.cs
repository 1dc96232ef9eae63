using CsCheck;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility;

/// <summary>Pain after work lowers limits by rule. What the rules say here is common practice, no source; the numbers are those of data/rules/outcomes.json.</summary>
public sealed class LearnedCautionTests
{
    private static CautionRule Rule => TestEdition.Knowledge.Outcomes!.Caution;

    [Theory]
    [InlineData(0, 2, null, true)]
    [InlineData(0, 1, null, false)]
    [InlineData(3, 4, null, false)]
    [InlineData(3, 5, null, true)]
    [InlineData(3, 3, 4, true)]
    [InlineData(3, 3, 3, false)]
    [InlineData(0, null, 1, true)]
    [InlineData(0, null, null, false)]
    public void A_rise_of_two_or_a_worse_morning_counts(int before, int? during, int? nextMorning, bool rose) => Assert.Equal(rose, LearnedCaution.Rose(before, during, nextMorning, Rule));

    [Fact]
    public void What_hurt_is_held_at_its_speed_and_faster_until_the_rules_let_go()
    {
        var jump = TestEdition.Exercise("depth-jump");
        var free = Stages.Answer(RequestBuilder.Skilled());
        Assert.Empty(free.Limits);

        var held = Stages.Answer(Reading(RequestBuilder.Skilled(), Hurt("depth-jump", Rule.Days)));

        var load = jump.TissueLoad["patellar-tendon"].High;
        Assert.Equal([LoadingRate.Impact], held.Limits.Where(l => l.Region == "patellar-tendon").Select(l => l.LoadingRate));
        Assert.Equal(decimal.Round(load * 0.8m, 2, MidpointRounding.ToZero), held.Limits.Single(l => l.Region == "patellar-tendon").MaxTissueLoad);
        Assert.DoesNotContain("depth-jump", Open(Reading(RequestBuilder.Skilled(), Hurt("depth-jump", 0))));
        Assert.Contains("depth-jump", Open(Reading(RequestBuilder.Skilled(), Hurt("depth-jump", Rule.Days + 1))));
        Assert.Contains(held.Cautions, c => c.StartsWith("Depth jump, reported 14 days ago: pain rose from 0 to 3 during the work. Today still work", StringComparison.Ordinal));
    }

    [Fact]
    public void Slow_work_that_hurt_holds_faster_work_too_and_leaves_holds()
    {
        var rates = Stages.Answer(Reading(RequestBuilder.Skilled(), Hurt("front-squat", 2))).Limits.Where(l => l.Region == "patellar-tendon").Select(l => l.LoadingRate);

        Assert.Equal([LoadingRate.Slow, LoadingRate.Fast, LoadingRate.Impact], rates);
    }

    [Fact]
    public void It_never_raises_a_limit_and_never_makes_anything_eligible() =>
        Gen.Select(RequestGenerator.Requests, Gen.Int[0, TestEdition.Current.Catalogue.Count - 1], Gen.Int[0, 14]).Sample((request, which, days) =>
        {
            var (before, after) = (Stages.Of(request), Stages.Of(Reading(request, Hurt(TestEdition.Current.Catalogue.Exercises[which].Id, days))));
            foreach (var limit in before.Limits.Limits)
            {
                Assert.True(after.Limits.Limits.Single(l => (l.Region, l.Side, l.LoadingRate) == (limit.Region, limit.Side, limit.LoadingRate)).MaxTissueLoad <= limit.MaxTissueLoad);
            }

            Assert.Empty(after.EligibleIds().Except(before.EligibleIds()));
        }, iter: 500);

    [Fact]
    public void Rules_without_learning_hold_nothing()
    {
        var k = TestEdition.Knowledge;
        var earlier = TestEdition.Under(new KnowledgeBase(k.Sources, k.EventGroups, k.Needs, k.Pain, k.Peaking, k.Week, k.Competence, k.Scoring, k.Dose, k.Defaults, k.Tests, k.Provocation, k.Programmes, k.Returning,
            k.Substitution, k.Ledger, k.Session, k.Audit, k.Questions, k.Planning, outcomes: null));

        Assert.Empty(Stages.Answer(Reading(RequestBuilder.Skilled(), Hurt("depth-jump", 0)), earlier).Limits);
    }

    private static RecommendationRequest Reading(RecommendationRequest request, params LearnedCaution[] cautions) => request with { Read = new FactsRead(null, cautions) };

    private static LearnedCaution Hurt(string id, int daysAgo)
    {
        var exercise = TestEdition.Exercise(id);
        return new LearnedCaution(id, daysAgo, 0, 3, null, exercise.LoadingRate, exercise.TissueLoad.ToDictionary(l => l.Key, l => l.Value.High, StringComparer.Ordinal));
    }

    private static IEnumerable<string> Open(RecommendationRequest request) => Stages.Of(request).EligibleIds();
}
