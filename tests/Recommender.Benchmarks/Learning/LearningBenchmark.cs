using System.Diagnostics;
using System.Globalization;
using Recommender.Domain;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Requests;
using Recommender.Learning.Invented;
using Recommender.Learning.Preferences;

namespace Recommender.Benchmarks.Learning;

/// <summary>Learning from a hundred thousand reports, and a request with a preference beside the same without, in turns in one run, one thread.</summary>
internal static class LearningBenchmark
{
    private const int Reports = 100_000;
    private const int Rounds = 400;
    private const int Settled = 200; // until the compiler has settled

    public static void Run()
    {
        var edition = Requests.ShippedEdition();
        var rules = edition.Knowledge.Outcomes!;
        var table = new Table($"Learning on {edition.Catalogue.Count} exercises (goals: pairs and fit of {Reports:N0} reports under 20 s and 500 MB; a request less than 3 % slower)", "what", "figure");
        var outcomes = Season(edition);
        var fitting = Stopwatch.StartNew();
        var decisions = ReportedDecision.Of(outcomes, rules.Position);
        var learned = PreferenceFit.Of([.. decisions.SelectMany(d => d.Pairs)], rules);
        table.Add("reports, pairs", $"{outcomes.Count:N0}, {decisions.Sum(d => d.Pairs.Count):N0}");
        table.Add("pairs and fit, seconds", Plain(fitting.Elapsed.TotalSeconds));
        table.Add("most memory of the process, MB", Plain(Process.GetCurrentProcess().PeakWorkingSet64 / 1e6));
        var preference = new Preference("measured", learned.Coaches.Values.First());
        var (off, on) = (new List<double>(), new List<double>());
        var requests = Requests.OfTheSquad();
        for (var round = 0; round < Rounds; round++)
        {
            foreach (var request in requests)
            {
                var leaning = request with { Read = new FactsRead(preference, []) };

                // In turns: whoever comes second finds the caches filled by the first.
                var first = Microseconds(round % 2 == 0 ? request : leaning, edition);
                var second = Microseconds(round % 2 == 0 ? leaning : request, edition);
                var (without, with) = round % 2 == 0 ? (first, second) : (second, first);
                if (round >= Settled)
                {
                    off.Add(without);
                    on.Add(with);
                }
            }
        }

        table.Add("a request without, median us", Plain(Statistics.Median(off)));
        table.Add("a request with a preference, median us", Plain(Statistics.Median(on)));
        table.Add("ratio of medians", (Statistics.Median(on) / Statistics.Median(off)).ToString("0.000", CultureInfo.InvariantCulture));
        table.Print();
    }

    /// <summary>Three coaches in turns; what a squad asks in a season repeats, so each answer is made once.</summary>
    private static List<LearnedOutcome> Season(Edition edition)
    {
        var (outcomes, answers, random) = (new List<LearnedOutcome>(Reports), new Dictionary<string, Answer>(StringComparer.Ordinal), new Random(5));
        var requests = InventedSeason.Requests(Requests.DataFolder, null, Reports / 5, 3).GetEnumerator();
        for (var d = 0; outcomes.Count < Reports && requests.MoveNext(); d++)
        {
            var (request, coach) = (requests.Current, InventedSeason.Coaches[d % InventedSeason.Coaches.Count]);
            var key = $"{request.Athlete!.Ref} {request.Phase} {request.Setting is null} {request.Complaints is null}";
            var answer = answers.TryGetValue(key, out var known) ? known : answers[key] = RecommendationPipeline.Answer(request, edition, "");
            outcomes.AddRange(coach.Chooses(answer, request, edition, random).Select(c => new LearnedOutcome(d.ToString("000000", CultureInfo.InvariantCulture), coach.Id, c.Report.Verdict!, c.Facts)));
        }

        return outcomes;
    }

    private static double Microseconds(RecommendationRequest request, Edition edition)
    {
        var start = Stopwatch.GetTimestamp();
        _ = RecommendationPipeline.Answer(request, edition, "");
        return Stopwatch.GetElapsedTime(start).TotalMicroseconds;
    }

    private static string Plain(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);
}
