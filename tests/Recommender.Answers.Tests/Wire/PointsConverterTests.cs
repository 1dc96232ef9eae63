using System.Text;
using System.Text.Json;
using Recommender.Domain.Scoring;

namespace Recommender.Answers.Tests.Wire;

public sealed class PointsConverterTests
{
    private static readonly JsonSerializerOptions Options = new();

    [Theory]
    [InlineData("0")]
    [InlineData("61")]
    [InlineData("-3")]
    [InlineData("41.5")]
    [InlineData("0.001")]
    [InlineData("-12.345")]
    [InlineData("1000000")]
    public void Points_are_written_with_as_many_decimals_as_they_have_and_read_back(string number)
    {
        var points = JsonSerializer.Deserialize<Points>(Encoding.UTF8.GetBytes(number), Options);

        Assert.Equal(number, JsonSerializer.Serialize(points, Options));
    }
}
