using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class CompetencePresentTests
{
    private static readonly Exercise Lift = ExerciseBuilder.Named().Asking("barbell-lifts", "overhead-work");

    [Fact]
    public void Refuses_when_one_of_two_is_missing() =>
        Verify(RequestBuilder.For().Knowing("barbell-lifts")).Refuses("overhead-work", null, "had been taught: overhead-work");

    [Fact]
    public void Names_all_that_is_missing() => Verify(RequestBuilder.For().Knowing()).Refuses("barbell-lifts, overhead-work", null, "barbell-lifts, overhead-work");

    [Fact]
    public void Passes_with_all_of_them() => Verify(RequestBuilder.For().Knowing("overhead-work", "barbell-lifts", "reactive-jumps")).Passes();

    [Fact]
    public void Training_age_stands_in_where_competence_is_left_out()
    {
        var years = TestEdition.Knowledge.Competence.ByTrainingAge.First(s => s.Competences.Contains("overhead-work") && s.Competences.Contains("barbell-lifts")).FromYears;
        Verify(RequestBuilder.For().Trained(years)).Passes();
        Verify(RequestBuilder.For().Trained(years - 0.1m)).Refuses("overhead-work", null, "overhead-work");
    }

    [Fact]
    public void An_empty_list_means_none_however_long_the_training() => Verify(RequestBuilder.For().Trained(10).Knowing()).Refuses("barbell-lifts, overhead-work", null, "taught");

    private static GateVerifier Verify(RequestBuilder request) => GateVerifier.Of<CompetencePresent>().Given(request).AskedAbout(Lift);
}
