using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Dosing;

public sealed class DoseRowTests
{
    internal static DoseRow Row(int sets = 3, decimal amount = 5, int rest = 60, int minSets = 1) => new("row", ["strength"], [DoseUnit.Reps], null, null, null, null, null,
        [sets, sets, sets, sets, sets, sets], minSets, [amount, amount, amount, amount, amount, amount], new DoseRowIntensity("bodyweight"), rest, null, [1, 2, 3, 2, 2, 1],
        "Go on.", "Stop.", Basis.CommonPractice);

    /// <summary>
    /// Worked examples of session time: seconds = sets x repetitions x seconds a repetition + (sets - 1) x rest. The rests and repetition times are chosen inside the
    /// ranges of the sources; the minutes are computed. Rests by goal: Sheppard JM, Triplett NT, in Haff GG, Triplett NT (eds), Essentials of Strength Training and
    /// Conditioning, 4th ed., 2016, ch. 17. Six-second repetitions: Kongsgaard M et al., Scand J Med Sci Sports 2009;19:790-802. Ten times the work as rest for
    /// jumps: Chu DA, Jumping into Plyometrics, 2nd ed., 1998, pp. 29-31. Rows that were only recalled are left out.
    /// </summary>
    [Theory]
    [InlineData(5, 3, 3, 180, 12.75)]   // strength
    [InlineData(4, 3, 1.5, 180, 9.30)]  // power
    [InlineData(4, 10, 4, 90, 7.17)]    // muscle
    [InlineData(3, 15, 3, 30, 3.25)]    // endurance
    [InlineData(4, 8, 6, 150, 10.70)]   // heavy and slow
    [InlineData(5, 1, 10, 100, 7.50)]   // jumps, ten contacts in ten seconds
    public void Minutes_agree_with_the_worked_examples_of_session_time(int sets, decimal amount, decimal secondsEach, int rest, decimal minutes)
    {
        var exercise = ExerciseBuilder.Named().But(e => e with { SecondsPerRepetition = secondsEach }).Build();
        // Ours are whole tenths, rounded up, so that what is said to fit does fit; the examples are printed to the hundredth.
        var ours = SessionTime.Minutes(exercise, sets, amount, rest);
        Assert.InRange(ours, minutes - 0.005m, minutes + 0.1m);
        Assert.Equal(decimal.Round(ours, 1), ours);
    }

    [Fact]
    public void Set_up_comes_on_top_and_each_side_takes_its_time()
    {
        var exercise = ExerciseBuilder.Named().But(e => e with { SecondsPerRepetition = 3, SetUpMinutes = 2.5m, PerSide = true }).Build();
        Assert.Equal(2.5m + 0.5m, SessionTime.Minutes(exercise, 1, 5, 60));
        Assert.Equal(2.5m + 2m, SessionTime.Minutes(exercise, 2, 5, 60));
    }
}
