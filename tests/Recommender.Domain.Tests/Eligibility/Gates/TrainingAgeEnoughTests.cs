using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class TrainingAgeEnoughTests
{
    private static readonly Exercise Expert = ExerciseBuilder.Named().But(e => e with { Complexity = 4 });

    [Fact]
    public void Refuses_an_expert_lift_to_a_novice() => Verify(RequestBuilder.For().Trained(2.9m)).Refuses(3m, 2.9m, "training age were at least 3 years");

    [Fact]
    public void Passes_at_the_years_asked() => Verify(RequestBuilder.For().Trained(3)).Passes();

    [Fact]
    public void An_athlete_without_a_training_age_is_taken_for_a_novice() => Verify(RequestBuilder.For()).Refuses(3m, TestEdition.Knowledge.Defaults.TrainingAgeYears, "3 years");

    [Fact]
    public void Asks_the_years_of_its_own_complexity() => Verify(RequestBuilder.For().Trained(1), ExerciseBuilder.Named().But(e => e with { Complexity = 3 })).Passes();

    private static GateVerifier Verify(RequestBuilder request, Exercise? exercise = null) =>
        GateVerifier.Of<TrainingAgeEnough>().Under(Rules).Given(request).AskedAbout(exercise ?? Expert);

    private static KnowledgeBase Rules => TestEdition.Knowledge.With(competence: TestEdition.Knowledge.Competence with
    {
        TrainingAgeByComplexity = [.. new[] { 0m, 0m, 1m, 3m }.Select((years, i) => new ComplexityStep(i + 1, years, Basis.CommonPractice))],
    });
}
