using Recommender.Domain.Catalogue;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Testing;

namespace Recommender.Learning.Tests.OutsideChecks;

/// <summary>Every modelled value beside its siblings, as a physiotherapist would order them. Common practice, no source, where none is named.</summary>
public sealed class ModelledSiblingTests
{
    private const string Region = "patellar-tendon";

    [Theory]
    [InlineData("countermovement-jump", "box-jump")]                        // no fall from the top
    [InlineData("box-jump", "seated-box-jump")]                             // no dip before the jump
    [InlineData("single-leg-countermovement-jump", "single-leg-box-jump")]
    [InlineData("single-leg-box-jump", "box-jump")]
    [InlineData("single-leg-squat", "single-leg-squat-to-box")]
    [InlineData("single-leg-squat", "skater-squat")]
    [InlineData("skater-squat", "single-leg-partial-squat")]
    [InlineData("single-leg-squat-to-box", "half-squat-bodyweight")]
    [InlineData("drop-jump", "step-off-landing")]                           // no rebound
    [InlineData("step-off-landing", "snap-down")]                           // a higher fall
    [InlineData("single-leg-drop-jump", "single-leg-step-off-landing")]
    [InlineData("single-leg-step-off-landing", "step-off-landing")]
    [InlineData("forward-lunge", "lateral-lunge")]
    [InlineData("split-squat-jump", "forward-lunge")]
    [InlineData("single-leg-countermovement-jump", "split-squat-jump")]
    public void The_first_loads_the_tendon_at_least_as_much(string higher, string lower)
    {
        var (more, less) = (TestEdition.Exercise(higher).TissueLoad[Region].Value, TestEdition.Exercise(lower).TissueLoad[Region].Value);

        Assert.True(more >= less, $"{higher} {more}, {lower} {less}.");
    }

    [Fact]
    public void What_was_agreed_lies_in_the_interval_of_the_model()
    {
        var agreed = KnowledgeReader.ReadAsWritten(TestEdition.DataFolder).Catalogue;
        var modelled = TestEdition.Current.Catalogue.Exercises.Where(e => e.TissueLoad.GetValueOrDefault(Region)?.Basis == Basis.Modelled).ToList();

        Assert.NotEmpty(modelled);
        Assert.All(modelled, e =>
        {
            var (load, value) = (e.TissueLoad[Region], agreed.Find(e.Id)!.TissueLoad[Region].Value);
            Assert.True(value >= load.Low && value <= load.High, $"{e.Id}: agreed {value}, modelled {load.Low} to {load.High}. Either the domain is too wide or the agreed value is.");
        });
    }

    /// <summary>
    /// Spearman, leave-one-out, against the index of Scattone Silva R et al., Med Sci Sports Exerc 2024;56(3):545-552, doi 10.1249/MSS.0000000000003323 (abstract read).
    /// Computed here from the committed rows, not taken from the file.
    /// </summary>
    [Fact]
    public void Told_by_the_others_the_measured_exercises_keep_the_published_order()
    {
        var rows = TestEdition.Current.Catalogue.TissueLoadModels.Single(m => m.Region == Region).Fitted.Rows;
        var rho = Statistics.Spearman([.. rows.Select(r => (double)r.LeaveOneOut)], [.. rows.Select(r => (double)r.Measured)]);

        Assert.True(rows.Count >= 12, "Too few published values for a model.");
        Assert.True(rho >= 0.7, $"Spearman {rho:0.000}.");
        Assert.Equal((double)TestEdition.Current.Catalogue.TissueLoadModels.Single().Fitted.LeaveOneOut.Spearman, rho, 3);
    }
}
