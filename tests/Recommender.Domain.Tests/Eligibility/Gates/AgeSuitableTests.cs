using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class AgeSuitableTests
{
    private static readonly AgeRule Heavy = new("heavy", 14, null, new ExerciseMatch(LoadBands: [LoadBand.Heavy]), UnlessTrainingAgeYears: 2, "heavy loads wait.", Basis.CommonPractice);
    private static readonly Exercise HeavyLift = ExerciseBuilder.Named().At(LoadBand.Heavy);

    [Fact]
    public void Refuses_a_heavy_lift_to_a_child() =>
        Verify(13, trained: 1).AskedAbout(HeavyLift).Refuses(14, 13, "the athlete were 14, or had trained for 2 years: heavy loads wait.");

    [Fact]
    public void Lets_a_light_lift_pass() => Verify(13, trained: 1).AskedAbout(ExerciseBuilder.Named().At(LoadBand.Light)).Passes();

    [Fact]
    public void Passes_on_the_birthday() => Verify(14, trained: 1).AskedAbout(HeavyLift).HasNothingToAsk();

    [Fact]
    public void Training_age_makes_up_for_age() => Verify(13, trained: 2).AskedAbout(HeavyLift).Passes();

    [Fact]
    public void Nothing_makes_up_for_age_where_the_rule_says_so() =>
        Verify(13, trained: 5, Heavy with { UnlessTrainingAgeYears = null }).AskedAbout(HeavyLift).Refuses(14, 13, "the athlete were 14: heavy");

    [Fact]
    public void An_athlete_without_an_age_is_taken_for_an_adult() =>
        GateVerifier.Of<AgeSuitable>().Under(Rules(Heavy)).Given(RequestBuilder.For().Trained(0)).AskedAbout(HeavyLift).HasNothingToAsk();

    [Fact]
    public void A_rule_for_the_older_refuses_from_its_age_on()
    {
        var masters = Heavy with { BelowAge = null, FromAge = 50 };
        Verify(50, trained: 1, masters).AskedAbout(HeavyLift).Refuses(50, 50, "the athlete were under 50, or had trained for 2 years: heavy");
        Verify(49, trained: 1, masters).AskedAbout(HeavyLift).HasNothingToAsk();
        Verify(70, trained: 20, masters).AskedAbout(HeavyLift).Passes();
    }

    private static GateVerifier Verify(int age, decimal trained, AgeRule? rule = null) =>
        GateVerifier.Of<AgeSuitable>().Under(Rules(rule ?? Heavy)).Given(RequestBuilder.For().Aged(age, trained));

    private static KnowledgeBase Rules(AgeRule rule) => TestEdition.Knowledge.With(competence: TestEdition.Knowledge.Competence with { Ages = [rule] });
}
