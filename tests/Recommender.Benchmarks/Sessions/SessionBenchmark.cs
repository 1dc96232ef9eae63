using System.Diagnostics;
using Recommender.Domain;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;

namespace Recommender.Benchmarks.Sessions;

/// <summary>Sessions of six from the shipped catalogue, one thread: the proof alone, and the whole answer with its questions what a little more would bring.</summary>
internal static class SessionBenchmark
{
    private const int Rounds = 8;
    private static readonly decimal[] Minutes = [20, 30, 40, 50, 60, 75];

    public static void Run()
    {
        var edition = Requests.ShippedEdition();
        var requests = Requests.OfTheSquad().SelectMany(r => Minutes.Select(m => new SessionRequest { Context = r with { Setting = (r.Setting ?? new SettingFacts()) with { Minutes = m } } })).ToList();
        var problems = requests.Select(r => SessionPipeline.Problem(r, edition)).ToList();
        Round(problems, requests, edition, [], []); // until the compiler has settled
        Round(problems, requests, edition, [], []);
        var (proofs, answers) = (new List<double>(), new List<double>());
        var unproven = 0;
        for (var round = 0; round < Rounds; round++)
        {
            unproven += Round(problems, requests, edition, proofs, answers);
        }

        var large = problems.Count(p => p.Count >= 300);
        var table = new Table($"Session of 6 from {edition.Catalogue.Count} exercises, {requests.Count} requests ({large} with 300 choices or more) x {Rounds} (goal: proven optimum p95 under 50 ms, never above 500 ms)",
            "what", "median ms", "p95 ms", "worst ms");
        Row(table, "proof", proofs);
        Row(table, "whole answer", answers);
        table.Print();
        Console.WriteLine($"not proven: {unproven} of {proofs.Count}.");
        Greedy(problems);
    }

    private static int Round(List<SetProblem> problems, List<SessionRequest> requests, Domain.Knowledge.Edition edition, List<double> proofs, List<double> answers)
    {
        var unproven = 0;
        for (var i = 0; i < problems.Count; i++)
        {
            var before = Stopwatch.GetTimestamp();
            var solution = SetSearch.Solve(problems[i], edition.Knowledge.Session.Search.Nodes);
            proofs.Add(Stopwatch.GetElapsedTime(before).TotalMilliseconds);
            unproven += solution.Proven ? 0 : 1;
            before = Stopwatch.GetTimestamp();
            _ = SessionPipeline.Answer(requests[i], edition, "");
            answers.Add(Stopwatch.GetElapsedTime(before).TotalMilliseconds);
        }

        return unproven;
    }

    private static void Row(Table table, string what, List<double> sample)
    {
        double[] sorted = [.. sample.Order()];
        table.Add(what, $"{Statistics.Quantile(sorted, 0.5):0.0}", $"{Statistics.Quantile(sorted, 0.95):0.0}", $"{sorted[^1]:0.0}");
    }

    /// <summary>How much better the best set is than the best picks one after another, and than those with exchanges.</summary>
    private static void Greedy(List<SetProblem> problems)
    {
        var (one, exchanged, equal) = (new List<double>(), new List<double>(), 0);
        foreach (var problem in problems)
        {
            if (SetSearch.Solve(problem, int.MaxValue) is { Items: not null } best)
            {
                one.Add(SetGreedy.One(problem) is { } first ? (best.Value / (double)problem.Value(first)) - 1 : 1);
                exchanged.Add(SetGreedy.Solve(problem) is { } better ? (best.Value / (double)problem.Value(better)) - 1 : 1);
                equal += exchanged[^1] == 0 ? 1 : 0;
            }
        }

        Console.WriteLine($"points of the best set above picks taken one after another: mean {one.Average() * 100:0.0} %, at most {one.Max() * 100:0.0} %;");
        Console.WriteLine($"above those with single exchanges: mean {exchanged.Average() * 100:0.0} %, at most {exchanged.Max() * 100:0.0} %; equal in {equal} of {exchanged.Count}.");
    }
}
