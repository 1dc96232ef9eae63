using System.Buffers;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring.Factors;

namespace Recommender.Domain.Scoring;

/// <summary>Scores exercises: a sum of factors in whole thousandths.</summary>
public sealed class ScoringEngine
{
    private static readonly PerEdition<string[]> Labels = new(e => [.. Factors!.Select(f => e.Catalogue.Vocabulary.Factors.Find(f.Id)!.Label)]);

    private readonly ScoringContext context;
    private readonly Scorer[] scorers; // [factor]
    private readonly Scorer[] others; // neither the need match, nor standing, nor idle
    private readonly int[] standing; // [exercise]
    private readonly int[] otherFactors; // [other] which factor it is
    private readonly Leaning? leaning; // null while nothing was learned
    private readonly int[] leantStanding; // [exercise]
    private readonly List<Detail> details = []; // scratch of Explain

    /// <param name="context">What is scored against.</param>
    public ScoringEngine(ScoringContext context)
    {
        this.context = context;
        var kept = StandingScores.Of(context);
        standing = kept.Points;
        scorers = new Scorer[Factors.Count];
        var asked = new List<Scorer>(scorers.Length);
        var factors = new List<int>(scorers.Length);
        for (var f = 0; f < scorers.Length; f++)
        {
            scorers[f] = kept.Scorers[f] ?? Factors[f].Prepare(context);
            if (f > 0 && kept.Scorers[f] is null && !scorers[f].IsIdle)
            {
                asked.Add(scorers[f]);
                factors.Add(f);
            }
        }

        others = [.. asked];
        otherFactors = [.. factors];
        leaning = Leaning.Of(context.Situation);
        leantStanding = leaning?.Standing(kept) ?? [];
    }

    /// <summary>All factors; their order is that of the contributions and of the vocabulary. The first is the need match.</summary>
    public static IReadOnlyList<Factor> Factors { get; } =
    [
        new NeedMatch(), new EventCorrespondence(), new PhaseFit(), new TissueCost(), new CompetitionFreshness(), new MassCost(), new SetUpCost(), new VarietyContinuity(), new StaffPreference(),
    ];

    /// <summary>Scores and ranks exercises.</summary>
    /// <param name="positions">Catalogue positions, ascending. May be empty.</param>
    public Ranking Rank(ReadOnlySpan<int> positions)
    {
        var n = positions.Length;
        var rented = ArrayPool<long>.Shared.Rent(n);
        var keys = rented.AsSpan(0, n);
        var needs = new int[n];
        for (var i = 0; i < n; i++)
        {
            keys[i] = Ranking.KeyOf(Score(positions[i], out needs[i]), i);
        }

        var ranking = Ranking.Of(positions, keys, needs);
        ArrayPool<long>.Shared.Return(rented);
        return ranking;
    }

    /// <summary>The score of one exercise.</summary>
    /// <param name="position">Catalogue position.</param>
    /// <param name="needPoints">Thousandths that the need match alone brings.</param>
    /// <returns>Thousandths.</returns>
    public int Score(int position, out int needPoints)
    {
        var sink = new PointSink(null);
        scorers[0].Score(position, ref sink);
        needPoints = sink.Total;
        if (leaning is not null)
        {
            return Leant(leaning, position, sink);
        }

        foreach (var scorer in others)
        {
            scorer.Score(position, ref sink);
        }

        return sink.Total + standing[position];
    }

    /// <summary>The score with what was learned: the other factors' points are seen one by one.</summary>
    private int Leant(Leaning lean, int position, PointSink sink)
    {
        var (parts, growth) = (leantStanding[position] + lean.Part(0, sink.Total), 0);
        for (var i = 0; i < others.Length; i++)
        {
            var before = sink.Total;
            others[i].Score(position, ref sink);
            var part = lean.Part(otherFactors[i], sink.Total - before);
            parts += part;
            growth += otherFactors[i] == LeanTable.TissueCost ? part : 0;
        }

        return sink.Total + standing[position] + lean.Total(position, parts, growth);
    }

    /// <summary>The same score, taken apart.</summary>
    /// <returns>One contribution a factor, in the order of <see cref="Factors"/>; zero ones are kept.</returns>
    public IReadOnlyList<Contribution> Explain(int position)
    {
        var labels = Labels.Of(context.Situation.Edition);
        var contributions = new Contribution[scorers.Length];
        Span<int> points = stackalloc int[scorers.Length];
        for (var f = 0; f < scorers.Length; f++)
        {
            details.Clear();
            var sink = new PointSink(details);
            if (leaning is not null && f == scorers.Length - 1)
            {
                leaning.Explain(position, points, ref sink);
            }
            else
            {
                scorers[f].Score(position, ref sink);
                points[f] = sink.Total;
            }

            var basis = details.Count == 0 ? scorers[f].Basis : Weakest(details);
            var source = details.Count == 0 ? scorers[f].Source : Shared(details);
            contributions[f] = new Contribution(Factors[f].Id, labels[f], new Points(sink.Total), basis, source, [.. details]);
        }

        return contributions;
    }

    private static Basis Weakest(List<Detail> details)
    {
        var weakest = details[0].Basis;
        foreach (var detail in details)
        {
            weakest = detail.Basis > weakest ? detail.Basis : weakest;
        }

        return weakest;
    }

    private static string? Shared(List<Detail> details)
    {
        foreach (var detail in details)
        {
            if (detail.Source != details[0].Source)
            {
                return null;
            }
        }

        return details[0].Source;
    }
}
