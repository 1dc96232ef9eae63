using Recommender.Domain.Catalogue;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Testing;

namespace Recommender.Learning.Tests.Models;

public sealed class TissueLoadFitTests
{
    private static readonly Lazy<ExerciseCatalogue> Files = new(() => KnowledgeReader.ReadAsWritten(TestEdition.DataFolder).Catalogue);

    private static ExerciseCatalogue AsWritten => Files.Value;

    private static TissueLoadModel Shipped => AsWritten.TissueLoadModels.Single();

    /// <summary>A refit gives the bytes that are committed. With RECOMMENDER_APPROVE=1 the report is rewritten; the constants never are.</summary>
    [Fact]
    public void A_refit_gives_the_same_constants_and_the_same_report()
    {
        foreach (var (path, text) in FitCommand.Results(TestEdition.DataFolder))
        {
            var file = Path.Combine(TestEdition.DataFolder, path);
            if (path.EndsWith(".md", StringComparison.Ordinal) && Environment.GetEnvironmentVariable("RECOMMENDER_APPROVE") == "1")
            {
                File.WriteAllText(file, text);
            }

            Assert.True(text == File.ReadAllText(file), $"{path} is not what the fit writes; run: dotnet run --project src/Recommender.Learning -- fit");
        }
    }

    [Fact]
    public void The_order_of_the_exercises_changes_nothing()
    {
        var forth = TissueLoadFit.Fit(Shipped, AsWritten.Exercises).Fitted;
        var back = TissueLoadFit.Fit(Shipped, AsWritten.Exercises.Reverse()).Fitted;

        Assert.Equal(forth.Constants, back.Constants);
        Assert.Equal(forth.Rows, back.Rows);
    }

    [Fact]
    public void It_finds_the_constants_that_made_the_loads()
    {
        var truth = new TissueLoadConstants(20, 3, 1.25m);
        var made = AsWritten.Exercises.Where(e => Shipped.IsMeasured(e) && Shipped.FittedWithin.Holds(e)).Select(e =>
        {
            var load = (decimal)truth.ValueOf(Shipped.Mechanics.TermsOf(e.Facts));
            return e with { TissueLoad = new Dictionary<string, TissueLoad> { [Shipped.Region] = new(load, load, load, Basis.Published, Shipped.Source) } };
        });

        var fitted = TissueLoadFit.Fit(Shipped, made).Fitted;

        Assert.Equal(truth, fitted.Constants);
        Assert.Equal((1m, 0m, 0m), (fitted.LeaveOneOut.Spearman, fitted.LeaveOneOut.MeanAbsoluteError, fitted.LeaveOneOut.HalfWidth));
    }

    [Fact]
    public void Each_exercise_is_told_without_itself()
    {
        var liar = AsWritten.Exercises.Select(e => e.Id == "step-up"
            ? e with { TissueLoad = new Dictionary<string, TissueLoad> { [Shipped.Region] = new(9, 9, 9, Basis.Published, Shipped.Source) } }
            : e);

        // Whatever a row claims, what the others say of it stays the same.
        Assert.Equal(Shipped.Fitted.Rows.Single(r => r.Exercise == "step-up").LeaveOneOut, TissueLoadFit.Fit(Shipped, liar).Fitted.Rows.Single(r => r.Exercise == "step-up").LeaveOneOut);
    }

    [Fact]
    public void Every_measured_exercise_is_a_row_or_is_left_out_with_a_reason()
    {
        var measured = AsWritten.Exercises.Where(Shipped.IsMeasured).Select(e => e.Id).Order(StringComparer.Ordinal);

        Assert.Equal(measured, Shipped.Fitted.Rows.Select(r => r.Exercise).Concat(Shipped.Fitted.LeftOut.Select(r => r.Exercise)).Order(StringComparer.Ordinal));
        Assert.Contains(Shipped.Fitted.LeftOut, r => r.Exercise == "spanish-squat" && r.Because.Contains("shank", StringComparison.Ordinal));
    }

    [Fact]
    public void The_half_width_is_the_residual_that_holds_the_stated_share()
    {
        var error = Shipped.Fitted.LeaveOneOut;
        var residuals = Shipped.Fitted.Rows.Select(r => Math.Abs(r.LeaveOneOut - r.Measured)).Order().ToList();

        // Split-conformal rank: ceiling of coverage x (rows + 1); rounded up to one decimal.
        Assert.Equal((int)Math.Ceiling(Shipped.Coverage * (residuals.Count + 1)), error.HalfWidthRank);
        Assert.InRange(error.HalfWidth - residuals[error.HalfWidthRank - 1], 0, 0.1m);
        Assert.Equal((double)error.MeanAbsoluteError, (double)residuals.Average(), 2);
    }

    [Fact]
    public void Too_few_measurements_are_refused() =>
        Assert.Throws<InvalidFitException>(() => TissueLoadFit.Fit(Shipped, AsWritten.Exercises.Where(Shipped.IsMeasured).Take(4)));

    [Fact]
    public void No_measurement_at_all_is_refused() => Assert.Throws<InvalidFitException>(() => TissueLoadFit.Fit(Shipped, []));

    [Fact]
    public void A_constant_below_nothing_is_refused()
    {
        var turned = AsWritten.Exercises.Where(Shipped.IsMeasured).Select(e =>
        {
            var load = 10 - e.TissueLoad[Shipped.Region].Value;
            return e with { TissueLoad = new Dictionary<string, TissueLoad> { [Shipped.Region] = new(load, load, load, Basis.Published, Shipped.Source) } };
        });

        Assert.Contains("below 0", Assert.Throws<InvalidFitException>(() => TissueLoadFit.Fit(Shipped, turned)).Message, StringComparison.Ordinal);
    }
}
