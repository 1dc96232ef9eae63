using System.Diagnostics;
using System.Globalization;
using Recommender.Domain.Decisions;
using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Explanations;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Selection;

namespace Recommender.Benchmarks.Engine;

/// <summary>Where a recommendation spends its time: the stages of the pipeline one after another, each with what it allocates, one thread.</summary>
internal static class StageBenchmark
{
    private const int Rounds = 400;
    private const int Settled = 100; // until the compiler has settled
    private const int Picks = 10;

    public static void Run()
    {
        foreach (var size in new[] { 0, 1_000 })
        {
            var shipped = Requests.ShippedEdition();
            var edition = size == 0 ? shipped : GrownCatalogue.Of(shipped, size);
            var stages = new List<(string Name, List<double> Microseconds, List<double> Kilobytes)>();
            for (var round = 0; round < Rounds; round++)
            {
                foreach (var request in Requests.OfTheSquad(Picks))
                {
                    var at = 0;
                    var keep = round >= Settled;
                    var situation = Time("situation", () => Situation.Of(request, edition));
                    var profile = Time("needs", () => NeedAnalysis.Derive(situation));
                    var needs = Time("need table", () => new NeedTable(profile, edition.Knowledge.Scoring.NeedMatch, edition.Catalogue.Vocabulary.Qualities.Count));
                    var limits = Time("limits", () => TissueLimits.Of(situation));
                    var eligibility = Time("gates", () => EligibilityFilter.Apply(new GateContext(situation, limits)));
                    var engine = Time("factors prepared", () => new ScoringEngine(new ScoringContext(situation, profile, needs)));
                    var ranking = Time("scores, sorted", () => engine.Rank(eligibility.Eligible));
                    var picks = Time("picks chosen", () => RankingSelector.Pick(ranking, needs, situation));
                    var positions = picks.Select(rank => ranking.Positions[rank]).ToList();
                    var explained = Time("  of it: explained", () => positions.ConvertAll(engine.Explain));
                    _ = Time("  of it: dosed", () => Dosed(situation, profile, needs, positions));
                    _ = Time("  of it: worded", () => positions.Select((p, i) => Phrasebook.Why(situation, profile, limits, edition.Catalogue.Exercises[p], explained[i]).Count
                        + Phrasebook.Cautions(situation, limits, edition.Catalogue.Exercises[p]).Count + (int)EvidenceShare.Of(explained[i]).Published).Sum());
                    _ = Time("answer written", () => new AnswerWriter(situation, profile, needs, eligibility, engine, ranking).Write(picks, ""));

                    T Time<T>(string name, Func<T> stage)
                    {
                        var bytes = GC.GetAllocatedBytesForCurrentThread();
                        var before = Stopwatch.GetTimestamp();
                        var made = stage();
                        var took = Stopwatch.GetElapsedTime(before).TotalMicroseconds;
                        bytes = GC.GetAllocatedBytesForCurrentThread() - bytes;
                        if (at == stages.Count)
                        {
                            stages.Add((name, [], []));
                        }

                        if (keep)
                        {
                            stages[at].Microseconds.Add(took);
                            stages[at].Kilobytes.Add(bytes / 1024.0);
                        }

                        at++;
                        return made;
                    }
                }
            }

            var table = new Table($"Stages of a recommendation on {edition.Catalogue.Count} exercises, {Picks} picks", "stage", "median us", "mean us", "KB");
            foreach (var (name, microseconds, kilobytes) in stages)
            {
                table.Add(name, Plain(Statistics.Median([.. microseconds])), Plain(microseconds.Average()), Plain(kilobytes.Average()));
            }

            var whole = stages.Where(s => !s.Name.StartsWith(' ')).ToList();
            table.Add("all", Plain(whole.Sum(s => Statistics.Median([.. s.Microseconds]))), Plain(whole.Sum(s => s.Microseconds.Average())), Plain(whole.Sum(s => s.Kilobytes.Average())));
            table.Print();
        }
    }

    private static List<Dose> Dosed(Situation situation, NeedProfile profile, NeedTable needs, List<int> positions)
    {
        var doses = new DoseCalculator(situation, profile);
        return positions.ConvertAll(p => doses.Next(p, needs.PurposeOf(situation.Catalogue, p), situation.EquipmentUsed(p)));
    }

    private static string Plain(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);
}
