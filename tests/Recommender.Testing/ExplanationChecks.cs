using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Scoring;
using Xunit;

namespace Recommender.Testing;

/// <summary>What must hold of every answer's numbers. Runs in every test that makes a whole answer.</summary>
public static class ExplanationChecks
{
    /// <summary>Contributions sum to the score, details to their parent, evidence, need weights and shares to 1; a parent rests on the weakest of its parts.</summary>
    public static void AddsUp(Answer answer)
    {
        foreach (var pick in answer.Picks)
        {
            var id = pick.Exercise.Id;
            Same(pick.Score.Thousandths, pick.Contributions.Sum(c => c.Points.Thousandths), $"{id}: contributions against score");
            Assert.True(ScoringEngine.Factors.Select(f => f.Id).SequenceEqual(pick.Contributions.Select(c => c.Factor), StringComparer.Ordinal), $"{id}: one contribution a factor, in their order");
            foreach (var c in pick.Contributions)
            {
                Parts($"{id}, {c.Factor}", c.Points, c.Basis, c.Details);
            }

            var e = pick.Evidence;
            Same(1m, e.Published + e.Modelled + e.CommonPractice + e.Recalled, $"{id}: evidence");
            Assert.All(new[] { e.Published, e.Modelled, e.CommonPractice, e.Recalled }, share => Assert.InRange(share, 0m, 1m));
        }

        Same(1m, answer.Needs.Sum(n => n.Weight), "need weights");
        foreach (var need in answer.Needs)
        {
            Assert.True(need.Weight > 0, $"{need.Quality}: weight above 0");
            Same(1m, need.From.Sum(f => f.Share), $"{need.Quality}: shares");
        }
    }

    private static void Parts(string at, Points points, Basis basis, IReadOnlyList<Detail> details)
    {
        if (details.Count == 0)
        {
            return;
        }

        Same(points.Thousandths, details.Sum(d => d.Points.Thousandths), $"{at}: details against their parent");
        Assert.True(basis == details.Max(d => d.Basis), $"{at}: basis is {basis}, but its weakest part rests on {details.Max(d => d.Basis)}");
        foreach (var detail in details.Where(d => d.Details.Count > 0))
        {
            Parts($"{at}, {detail.Code}", detail.Points, detail.Basis, detail.Details);
        }
    }

    private static void Same<T>(T expected, T actual, string what) where T : IEquatable<T> => Assert.True(expected.Equals(actual), $"{what}: {actual}, expected {expected}.");
}
