using System.Diagnostics;
using CsCheck;
using Recommender.Domain;
using Recommender.Domain.Audit;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Recommender.Testing;

namespace Recommender.Benchmarks.Audit;

/// <summary>Beside the time that passed stands the time of the processor, which others on the machine do not lengthen. Comparison, counterfactuals and sensitivity on the shipped catalogue, one thread: generated requests of every kind, asked about picks and about any exercise.</summary>
internal static class AuditBenchmark
{
    private const int Count = 120;

    public static void Run()
    {
        var edition = TestEdition.Current;
        var cases = Cases(edition);
        foreach (var (question, exercise) in cases) // until the compiler has settled, as in a service that has run for a while
        {
            _ = Counterfactuals.Of(question, edition, exercise, mayLowerPain: true);
            _ = Sensitivity.Of(question, edition);
        }

        var table = new Table($"Audit on {edition.Catalogue.Count} exercises, {cases.Count} generated requests (goals: counterfactuals p95 under 250 ms, {edition.Knowledge.Audit.Sensitivity.Samples:N0} samples of sensitivity under 100 ms)",
            "what", "median ms", "p95 ms", "worst ms", "processor median", "p95");
        foreach (var (name, of) in new (string, Func<Question, bool>)[] { ("recommendations", q => q is RecommendationAsked), ("substitutions", q => q is SubstitutionAsked), ("sessions", q => q is SessionAsked) })
        {
            var own = cases.Where(c => of(c.Question)).ToList();
            Row(table, $"comparison, {name}", own, c => Comparisons.Of(c.Question, edition, c.Exercise, c.Exercise == "back-squat" ? "front-squat" : "back-squat"));
            Row(table, $"counterfactuals, {name}", own, c => Counterfactuals.Of(c.Question, edition, c.Exercise, mayLowerPain: true));
            Row(table, $"sensitivity, {name}", own, c => Sensitivity.Of(c.Question, edition));
        }

        table.Print();
    }

    private static List<(Question Question, string Exercise)> Cases(Domain.Knowledge.Edition edition)
    {
        var cases = new List<(Question, string)>();
        Gen.Select(RequestGenerator.Requests, Gen.Int[0, 2], RequestGenerator.One(edition.Catalogue.Exercises)).Sample((request, about, exercise) =>
        {
            var context = request with { Count = null };
            var picks = RecommendationPipeline.Answer(context, edition, "").Picks;
            var id = about > 0 && picks.Count > 1 ? picks[1 + (about % (picks.Count - 1))].Exercise.Id : exercise.Id;
            lock (cases)
            {
                cases.Add((new RecommendationAsked(context), id));
                cases.Add((new SubstitutionAsked(new SubstitutionRequest { Exercise = exercise.Id, Context = context }), id));
                cases.Add((new SessionAsked(new SessionRequest { Context = context }), id));
            }
        }, iter: Count, threads: 1);
        return cases;
    }

    private static void Row(Table table, string name, List<(Question Question, string Exercise)> cases, Func<(Question Question, string Exercise), object> ask)
    {
        var (sample, processor) = (new List<double>(), new List<double>());
        using var process = Process.GetCurrentProcess();
        foreach (var one in cases)
        {
            process.Refresh();
            var (before, worked) = (Stopwatch.GetTimestamp(), process.TotalProcessorTime);
            _ = ask(one);
            sample.Add(Stopwatch.GetElapsedTime(before).TotalMilliseconds);
            process.Refresh();
            processor.Add((process.TotalProcessorTime - worked).TotalMilliseconds);
        }

        double[] sorted = [.. sample.Order()];
        double[] busy = [.. processor.Order()];
        table.Add(name, $"{Statistics.Quantile(sorted, 0.5):0.0}", $"{Statistics.Quantile(sorted, 0.95):0.0}", $"{sorted[^1]:0.0}", $"{Statistics.Quantile(busy, 0.5):0.0}", $"{Statistics.Quantile(busy, 0.95):0.0}");
    }
}
