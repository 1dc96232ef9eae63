using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Scoring;

/// <summary>Factors whose points hang on exercise, event and phase alone, or also on nothing being sore: prepared and added up once, kept with the edition.</summary>
/// <remarks>The column holds what the scorers themselves wrote, so it cannot drift from what they explain.</remarks>
internal sealed class StandingScores
{
    /// <summary>Columns of an edition together hold at most so many numbers; beyond it they are made anew.</summary>
    private const int MostKept = 4_000_000;

    private static readonly PerEdition<ConcurrentDictionary<(string Event, Phase Phase, bool Sore), StandingScores>> Kept = new(_ => new());

    private readonly ConditionalWeakTable<LeanTable, int[]> leant = [];

    private StandingScores(ScoringContext context)
    {
        var catalogue = context.Situation.Catalogue;
        var sore = context.Situation.Complaints.Count > 0;
        Scorers = [.. ScoringEngine.Factors.Select(f => f.IsStanding(sore) ? f.Prepare(context) : null)];
        Points = new int[catalogue.Count];
        foreach (var scorer in Scorers)
        {
            for (var e = 0; e < Points.Length && scorer is not null; e++)
            {
                var sink = new PointSink(null);
                scorer.Score(e, ref sink);
                Points[e] += sink.Total;
            }
        }
    }

    /// <summary>[factor] the prepared scorer; null where the factor hangs on more of the request.</summary>
    public Scorer?[] Scorers { get; }

    /// <summary>[exercise] thousandths of all of them.</summary>
    public int[] Points { get; }

    /// <summary>[exercise] what a preference adds for them; kept as long as its table.</summary>
    public int[] Leant(LeanTable table) => leant.TryGetValue(table, out var made) ? made : leant.GetValue(table, Lean);

    /// <summary>Those of a request's event and phase.</summary>
    public static StandingScores Of(ScoringContext context)
    {
        var situation = context.Situation;
        var key = (situation.Event, situation.Phase, situation.Complaints.Count > 0);
        var ofEdition = Kept.Of(situation.Edition);
        if (ofEdition.TryGetValue(key, out var made))
        {
            return made;
        }

        if ((long)(ofEdition.Count + 1) * situation.Catalogue.Count > MostKept)
        {
            ofEdition.Clear();
        }

        return ofEdition.GetOrAdd(key, new StandingScores(context));
    }

    private int[] Lean(LeanTable table)
    {
        var parts = new int[Points.Length];
        for (var f = 0; f < Scorers.Length; f++)
        {
            for (var e = 0; e < parts.Length && Scorers[f] is { } scorer && table.Shares[f] != 0; e++)
            {
                var sink = new PointSink(null);
                scorer.Score(e, ref sink);
                parts[e] += table.Part(f, sink.Total);
            }
        }

        return parts;
    }
}
