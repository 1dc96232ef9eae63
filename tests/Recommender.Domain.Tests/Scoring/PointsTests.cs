using Recommender.Domain.Scoring;

namespace Recommender.Domain.Tests.Scoring;

public sealed class PointsTests
{
    [Theory]
    [InlineData(1.0004, 1000)]
    [InlineData(1.0005, 1001)]
    [InlineData(-1.0005, -1001)]
    [InlineData(-0.0004, 0)]
    public void Are_whole_thousandths_halves_away_from_zero(decimal points, int thousandths) => Assert.Equal(thousandths, Points.Of(points).Thousandths);

    [Fact]
    public void Add_subtract_and_compare_as_numbers_do()
    {
        Points a = new(1500), b = new(-250);
        Assert.Equal(new Points(1250), a + b);
        Assert.Equal(new Points(1750), a - b);
        Assert.Equal(a + b, Points.Add(a, b));
        Assert.Equal(a - b, Points.Subtract(a, b));
        Assert.True(b < a && a > b && a >= new Points(1500) && b <= new Points(-250) && a.CompareTo(b) > 0);
        Assert.False(a < b || b > a || b >= a || a <= b);
    }

    [Theory]
    [InlineData(61250, "61.25")]
    [InlineData(-5, "-0.005")]
    [InlineData(3000, "3")]
    public void Are_written_with_at_most_three_decimals(int thousandths, string text) => Assert.Equal(text, new Points(thousandths).ToString());
}
