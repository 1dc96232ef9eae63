using Recommender.Pages.Answers;

namespace Recommender.Pages.Tests.Answers;

public sealed class SwapTests
{
    [Fact]
    public void A_swap_comes_back_from_its_address() =>
        Assert.Equal(new Swap(2, "01976f2e-4c5a-7d31-9b1e-3f0a5c2d8e47", "goblet-squat"), Swap.Of(new Swap(2, "01976f2e-4c5a-7d31-9b1e-3f0a5c2d8e47", "goblet-squat").Query["swap=".Length..]));

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("2")]
    [InlineData("two:id:exercise")]
    [InlineData("2:id")]
    [InlineData("-2:id:exercise")]
    [InlineData("2:id:exercise:more")]
    public void What_is_none_is_left_out(string? text) => Assert.Null(Swap.Of(text));
}
