using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class StaffPreferenceTests
{
    [Fact]
    public void Gives_nothing_while_nothing_was_learned() => FactorVerifier.Of<StaffPreference>().Given(RequestBuilder.Skilled()).Gives(0);
}
