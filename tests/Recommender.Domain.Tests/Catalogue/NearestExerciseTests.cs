using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Catalogue;

public sealed class NearestExerciseTests
{
    /// <summary>Worked by hand from the definition (Levenshtein 1966): kitten to sitting is two exchanges and one insertion, flaw to lawn one deletion and one insertion.</summary>
    [Theory]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("flaw", "lawn", 2)]
    [InlineData("", "abc", 3)]
    [InlineData("same", "same", 0)]
    public void Distances_are_those_worked_by_hand(string one, string other, int distance)
    {
        Assert.Equal(distance, NearestExercise.Distance(one, other));
        Assert.Equal(distance, NearestExercise.Distance(other, one));
    }

    [Theory]
    [InlineData("back-sqat", "back-squat")]
    [InlineData("Back Squat", "back-squat")]
    [InlineData("barbell back squats", "back-squat")]
    [InlineData("depthjump", "depth-jump")]
    public void A_slip_finds_what_was_meant(string text, string id) => Assert.Equal(id, NearestExercise.To(text, TestEdition.Current.Catalogue));
}
