using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class EquipmentAtHandTests
{
    private static readonly Exercise BandRow = ExerciseBuilder.Named("band-row").Needing("band");

    [Fact]
    public void Refuses_when_the_only_band_is_missing() => Verify(BandRow, "dumbbells").Refuses("band", "band", "there were also: band");

    [Fact]
    public void Passes_when_the_band_is_there() => Verify(BandRow, "band").Passes();

    [Fact]
    public void Passes_with_nothing_when_nothing_is_needed() => Verify(ExerciseBuilder.Named()).Passes();

    [Fact]
    public void Refuses_a_set_of_which_one_thing_is_missing() =>
        Verify(ExerciseBuilder.Named().Needing("barbell", "rack"), "barbell", "bench").Refuses("barbell, rack", "rack", "there were also: rack");

    [Fact]
    public void One_alternative_is_enough() => Verify(ExerciseBuilder.Named().Needing("barbell", "rack").Needing("kettlebell"), "kettlebell").Passes();

    [Fact]
    public void Tells_the_alternative_that_lacks_least() =>
        Verify(ExerciseBuilder.Named().Needing("barbell", "rack", "bench").Needing("dumbbells", "bench"), "bench").Refuses("bench, dumbbells", "dumbbells", "dumbbells");

    [Fact]
    public void A_pair_of_dumbbells_serves_as_one() => Verify(ExerciseBuilder.Named().Needing("dumbbell"), "dumbbells").Passes();

    [Fact]
    public void One_dumbbell_does_not_serve_as_a_pair() => Verify(ExerciseBuilder.Named().Needing("dumbbells"), "dumbbell").Refuses("dumbbells", "dumbbells", "dumbbells");

    [Fact]
    public void The_usual_of_the_place_stands_in_where_equipment_is_left_out()
    {
        var place = TestEdition.Vocabulary.Places.First(p => p.Equipment.Contains("barbell"));
        GateVerifier.Of<EquipmentAtHand>().Given(RequestBuilder.For().In(place.Id)).AskedAbout(ExerciseBuilder.Named().Needing("barbell")).Passes();
    }

    private static GateVerifier Verify(Exercise exercise, params string[] equipment) => GateVerifier.Of<EquipmentAtHand>().Given(RequestBuilder.For().With(equipment)).AskedAbout(exercise);
}
