using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class MassCostTests
{
    // 3 points at mass cost 1 and rating 3; a marathon costs 0.8.
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge
        .WithProfile("marathon", p => p with { MassCost = 0.8m })
        .WithProfile("shot-put-glide", p => p with { MassCost = 0 })
        .With(scoring: TestEdition.Knowledge.Scoring with { MassCost = TestEdition.Knowledge.Scoring.MassCost with { MaxPoints = 3, FromAge = 18, UpperBodyOnlyPatterns = ["upper-push"] } });

    private static readonly Exercise Press = ExerciseBuilder.Named().OfPattern("upper-push").Rated("upper-push", 3).Rated("muscle-mass", 2);

    [Fact]
    public void Upper_body_mass_costs_a_runner_a_little() => Verify("marathon", 25, Press).Gives(-1.6m, ("upper-body-mass", -1.6m));

    [Fact]
    public void It_costs_a_thrower_nothing() => Verify("shot-put-glide", 25, Press).Gives(0);

    [Fact]
    public void It_is_not_mentioned_to_the_young() => Verify("marathon", 17, Press).Gives(0);

    [Fact]
    public void It_holds_from_the_birthday_on() => Verify("marathon", 18, Press).Gives(-1.6m, ("upper-body-mass", -1.6m));

    [Fact]
    public void Leg_work_costs_nothing() => Verify("marathon", 25, ExerciseBuilder.Named().OfPattern("squat").Rated("muscle-mass", 3)).Gives(0);

    [Fact]
    public void Work_that_adds_no_mass_costs_nothing() => Verify("marathon", 25, ExerciseBuilder.Named().OfPattern("upper-push").Rated("upper-push", 3)).Gives(0);

    [Theory]
    [InlineData(12, true, 0)]
    [InlineData(13, true, -1.6)]
    [InlineData(3, false, -1.6)]
    public void After_an_operation_muscle_is_won_back_first(int monthsAgo, bool surgery, double points)
    {
        var request = Marathon.Athlete(a => a with { History = [new EarlierInjury { Region = "shoulder", MonthsAgo = monthsAgo, Surgery = surgery }] });
        var verify = FactorVerifier.Of<MassCost>().Under(Rules).Given(request).AskedAbout(Press);
        if (points == 0)
        {
            verify.Gives(0);
        }
        else
        {
            verify.Gives((decimal)points, ("upper-body-mass", (decimal)points));
        }
    }

    [Fact]
    public void After_weeks_off_it_is_not_mentioned() =>
        FactorVerifier.Of<MassCost>().Under(Rules).Given(Marathon.Athlete(a => a with { Layoff = new LayoffFacts { Weeks = 4 } })).AskedAbout(Press).Gives(0);

    [Theory]
    [InlineData("low-energy-signs")]
    [InlineData("missed-periods")]
    public void With_signs_of_too_little_energy_it_is_not_mentioned(string flag) =>
        FactorVerifier.Of<MassCost>().Under(Rules).Given(Marathon.Flagged(flag)).AskedAbout(Press).Gives(0);

    private static RequestBuilder Marathon => RequestBuilder.For("distance").Doing("marathon").Aged(25);

    private static FactorVerifier Verify(string eventId, int age, Exercise exercise) =>
        FactorVerifier.Of<MassCost>().Under(Rules).Given(RequestBuilder.For(TestEdition.Vocabulary.Events.Find(eventId)!.EventGroup).Doing(eventId).Aged(age)).AskedAbout(exercise);
}
