using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class FitsMinutesTests
{
    // Two sets of five at three seconds with 120 s between them: 30 + 120 = 150 s = 2.5 min, and 1 min to set up.
    private static readonly DoseRow Row = TestEdition.Knowledge.Dose.Rows[0] with
    {
        Id = "all",
        Goals = [.. TestEdition.Knowledge.Dose.Goals.Values.Distinct()],
        Units = [DoseUnit.Reps],
        Match = null,
        SoreRegions = null,
        EventGroups = null,
        MinAgeYears = null,
        MinTrainingAgeYears = null,
        Sets = [4, 4, 4, 4, 4, 4],
        MinSets = 2,
        Amount = [5, 5, 5, 5, 5, 5],
        RestSeconds = 120,
    };

    private static readonly Exercise Lift = ExerciseBuilder.Named().But(e => e with { SetUpMinutes = 1, SecondsPerRepetition = 3 });

    [Fact]
    public void Asks_nothing_when_minutes_are_not_said() => GateVerifier.Of<FitsMinutes>().AskedAbout(Lift).HasNothingToAsk();

    [Fact]
    public void Passes_when_the_smallest_dose_just_fits() => Verify(3.5m, Row).Passes();

    [Fact]
    public void Refuses_when_even_the_smallest_dose_does_not_fit() => Verify(3.4m, Row).Refuses(3.4m, 3.5m, "there were 3.5 minutes");

    [Fact]
    public void Both_sides_take_their_time() => Verify(3.9m, Row, Lift with { PerSide = true }).Refuses(3.9m, 4.0m, "there were 4 minutes");

    [Fact]
    public void A_phase_with_fewer_sets_than_the_smallest_dose_is_reckoned_with_its_own() => Verify(1.3m, Row with { Sets = [1, 1, 1, 1, 1, 1] }).Passes();

    private static GateVerifier Verify(decimal minutes, DoseRow row, Exercise? exercise = null) =>
        GateVerifier.Of<FitsMinutes>().Under(TestEdition.Knowledge.With(dose: TestEdition.Knowledge.Dose with { Rows = [row] }))
            .Given(RequestBuilder.For().InMinutes(minutes)).AskedAbout(exercise ?? Lift);
}
