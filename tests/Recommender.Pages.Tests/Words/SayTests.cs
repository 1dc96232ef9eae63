using Recommender.Domain.Dosing;
using Recommender.Domain.Scoring;
using Recommender.Pages.Words;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Words;

public sealed class SayTests
{
    [Theory]
    [InlineData(1500, "+1.5")]
    [InlineData(-333, "−0.333")]
    [InlineData(0, "0")]
    public void Points_have_a_sign(int thousandths, string said) => Assert.Equal(said, Say.Signed(new Points(thousandths)));

    [Theory]
    [InlineData("percent-1rm", 75, 80, "75 to 80 % of the best single lift")]
    [InlineData("percent-1rm", 60, 60, "60 % of the best single lift")]
    [InlineData("reps-in-reserve", 2, 3, "2 to 3 repetitions left in reserve")]
    public void Intensity_is_a_phrase(string kind, int low, int high, string said) => Assert.Equal(said, Say.Intensity(new Intensity(kind, low, high)));

    [Fact]
    public void Every_intensity_kind_has_its_phrase() =>
        Assert.All(TestEdition.Vocabulary.IntensityKinds, k => Assert.NotEqual(k.Id, Say.Intensity(new Intensity(k.Id, 1, 2))));

    [Fact]
    public void Ids_in_a_sentence_are_said_by_name() =>
        Assert.Equal("the first is Banded goblet squat; there were also: medicine ball at: club gym, well-known", Say.Named("the first is banded-goblet-squat; there were also: medicine-ball at: club-gym, well-known", TestEdition.Current.Catalogue));
}
