using System.Diagnostics;
using System.Globalization;
using Recommender.Domain;
using Recommender.Domain.Substitutions;

namespace Recommender.Benchmarks.Engine;

/// <summary>A substitution beside a recommendation for the same athlete, in turns in one run, one thread, both with five picks.</summary>
internal static class SubstitutionBenchmark
{
    private const int Rounds = 500;
    private const int Settled = 300; // until the compiler has settled
    private const int Picks = 5;
    private static readonly string[] Replaced = ["back-squat", "depth-jump", "nordic-hamstring-lower", "power-clean", "pull-up", "hurdle-hop"];

    public static void Run()
    {
        var edition = Requests.ShippedEdition();
        var requests = Requests.OfTheSquad(Picks);
        var (substitution, recommendation) = (new List<double>(), new List<double>());
        for (var round = 0; round < Rounds; round++)
        {
            for (var i = 0; i < requests.Count; i++)
            {
                var context = requests[i];
                var asked = new SubstitutionRequest { Exercise = Replaced[(i + round) % Replaced.Length], Context = context, Count = Picks };
                var (one, other) = (Microseconds(() => RecommendationPipeline.Answer(context, edition, "")), Microseconds(() => SubstitutionPipeline.Answer(asked, edition, "")));
                if (round >= Settled)
                {
                    recommendation.Add(one);
                    substitution.Add(other);
                }
            }
        }

        var table = new Table($"Substitution beside recommendation on {edition.Catalogue.Count} exercises (goal: within 1.3 x)", "what", "median us", "p95 us");
        Row(table, "recommendation", recommendation);
        Row(table, "substitution", substitution);
        table.Add("ratio", (Statistics.Median(substitution) / Statistics.Median(recommendation)).ToString("0.00", CultureInfo.InvariantCulture), "");
        table.Print();
    }

    private static void Row(Table table, string name, List<double> sample) =>
        table.Add(name, Plain(Statistics.Median(sample)), Plain(Statistics.Quantile([.. sample.Order()], 0.95)));

    private static double Microseconds(Func<object> work)
    {
        var start = Stopwatch.GetTimestamp();
        _ = work();
        return Stopwatch.GetElapsedTime(start).TotalMicroseconds;
    }

    private static string Plain(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);
}
