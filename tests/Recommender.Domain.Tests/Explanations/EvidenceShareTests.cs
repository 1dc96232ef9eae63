using Recommender.Domain.Catalogue;
using Recommender.Domain.Explanations;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Tests.Explanations;

public sealed class EvidenceShareTests
{
    [Fact]
    public void Is_the_share_of_absolute_points_of_the_leaves() =>
        Assert.Equal(new EvidenceShare(0.5m, 0.2m, 0.3m, 0), Of(Leaf(5000, Basis.Published), Leaf(-2000, Basis.Modelled), Leaf(3000, Basis.CommonPractice), Leaf(0, Basis.Recalled)));

    [Fact]
    public void Sums_to_one_where_thirds_do_not() =>
        Assert.Equal(new EvidenceShare(0.334m, 0.333m, 0.333m, 0), Of(Leaf(1, Basis.Published), Leaf(1, Basis.Modelled), Leaf(1, Basis.CommonPractice)));

    [Fact]
    public void Looks_through_parents_at_their_parts() =>
        Assert.Equal(new EvidenceShare(0.25m, 0, 0.75m, 0), Of(new Detail("parent", "", new Points(0), Basis.CommonPractice, null, null, null, [Leaf(1000, Basis.Published), Leaf(-3000, Basis.CommonPractice)])));

    private static Detail Leaf(int thousandths, Basis basis) => Detail.Leaf("leaf", "", thousandths, basis, null);

    private static EvidenceShare Of(params Detail[] details) => EvidenceShare.Of([new Contribution("need-match", "", new Points(0), Basis.CommonPractice, null, details)]);
}
