using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class PlaceSuitableTests
{
    private static readonly Exercise Sprint = ExerciseBuilder.Named().But(e => e with { Places = ["track", "outdoors"] });

    [Fact]
    public void Refuses_at_another_place() => GateVerifier.Of<PlaceSuitable>().Given(RequestBuilder.For().In("hotel")).AskedAbout(Sprint).Refuses("track, outdoors", "hotel", "it were done at: track, outdoors");

    [Fact]
    public void Passes_at_one_of_its_places() => GateVerifier.Of<PlaceSuitable>().Given(RequestBuilder.For().In("outdoors")).AskedAbout(Sprint).Passes();

    [Fact]
    public void Takes_the_usual_place_where_none_is_said() =>
        GateVerifier.Of<PlaceSuitable>().Given(RequestBuilder.For()).AskedAbout(Sprint).Refuses("track, outdoors", TestEdition.Knowledge.Defaults.Place, "track");
}
