using System.Runtime.CompilerServices;
using System.Text.Json;
using Recommender.Answers.Learned;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>What a draft would change: the last decisions are answered again on what is in force and on the draft. Nothing is recorded.</summary>
/// <param name="decisions">Reads records.</param>
/// <param name="log">Reads decisions that a session names.</param>
/// <param name="facts">Gives what was read from the store for each.</param>
public sealed class VersionImpact(DecisionReader decisions, IDecisionLog log, ReadFacts facts)
{
    /// <summary>Decisions that are worked on together, and told about when they are done.</summary>
    private const int Together = 200;

    /// <summary>Tries a draft, newest decision first.</summary>
    /// <param name="organisation">Whose decisions.</param>
    /// <param name="now">What is in force.</param>
    /// <param name="draft">The draft.</param>
    /// <param name="last">At most so many.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>After each stretch: how far it is, and the decisions of it whose answers differ.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async IAsyncEnumerable<ImpactStretch> Of(string organisation, Edition now, Edition draft, int last, [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        var (done, refused) = (0, 0);
        DecisionPlace? after = null;
        while (done < last)
        {
            cancellation.ThrowIfCancellationRequested();
            var rows = await decisions.Newest(organisation, after, Math.Min(Together, last - done)).ConfigureAwait(false);
            if (rows.Count == 0)
            {
                yield break;
            }

            var (earlier, read) = (new EarlierPicks?[rows.Count], new FactsRead[rows.Count]);
            for (var i = 0; i < rows.Count; i++)
            {
                earlier[i] = await AnswerSession.EarlierOf(rows[i].Record, log).ConfigureAwait(false);
                read[i] = await facts.OfRecord(rows[i].Record).ConfigureAwait(false) ?? FactsRead.Nothing;
            }

            var tried = new (bool Answered, ImpactLine? Line)[rows.Count];
            Parallel.For(0, rows.Count, new ParallelOptions { CancellationToken = cancellation, MaxDegreeOfParallelism = Environment.ProcessorCount }, i => tried[i] = Try(rows[i].Record, now, draft, earlier[i], read[i]));
            done += rows.Count;
            refused += tried.Count(t => !t.Answered);
            after = new DecisionPlace(rows[^1].Record.CreatedAt, rows[^1].Sequence);
            yield return new ImpactStretch(done, refused, [.. tried.Select(t => t.Line).OfType<ImpactLine>()]);
        }
    }

    private static (bool Answered, ImpactLine? Line) Try(DecisionRecord record, Edition now, Edition draft, EarlierPicks? earlier, FactsRead read)
    {
        var kind = DecisionKind.Of(record.Kind);
        var (before, _) = kind.Again(record.Request.Span, now, record.DecisionId, earlier, read);
        if (before is null)
        {
            return (false, null);
        }

        var (after, faults) = kind.Again(record.Request.Span, draft, record.DecisionId, earlier, read);
        if (after is null)
        {
            return (true, new ImpactLine(record.DecisionId, record.Kind, record.AthleteRef, TopOf(before), null, [], [], 0, $"The request is refused on the draft: {faults[0].Message}"));
        }

        return (true, ImpactReading.Of(record, before, after));
    }

    private static string? TopOf(byte[] answer)
    {
        using var document = JsonDocument.Parse(answer);
        return document.RootElement.GetProperty("picks").EnumerateArray().Select(p => p.GetProperty("exercise").GetProperty("id").GetString()).FirstOrDefault();
    }
}

/// <summary>How far a trial is.</summary>
/// <param name="Done">Decisions tried so far.</param>
/// <param name="Refused">Of them, those whose request cannot be answered on what is in force any more; they are not compared.</param>
/// <param name="Lines">Decisions of this stretch whose answers differ.</param>
public sealed record ImpactStretch(int Done, int Refused, IReadOnlyList<ImpactLine> Lines);

/// <summary>A decision that would be answered otherwise.</summary>
/// <param name="DecisionId">Id.</param>
/// <param name="Kind">Kind of decision.</param>
/// <param name="AthleteRef">The athlete's ref; null when none was sent or it was erased.</param>
/// <param name="TopWas">First pick on what is in force, or null.</param>
/// <param name="TopIs">First pick on the draft, or null.</param>
/// <param name="Leave">Picks that go.</param>
/// <param name="Enter">Picks that come.</param>
/// <param name="DosesChanged">Picks that stay with another dose.</param>
/// <param name="Why">Why the first pick moved, or what else differs, in a sentence.</param>
public sealed record ImpactLine(string DecisionId, string Kind, string? AthleteRef, string? TopWas, string? TopIs, IReadOnlyList<string> Leave, IReadOnlyList<string> Enter, int DosesChanged, string Why);
