using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Tests.Catalogue;

public sealed class TermsTests
{
    private static readonly Terms<Term> Words = new([Word("a"), Word("b"), Word("c")]);

    [Fact]
    public void Keep_their_order_and_know_each_place()
    {
        Assert.Equal(["a", "b", "c"], Words.Select(w => w.Id));
        Assert.Equal((1, -1), (Words.IndexOf("b"), Words.IndexOf("z")));
        Assert.True(Words.Has("c") && !Words.Has("C"));
        Assert.Null(Words.Find("z"));
    }

    [Fact]
    public void A_mask_has_a_bit_a_word_and_none_for_the_unknown() => Assert.Equal(0b101UL, Words.Mask(["c", "a", "a", "z"]));

    [Fact]
    public void An_id_that_stands_twice_is_refused() => Assert.Throws<ArgumentException>(() => new Terms<Term>([Word("a"), Word("a")]));

    private static Term Word(string id) => new() { Id = id, Label = id, Definition = id };
}
