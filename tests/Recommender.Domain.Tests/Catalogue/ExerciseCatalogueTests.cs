using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Catalogue;

public sealed class ExerciseCatalogueTests
{
    [Fact]
    public void Stands_in_the_order_of_ids_whatever_order_it_was_given()
    {
        var catalogue = Of(ExerciseBuilder.Named("b"), ExerciseBuilder.Named("C"), ExerciseBuilder.Named("a"));
        Assert.Equal(["C", "a", "b"], catalogue.Exercises.Select(e => e.Id));
        Assert.Equal((1, -1), (catalogue.PositionOf("a"), catalogue.PositionOf("nothing")));
        Assert.Equal("a", catalogue.Find("a")!.Id);
        Assert.Null(catalogue.Find("nothing"));
    }

    [Fact]
    public void Columns_say_what_the_records_say()
    {
        var catalogue = TestEdition.Current.Catalogue;
        var words = catalogue.Vocabulary;
        for (var i = 0; i < catalogue.Count; i++)
        {
            var e = catalogue.Exercises[i];
            Assert.Equal((e.Pattern, e.Direction), (words.Patterns[catalogue.Patterns[i]].Id, words.Directions[catalogue.Directions[i]].Id));
            Assert.Equal((e.Support, e.LoadingRate, e.LoadBand), ((Support)catalogue.Supports[i], (LoadingRate)catalogue.Rates[i], (LoadBand)catalogue.Bands[i]));
            Assert.Equal((e.Complexity, e.SorenessRisk, e.SetUpMinutes), (catalogue.Complexities[i], catalogue.SorenessRisks[i], catalogue.SetUpTenths[i] / 10m));
            Assert.Equal(e.Qualities.ToDictionary(q => q.Key, q => q.Value.Value), catalogue.RatingsOf(i).ToArray().ToDictionary(c => words.Qualities[c.Quality].Id, c => c.Rating));
            Assert.Equal(e.Equipment.Count, catalogue.EquipmentStart[i + 1] - catalogue.EquipmentStart[i]);
            Assert.Equal(words.Places.Mask(e.Places), catalogue.PlaceMasks[i]);
            foreach (var (region, load) in e.TissueLoad)
            {
                var at = (i * catalogue.RegionCount) + words.Regions.IndexOf(region);
                Assert.Equal((load.Value, load.High), (catalogue.TissueValue[at] / 100m, catalogue.TissueHigh[at] / 100m));
            }
        }
    }

    [Fact]
    public void One_family_has_one_number()
    {
        var catalogue = Of(ExerciseBuilder.Named("a").OfFamily("x"), ExerciseBuilder.Named("b").OfFamily("y"), ExerciseBuilder.Named("c").OfFamily("x"));
        Assert.Equal([0, 1, 0], catalogue.Families);
    }

    [Fact]
    public void A_region_without_a_load_of_its_own_leans_on_its_neighbour()
    {
        var region = TestEdition.Vocabulary.Regions.First(r => r.LeansOn is not null);
        Exercise borrowed = ExerciseBuilder.Named().Loads(region.LeansOn!, 4, high: 5);
        Assert.Equal((4m, 5m), (ExerciseCatalogue.LoadOn(borrowed, region)!.Value, ExerciseCatalogue.LoadOn(borrowed, region)!.High));
        Assert.Equal(2m, ExerciseCatalogue.LoadOn(ExerciseBuilder.Named().Loads(region.LeansOn!, 4).Loads(region.Id, 2), region)!.Value);
        Assert.Null(ExerciseCatalogue.LoadOn(ExerciseBuilder.Named(), region));
        Assert.Equal(500, Of(borrowed).TissueHigh[TestEdition.Vocabulary.Regions.IndexOf(region.Id)]);
    }

    private static ExerciseCatalogue Of(params Exercise[] exercises) => new(exercises, TestEdition.Vocabulary);
}
