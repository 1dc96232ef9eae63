using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class SlotSuitsTests
{
    private static readonly Exercise Heavy = ExerciseBuilder.Named("heavy").But(e => e with { LoadBand = LoadBand.Heavy });

    [Fact]
    public void Asks_nothing_without_a_slot() => Verify(null).HasNothingToAsk();

    [Theory]
    [InlineData("pre-track")]
    [InlineData("recovery-day")]
    [InlineData("travel-day")]
    [InlineData("competition-day")]
    public void Heavy_work_is_refused(string slot) => Verify(slot).Refuses(null, slot, "another kind of session");

    [Theory]
    [InlineData("gym")]
    [InlineData("after-track")]
    public void Heavy_work_passes(string slot) => Verify(slot).Passes();

    private static GateVerifier Verify(string? slot) =>
        GateVerifier.Of<SlotSuits>().Given(RequestBuilder.For().Request with { Setting = new SettingFacts { Slot = slot } }).AskedAbout(Heavy);
}
