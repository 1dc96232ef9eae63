using CsCheck;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Practice;

/// <summary>A dose says one thing: intent, tempo, contraction and time agree. Common practice, no source.</summary>
public sealed class WordsOfDosesTests
{
    private static readonly string[] Quick = ["drive up", "as fast as", "quick off"];

    [Fact]
    public void A_hold_is_not_told_to_move_and_a_slow_tempo_not_to_be_fast() =>
        RequestGenerator.Requests.Sample(request =>
        {
            foreach (var pick in Stages.Answer(request).Picks)
            {
                foreach (var dose in Doses(pick.Dose))
                {
                    var exercise = TestEdition.Exercise(pick.Exercise.Id);
                    var slow = exercise.Contraction == "isometric" || (dose.Tempo is { } tempo && int.Parse(tempo.Split('-')[2], System.Globalization.CultureInfo.InvariantCulture) >= 2);
                    Assert.False(slow && Array.Exists(Quick, w => dose.Intent.Contains(w, StringComparison.Ordinal)), $"{exercise.Id}, tempo {dose.Tempo}: {dose.Intent}");
                }
            }
        }, iter: 300);

    /// <summary>Minutes are set-up, work and rest of these sets and this amount, and warm-up sets; reckoned again from what the dose says, and never more than there are.</summary>
    [Fact]
    public void The_minutes_told_are_those_of_the_sets_and_amount_told_and_fit() =>
        RequestGenerator.Requests.Sample(request =>
        {
            foreach (var pick in Stages.Answer(request).Picks)
            {
                foreach (var dose in Doses(pick.Dose))
                {
                    var exercise = TestEdition.Exercise(pick.Exercise.Id);
                    var (work, rest) = SessionTime.Seconds(exercise, dose.Sets, dose.Amount, dose.RestSeconds);
                    Assert.True(dose.Minutes * 60 >= work + rest - 3, $"{exercise.Id}: {dose.Minutes} min for {dose.Sets} x {dose.Amount}, {work} s of work and {rest} s of rest");
                    Assert.False(dose.Minutes > request.Setting!.Minutes, $"{exercise.Id} needs {dose.Minutes} of {request.Setting.Minutes} min.");
                }
            }
        }, iter: 600);

    private static IEnumerable<Dose> Doses(Dose? dose) => dose is null ? [] : dose.Sides is { } sides ? [dose, sides.Left, sides.Right] : [dose];
}
