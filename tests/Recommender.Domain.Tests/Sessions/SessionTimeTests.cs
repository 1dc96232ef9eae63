using Recommender.Domain.Knowledge;
using Recommender.Domain.Sessions;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Sessions;

public sealed class SessionTimeTests
{
    /// <summary>
    /// The computed whole-session example (rests by Sheppard and Triplett 2016, chapter 17): ten minutes of warm-up, power 4 x 3 at 1.5 s, strength 5 x 3 at 3 s, assistance 3 x 8,
    /// trunk 3 x 10 at 3 s, rests 180, 180, 90 and 60 s, three changes of 60 s: 42.75 minutes. Warm-up and change are example inputs; our change is the rules'.
    /// </summary>
    [Fact]
    public void A_whole_session_takes_what_the_example_says()
    {
        static decimal Of(int sets, decimal reps, decimal seconds, int rest) => SessionTime.Minutes(ExerciseBuilder.Named().But(e => e with { SecondsPerRepetition = seconds }).Build(), sets, reps, rest);
        var work = Of(4, 3, 1.5m, 180) + Of(5, 3, 3, 180) + Of(3, 8, 3, 90) + Of(3, 10, 3, 60);
        var whole = 10 + work + (3 * TestEdition.Knowledge.Session.ChangeOverSeconds.Value / 60);
        Assert.InRange(whole, 42.75m, 42.75m + (4 * 0.1m)); // each exercise is rounded up to a tenth
    }

    /// <summary>Worked by hand: 3 x 30 s with 60 s rest and 3 x 20 s with 45 s rest, 15 s between: 30, 15, 20, then the rest of the first is over at 90, and so on.</summary>
    [Fact]
    public void Two_in_turn_rest_while_the_other_works()
    {
        var (a, b) = (new Supersets.Work(3, 30, 60), new Supersets.Work(3, 20, 45));
        // A 0-30, B 45-65, A 90-120, B 135-155, A 180-210, B 225-245.
        Assert.Equal(245, Supersets.InTurn(a, b, 15));
        Assert.Equal(210, a.Straight);
        Assert.Equal(150, b.Straight);
    }

    [Fact]
    public void A_longer_set_of_the_other_holds_the_next_up_and_rest_is_never_cut()
    {
        // A 0-10, B 25-125, A 140-150 (rested long since), B waits for its own rest of 60 till 185.
        Assert.Equal(285, Supersets.InTurn(new Supersets.Work(2, 10, 30), new Supersets.Work(2, 100, 60), 15));
    }

    [Fact]
    public void Left_over_sets_are_done_with_their_own_rest() =>
        // A 0-10, B 25-35, A 50-60 (rest 30 over at 40), A 90-100, A 130-140.
        Assert.Equal(140, Supersets.InTurn(new Supersets.Work(4, 10, 30), new Supersets.Work(1, 10, 30), 15));
}
