using System.Globalization;
using System.Text;
using Recommender.Domain.Catalogue;

namespace Recommender.Learning;

/// <summary>The fit in words and tables, for people: what it rests on, how well it tells, what it changes, and how the rest of the catalogue agrees with published orders.</summary>
public static class FitReport
{
    /// <summary>Writes the report of a fitted model.</summary>
    /// <param name="model">The fitted model.</param>
    /// <param name="asWritten">The catalogue as the files say, no model applied.</param>
    /// <param name="orders">Published orders to hold the catalogue against, the model applied.</param>
    public static string Write(TissueLoadModel model, ExerciseCatalogue asWritten, IReadOnlyList<PublishedOrder> orders)
    {
        var text = new StringBuilder();
        Heading(text, model);
        Rows(text, model.Fitted);
        Estimates(text, model, asWritten);
        Agreement(text, model, asWritten, orders);
        return text.ToString();
    }

    private static void Heading(StringBuilder text, TissueLoadModel model)
    {
        var (constants, error) = (model.Fitted.Constants, model.Fitted.LeaveOneOut);
        Line(text, $"# Fit of the tissue-load model: {model.Region}");
        Line(text);
        Line(text, $"Written by the fit; not to be edited. {model.Note}");
        Line(text);
        Line(text, $"load = {constants.PerKneeMoment} x knee moment + {constants.PerLoadedBend} x loaded bend + {constants.PerRateClass} x rate class, cut to 0 to 10");
        Line(text);
        Line(text, "| | |");
        Line(text, "| --- | --- |");
        Line(text, $"| measured exercises fitted to | {model.Fitted.Rows.Count} |");
        Line(text, $"| leave-one-out rank correlation (Spearman) | {error.Spearman} |");
        Line(text, $"| leave-one-out mean absolute error | {error.MeanAbsoluteError} |");
        Line(text, $"| half width of the interval | {error.HalfWidth} (residual {error.HalfWidthRank} of {model.Fitted.Rows.Count}, coverage {model.Coverage}) |");
        Line(text, $"| used | {(model.RanksWellEnough ? $"yes, at least {model.LeastSpearman}" : $"no, below {model.LeastSpearman}")} |");
        Line(text);
        Line(text, "The three terms and their classes were chosen on the same exercises, so the leave-one-out figures flatter; the interval is wide for that reason too.");
        Line(text);
    }

    private static void Rows(StringBuilder text, TissueLoadFitted fitted)
    {
        Line(text, "## Measured exercises");
        Line(text);
        Line(text, "| exercise | measured | in sample | leave-one-out | off by |");
        Line(text, "| --- | --- | --- | --- | --- |");
        foreach (var row in fitted.Rows)
        {
            Line(text, $"| {row.Exercise} | {row.Measured} | {row.InSample} | {row.LeaveOneOut} | {row.LeaveOneOut - row.Measured:+0.00;-0.00;0.00} |");
        }

        foreach (var row in fitted.LeftOut)
        {
            Line(text, $"| {row.Exercise} | {row.Measured} | not fitted: {row.Because} | | |");
        }

        Line(text);
    }

    private static void Estimates(StringBuilder text, TissueLoadModel model, ExerciseCatalogue asWritten)
    {
        Line(text, "## Estimated exercises, beside what is agreed");
        Line(text);
        Line(text, "| exercise | modelled | interval | agreed |");
        Line(text, "| --- | --- | --- | --- |");
        foreach (var exercise in asWritten.Exercises.Where(e => model.SpeaksFor(e) && e.TissueLoad.ContainsKey(model.Region)))
        {
            var load = model.Estimate(exercise.Facts);
            Line(text, $"| {exercise.Id} | {load.Value} | {load.Low} to {load.High} | {exercise.TissueLoad[model.Region].Value} |");
        }

        Line(text);
        foreach (var domain in model.UsedWithin)
        {
            Line(text, $"- {domain.Id}: {domain.Because}");
        }

        Line(text);
    }

    private static void Agreement(StringBuilder text, TissueLoadModel model, ExerciseCatalogue asWritten, IReadOnlyList<PublishedOrder> orders)
    {
        var catalogue = new ExerciseCatalogue(asWritten.Exercises.Select(model.Apply), asWritten.Vocabulary, asWritten.TissueLoadModels);
        Line(text, "## Published orders");
        Line(text);
        Line(text, "Regions with fewer than twelve published values have no model; their common-practice values are held against every published order of one study.");
        Line(text);
        Line(text, "| of | higher | lower | catalogue | source |");
        Line(text, "| --- | --- | --- | --- | --- |");
        foreach (var order in orders)
        {
            var kept = "not both in the catalogue";
            if (order.CanBeExpressed(catalogue))
            {
                var (higher, lower) = order.In(catalogue);
                kept = $"{higher} and {lower}, {(higher >= lower ? "kept" : "BROKEN")}";
            }

            Line(text, $"| {order.Region ?? order.Quality} | {order.Higher} | {order.Lower} | {kept} | {order.Source} |");
        }
    }

    private static void Line(StringBuilder text, FormattableString? line = null) => text.Append(line?.ToString(CultureInfo.InvariantCulture)).Append('\n');

    private static void Line(StringBuilder text, string line) => text.Append(line).Append('\n');
}
