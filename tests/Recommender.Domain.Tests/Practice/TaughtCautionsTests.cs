using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Practice;

/// <summary>A competence that looks forgotten is asked for, and nothing is let in for it. Common practice, no source.</summary>
public sealed class TaughtCautionsTests
{
    [Fact]
    public void Weightlifting_without_barbell_lifts_is_asked_about_and_lets_no_barbell_lift_in()
    {
        var answer = Stages.Answer(Sprinter(["olympic-lift-derivatives", "landing-technique"], null));
        Assert.Single(answer.Cautions, c => c.Contains("not barbell lifts", StringComparison.Ordinal));
        Assert.All(answer.Picks, p => Assert.DoesNotContain("barbell-lifts", TestEdition.Exercise(p.Exercise.Id).Competences));
    }

    [Fact]
    public void A_tested_lift_that_is_left_out_is_asked_about()
    {
        var answer = Stages.Answer(Sprinter([], new() { ["back-squat"] = 140 }));
        Assert.Single(answer.Cautions, c => c.Contains("Back squat", StringComparison.Ordinal) && c.Contains("barbell lifts", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("barbell-lifts,olympic-lift-derivatives")]
    [InlineData("landing-technique,reactive-jumps")]
    [InlineData("barbell-lifts")]
    [InlineData("")]
    public void What_agrees_with_itself_is_not_asked_about(string taught)
    {
        var competence = taught.Split(',', StringSplitOptions.RemoveEmptyEntries);
        var answer = Stages.Answer(Sprinter(competence, competence.Contains("barbell-lifts") ? new() { ["back-squat"] = 140 } : null));
        Assert.DoesNotContain(answer.Cautions, c => c.Contains("competences", StringComparison.Ordinal));
    }

    private static RecommendationRequest Sprinter(IReadOnlyList<string> competence, Dictionary<string, decimal>? maxima) => new()
    {
        Athlete = new AthleteFacts { Event = "100m", AgeYears = 24, TrainingAgeYears = 6, Competence = competence, OneRepMaxKg = maxima },
        Phase = "specific-preparation",
        Setting = new SettingFacts { Place = "full-gym" },
        Count = 20,
    };
}
