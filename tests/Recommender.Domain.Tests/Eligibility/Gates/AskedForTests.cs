using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class AskedForTests
{
    private static readonly Exercise Lunge = ExerciseBuilder.Named("lunge").OfPattern("single-leg").Rated("glute-strength", 2).But(e => e with { Support = Support.Split });

    [Fact]
    public void Asks_nothing_without_a_filter() => GateVerifier.Of<AskedFor>().AskedAbout(Lunge).HasNothingToAsk();

    [Fact]
    public void Passes_when_every_list_names_its_kind() =>
        Verify(new OnlyFilter { Support = ["single", "split"], Pattern = ["single-leg"], LoadingRate = ["slow"], Quality = ["glute-strength"] }).Passes();

    [Fact]
    public void Refuses_another_support() => Refused(new OnlyFilter { Support = ["double", "off-feet"] });

    [Fact]
    public void Refuses_another_pattern() => Refused(new OnlyFilter { Pattern = ["squat"] });

    [Fact]
    public void Refuses_another_loading_rate() => Refused(new OnlyFilter { LoadingRate = ["impact"] });

    [Fact]
    public void Refuses_when_it_trains_none_of_the_qualities() => Refused(new OnlyFilter { Quality = ["max-strength", "grip"] });

    [Fact]
    public void Refuses_when_one_of_two_lists_leaves_it_out() => Refused(new OnlyFilter { Support = ["split"], Pattern = ["squat"] });

    [Fact]
    public void An_empty_list_lets_nothing_pass() => Refused(new OnlyFilter { Quality = [] });

    [Fact]
    public void Trunk_control_stands_for_the_trunk_qualities() =>
        GateVerifier.Of<AskedFor>().Given(RequestBuilder.For().Only(new OnlyFilter { Quality = ["trunk-control"] }))
            .AskedAbout(ExerciseBuilder.Named().Rated("trunk-lateral", 2)).Passes();

    private static GateVerifier Verify(OnlyFilter only) => GateVerifier.Of<AskedFor>().Given(RequestBuilder.For().Only(only)).AskedAbout(Lunge);

    private static void Refused(OnlyFilter only) => Verify(only).Refuses(null, null, "did not ask for other kinds");
}
