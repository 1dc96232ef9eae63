using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Decisions;

/// <summary>What an answer says of unmet needs, held against the ranking and the gates themselves.</summary>
public sealed partial class UnmetNeedTests
{
    [Fact]
    public void Each_need_without_a_strong_pick_is_told_with_what_stands_in_its_way() =>
        RequestGenerator.Requests.Sample(request =>
        {
            var stages = Stages.Of(request);
            var (answer, catalogue) = (Stages.Answer(request), stages.Catalogue);
            if (answer.Status == AnswerStatus.Referred)
            {
                Assert.Empty(answer.Unmet);
                return;
            }

            bool Strong(string exercise, string quality) => catalogue.Find(exercise)!.Qualities.TryGetValue(quality, out var rating) && rating.Value >= QualityRating.Strong;
            var ranking = stages.Ranking();
            string[] ranked = [.. ranking.Positions.Select(p => catalogue.Exercises[p].Id)];
            Assert.Equal(answer.Needs.Select(n => n.Quality).Where(q => !answer.Picks.Any(p => Strong(p.Exercise.Id, q))), answer.Unmet.Select(u => u.Quality));
            foreach (var (quality, because) in answer.Unmet)
            {
                var first = Array.FindIndex(ranked, id => Strong(id, quality));
                var strong = catalogue.Exercises.Count(e => Strong(e.Id, quality));
                if (first >= 0)
                {
                    Assert.Contains($"the first is {ranked[first]}, rank {first + 1} by score", because, StringComparison.Ordinal);
                }
                else if (strong == 0)
                {
                    Assert.StartsWith("No exercise of the catalogue", because, StringComparison.Ordinal);
                }
                else
                {
                    var counts = Numbers().Matches(because).Select(m => int.Parse(m.Value, CultureInfo.InvariantCulture)).ToArray();
                    Assert.Equal(strong, counts[0]);
                    Assert.InRange(counts[1], 1, strong);
                }
            }
        }, iter: 300);

    [GeneratedRegex("[0-9]+")]
    private static partial Regex Numbers();
}
