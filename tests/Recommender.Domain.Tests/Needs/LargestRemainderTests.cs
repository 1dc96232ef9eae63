using CsCheck;
using Recommender.Domain.Needs;

namespace Recommender.Domain.Tests.Needs;

public sealed class LargestRemainderTests
{
    /// <summary>Seats of Hamilton's method for 10 seats, population 100,000; worked by hand: quotas 4.7, 1.6, 1.58, 1.2, 0.61, 0.31.</summary>
    [Fact]
    public void Gives_what_is_left_to_the_largest_remainders() =>
        Assert.Equal([5, 2, 1, 1, 1, 0], LargestRemainder.Apportion([47_000, 16_000, 15_800, 12_000, 6_100, 3_100], 10));

    [Fact]
    public void Equal_remainders_go_to_the_earlier() => Assert.Equal([4, 3, 3], LargestRemainder.Apportion([1, 1, 1], 10));

    /// <summary>Quotas 69.4923... and 279.4923... leave the same remainder, 131,900 of 267,900; worked by hand: 18,617,000 less 69 x 267,900, and 74,876,000 less 279 x 267,900.</summary>
    [Fact]
    public void Remainders_that_end_in_no_decimal_place_are_still_equal() =>
        Assert.Equal([257, 16, 70, 328, 279, 50], LargestRemainder.Apportion([68_799, 4_260, 18_617, 87_880, 74_876, 13_468], 1000));

    [Fact]
    public void A_weight_of_nothing_gets_nothing() => Assert.Equal([0, 1000, 0], LargestRemainder.Apportion([0, 3, 0], 1000));

    [Fact]
    public void Nothing_to_share_by_is_refused() => Assert.Throws<ArgumentException>(() => LargestRemainder.Apportion([0, 0], 10));

    [Fact]
    public void Always_sums_to_the_total_and_is_never_a_whole_unit_off() =>
        Gen.Int[0, 100_000].Array[1, 40].Where(w => w.Sum() > 0).Sample(whole =>
        {
            decimal[] weights = [.. whole.Select(w => w / 997m)];
            var shares = LargestRemainder.Apportion(weights, 10_000);
            Assert.Equal(10_000, shares.Sum());
            Assert.All(shares.Select((share, i) => (share, exact: weights[i] * 10_000 / weights.Sum())), x => Assert.InRange(x.share - x.exact, -1m, 1m));
        }, iter: 2_000);

    [Fact]
    public void Whole_weights_are_shared_as_decimal_ones_are() =>
        Gen.Int[0, 100_000].Array[1, 8].Where(w => w.Sum() > 0).Sample(weights =>
        {
            var whole = new int[weights.Length];
            LargestRemainder.Apportion([.. weights.Select(w => (long)w)], 1000, whole);
            Assert.Equal(LargestRemainder.Apportion([.. weights.Select(w => (decimal)w)], 1000), whole);
        }, iter: 2_000);

    [Fact]
    public void Nothing_to_share_by_is_refused_in_whole_weights() => Assert.Throws<ArgumentException>(() => LargestRemainder.Apportion([0L, 0L], 10, new int[2]));
}
