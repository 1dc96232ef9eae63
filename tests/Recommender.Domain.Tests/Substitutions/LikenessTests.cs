using CsCheck;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;
using Recommender.Domain.Substitutions;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Substitutions;

public sealed class LikenessTests
{
    private static readonly ExerciseCatalogue Catalogue = TestEdition.Current.Catalogue;

    [Fact]
    public void An_exercise_is_wholly_like_itself() =>
        RequestGenerator.Unflagged.Sample(request =>
        {
            var likeness = Of(request);
            Assert.All(Catalogue.Traits, t => Assert.Equal((1000, 1000), (likeness.Of(t, t), likeness.Kept(t, t))));
        }, iter: 20);

    [Fact]
    public void Likeness_is_between_nothing_and_all_and_ignores_setting_and_calendar() =>
        RequestGenerator.Unflagged.Sample(request =>
        {
            // The same needs elsewhere, with other equipment, in another week: the same likeness.
            var here = Of(request);
            var there = Of(request with { Setting = new SettingFacts { Place = "hotel", Equipment = [], Minutes = 3, Slot = "travel-day" }, WeeksToCompetition = 1, Competitions = null, Training = null, WeekKind = "unload", Recent = null, Exclude = null });
            for (var e = 0; e < Catalogue.Count; e += 7)
            {
                for (var other = 0; other < Catalogue.Count; other += 11)
                {
                    var value = here.Of(Catalogue.Traits[e], Catalogue.Traits[other]);
                    Assert.InRange(value, 0, 1000);
                    Assert.Equal(value, there.Of(Catalogue.Traits[e], Catalogue.Traits[other]));
                }
            }
        }, iter: 20);

    [Fact]
    public void It_is_symmetric_where_both_are_worth_as_much()
    {
        var likeness = Of(RequestBuilder.For());
        var pairs = 0;
        for (var a = 0; a < Catalogue.Count; a++)
        {
            for (var b = a + 1; b < Catalogue.Count; b++)
            {
                var (x, y) = (Catalogue.Traits[a], Catalogue.Traits[b]);
                if (likeness.Kept(x, y) == likeness.Kept(y, x))
                {
                    pairs++;
                    Assert.Equal(likeness.Of(x, y), likeness.Of(y, x));
                }
            }
        }

        Assert.True(pairs > 500, $"{pairs} pairs.");
    }

    [Fact]
    public void A_variant_is_more_alike_than_a_stranger_all_else_equal()
    {
        var likeness = Of(RequestBuilder.For());
        Assert.All(Catalogue.Traits, x => Assert.True(likeness.Of(x, x with { Id = "variant" }) > likeness.Of(x, x with { Id = "stranger", Family = "another", Neighbours = [] })));
    }

    [Fact]
    public void More_of_the_purpose_is_never_less_alike() =>
        Gen.Select(Gen.Int[0, Catalogue.Count - 1], Gen.Int[0, Catalogue.Count - 1], Gen.Int[0, TestEdition.Vocabulary.Qualities.Count - 1]).Sample((a, b, quality) =>
        {
            var likeness = Of(RequestBuilder.For());
            var (x, y) = (Catalogue.Traits[a], Catalogue.Traits[b]);
            if (y.Ratings[quality] < x.Ratings[quality])
            {
                var closer = y with { Ratings = [.. y.Ratings.Select((r, q) => q == quality ? r + 1 : r)] };
                Assert.True(likeness.Of(x, closer) >= likeness.Of(x, y), $"{x.Id}, {y.Id}, {quality}");
            }
        }, iter: 500);

    private static Likeness Of(RecommendationRequest request) =>
        new(TestEdition.Knowledge.Substitution, TestEdition.Knowledge.Scoring.NeedMatch.FitByRating, Stages.Of(request).Profile, TestEdition.Vocabulary);
}
