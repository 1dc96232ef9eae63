using Recommender.Pages.Exercises;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Exercises;

public sealed class RungTests
{
    [Fact]
    public void The_ladder_holds_each_step_once_hardest_first()
    {
        foreach (var exercise in TestEdition.Current.Catalogue.Exercises)
        {
            var rungs = Rung.Around(exercise, TestEdition.Current.Catalogue);
            Assert.Equal(exercise.Progressions.Order(), rungs.Where(r => r.Steps == 1).Select(r => r.Exercise.Id).Order());
            Assert.Equal(exercise.Regressions.Order(), rungs.Where(r => r.Steps == -1).Select(r => r.Exercise.Id).Order());
            Assert.Equal(rungs.OrderByDescending(r => r.Steps).Select(r => r.Steps), rungs.Select(r => r.Steps));
            Assert.Equal(exercise, Assert.Single(rungs, r => r.Steps == 0).Exercise);
        }
    }
}
