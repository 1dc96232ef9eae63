using Recommender.Domain.Catalogue;
using Recommender.Domain.Needs;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Needs;

public sealed class NeedTableTests
{
    private static Vocabulary Words => TestEdition.Vocabulary;

    [Fact]
    public void The_purpose_is_what_brings_most_points() =>
        // 0.7 at rating 1 fits less than 0.3 at rating 3.
        Assert.Equal("grip", PurposeOf([("max-strength", 7000), ("grip", 3000)], ("max-strength", 1), ("grip", 3)));

    [Fact]
    public void Where_nothing_is_needed_it_is_the_highest_rated() => Assert.Equal("muscle-mass", PurposeOf([("grip", 10_000)], ("max-strength", 1), ("muscle-mass", 2)));

    [Fact]
    public void Equal_points_fall_to_the_higher_rating_then_to_the_order_of_the_vocabulary() => Assert.Equal("max-strength", PurposeOf([("grip", 10_000)], ("upper-pull", 2), ("max-strength", 2)));

    [Fact]
    public void Points_are_weight_by_fit_by_maximum()
    {
        var rule = TestEdition.Knowledge.Scoring.NeedMatch with { MaxPoints = 100, FitByRating = [0, 0.25m, 0.65m, 1] };
        var at = Words.Qualities.IndexOf("grip");
        var table = new NeedTable(new NeedProfile([new Need("grip", at, 3333, [])], []), rule, Words.Qualities.Count);
        Assert.Equal([0, 8333, 21665, 33330], Enumerable.Range(0, 4).Select(rating => table.At(at, rating)));
    }

    private static string PurposeOf((string Quality, int Units)[] needs, params (string Quality, int Rating)[] ratings)
    {
        var rule = TestEdition.Knowledge.Scoring.NeedMatch with { FitByRating = [0, 0.25m, 0.65m, 1] };
        var table = new NeedTable(new NeedProfile([.. needs.Select(n => new Need(n.Quality, Words.Qualities.IndexOf(n.Quality), n.Units, []))], []), rule, Words.Qualities.Count);
        var builder = ExerciseBuilder.Named();
        foreach (var (quality, rating) in ratings)
        {
            builder.Rated(quality, rating);
        }

        return Words.Qualities[table.PurposeOf(new ExerciseCatalogue([builder], Words), 0)].Id;
    }
}
