using Recommender.Domain.Eligibility.Gates;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class NotExcludedTests
{
    [Fact]
    public void Refuses_what_the_coach_excluded() =>
        GateVerifier.Of<NotExcluded>().Given(RequestBuilder.For().Without("other", "plain")).AskedAbout(ExerciseBuilder.Named("plain"), ExerciseBuilder.Named("other"))
            .Refuses(null, null, "took it off the list");

    [Fact]
    public void Lets_all_others_pass() =>
        GateVerifier.Of<NotExcluded>().Given(RequestBuilder.For().Without("other")).AskedAbout(ExerciseBuilder.Named("plain"), ExerciseBuilder.Named("other")).Passes();

    [Fact]
    public void Asks_nothing_without_a_list() => GateVerifier.Of<NotExcluded>().HasNothingToAsk();
}
