using System.Text.Json;
using Dapper;
using Recommender.Domain.Decisions;

namespace Recommender.Storage.Decisions;

/// <summary>
/// Walks an organisation's chain from its first record and names the first that does not fit: changed, missing, moved or damaged. Every table that repeats what a decision says is held
/// against it: the search index of exercises, the ref and coach beside the personal part, the end of the chain, and answers kept under callers' keys.
/// </summary>
/// <param name="store">The open store.</param>
/// <param name="packings">What answers are packed with.</param>
public sealed class ChainVerifier(Store store, Packings packings)
{
    private const int StretchLength = 200;

    /// <summary>Organisations that have a chain.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<string>> Organisations() =>
        [.. await store.Use(c => c.QueryAsync<string>(DecisionReadSql.Organisations)).ConfigureAwait(false)];

    /// <summary>The recorded end of a chain.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<ChainEnd> End(string organisation)
    {
        var head = await Recorded(organisation).ConfigureAwait(false);
        return new ChainEnd(head.Sequence, head.Hash);
    }

    /// <summary>Walks a chain.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="noted">A hash that was noted earlier and is looked for; null for none.</param>
    /// <param name="walked">Told how many records fit so far, after each stretch.</param>
    /// <param name="cancellation">Stops the walk.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now; a damaged file is told as a break.</exception>
    public async Task<ChainCheck> Verify(string organisation, byte[]? noted = null, Action<long>? walked = null, CancellationToken cancellation = default)
    {
        bool? found = noted is null ? null : false;
        var head = ChainHead.Empty(organisation);
        try
        {
            // Records that are appended while this walks are walked too; the end is read after them.
            while (true)
            {
                cancellation.ThrowIfCancellationRequested();
                var (rows, indexed) = await Next(organisation, head.Sequence).ConfigureAwait(false);
                foreach (var row in rows)
                {
                    if (Problem(row, head, indexed[row.Sequence]) is { } problem)
                    {
                        return new ChainCheck(head.Sequence, head.Hash, new ChainBreak(row.DecisionId, head.Sequence + 1, problem), found);
                    }

                    head = new ChainHead { Organisation = organisation, Sequence = row.Sequence, Hash = row.Hash };
                    found |= noted.AsSpan().SequenceEqual(row.Hash);
                }

                walked?.Invoke(head.Sequence);
                if (rows.Count < StretchLength && await Ended(organisation, head).ConfigureAwait(false) is var (ended, missing) && ended)
                {
                    var firstBreak = missing ?? await ClaimBreak(organisation, cancellation).ConfigureAwait(false);
                    return new ChainCheck(head.Sequence, head.Hash, firstBreak, found);
                }
            }
        }
        catch (StoreUnavailableException e) when (e.InnerException is { } cause && store.FaultOf(cause) == StoreFault.Damaged)
        {
            return new ChainCheck(head.Sequence, head.Hash, new ChainBreak(null, head.Sequence + 1, "The store is damaged and cannot be read from here on."), found);
        }
    }

    private async Task<(List<DecisionRow> Rows, ILookup<long, IndexedExercise> Indexed)> Next(string organisation, long after)
    {
        var rows = (await store.Use(c => c.QueryAsync<DecisionRow>(DecisionReadSql.Stretch, new { organisation, after, limit = StretchLength })).ConfigureAwait(false)).AsList();
        var last = rows.Count == 0 ? after : rows[^1].Sequence;
        var indexed = await store.Use(c => c.QueryAsync<IndexedExercise>(DecisionReadSql.IndexedExercises, new { organisation, after, last })).ConfigureAwait(false);
        return (rows, indexed.ToLookup(x => x.Sequence));
    }

    private string? Problem(DecisionRow row, ChainHead before, IEnumerable<IndexedExercise> indexed)
    {
        if (row.Sequence != before.Sequence + 1)
        {
            return $"The record at this place is missing; the next one is at {row.Sequence}.";
        }

        if (!row.PreviousHash.AsSpan().SequenceEqual(before.Hash))
        {
            return "The record does not follow the one before it: it was changed or moved, or the one before it was.";
        }

        StoredDecision stored;
        try
        {
            stored = row.ToStored(packings);
        }
        catch (InvalidDataException)
        {
            return "The request or the answer is damaged and cannot be unpacked.";
        }

        if (!new RecordHash(stored.Record).At(row.Sequence, row.PreviousHash).AsSpan().SequenceEqual(row.Hash))
        {
            return "The record does not fit its hash: request, answer or another field was changed.";
        }

        return PersonalProblem(stored) ?? IndexProblem(row, stored, indexed);
    }

    /// <summary>The personal part against its hash, and ref and coach against the part.</summary>
    private static string? PersonalProblem(StoredDecision stored)
    {
        var record = stored.Record;
        if (stored.PersonalDataErased)
        {
            return record.Personal.IsEmpty && record.AthleteRef is null && record.Coach is null ? null : "The personal part's salt is gone, and part of it is still there.";
        }

        if (!RecordHash.OfPersonal(record.PersonalSalt.Span, record.Personal.Span).AsSpan().SequenceEqual(record.PersonalHash.Span))
        {
            return "The personal part does not fit its hash: ref, coach or a note was changed.";
        }

        var (athlete, coach) = record.Personal.IsEmpty ? (null, null) : PersonalFields.Of(record.Personal);
        return athlete == record.AthleteRef && coach == record.Coach ? null : "Ref or coach in the search index is not that of the record.";
    }

    private static string? IndexProblem(DecisionRow row, StoredDecision stored, IEnumerable<IndexedExercise> indexed)
    {
        var expected = AnsweredExercises.Of(stored.Record.Answer).Order(StringComparer.Ordinal);
        return indexed.All(x => x.CreatedAt == row.CreatedAt) && indexed.Select(x => x.Exercise).Order(StringComparer.Ordinal).SequenceEqual(expected)
            ? null
            : "The search index of exercises does not fit the answer.";
    }

    private async Task<ChainHead> Recorded(string organisation) =>
        await store.Use(c => c.QuerySingleOrDefaultAsync<ChainHead>(DecisionSql.Head, new { organisation })).ConfigureAwait(false) ?? ChainHead.Empty(organisation);

    /// <summary>Whether the walk has come to the recorded end of the chain, or past what is there.</summary>
    private async Task<(bool Ended, ChainBreak? Missing)> Ended(string organisation, ChainHead walked)
    {
        var recorded = await Recorded(organisation).ConfigureAwait(false);
        if (recorded.Sequence > walked.Sequence && (await Next(organisation, walked.Sequence).ConfigureAwait(false)).Rows.Count > 0)
        {
            return (false, null);
        }

        return (true, recorded.Sequence > walked.Sequence ? new ChainBreak(null, walked.Sequence + 1, $"The chain ends here, and {recorded.Sequence} records were appended: the last ones are missing.")
            : recorded.Sequence < walked.Sequence || !recorded.Hash.AsSpan().SequenceEqual(walked.Hash) ? new ChainBreak(null, recorded.Sequence + 1, "The recorded end of the chain is not that of its records.")
            : null);
    }

    /// <summary>Answers under callers' keys hold decisions again, each as its record has it.</summary>
    private async Task<ChainBreak?> ClaimBreak(string organisation, CancellationToken cancellation)
    {
        var after = "";
        while (true)
        {
            cancellation.ThrowIfCancellationRequested();
            var claims = (await store.Use(c => c.QueryAsync<ClaimRow>(DecisionReadSql.Claims, new { organisation, after, limit = StretchLength })).ConfigureAwait(false)).AsList();
            foreach (var claim in claims)
            {
                if (await ClaimBreak(organisation, claim).ConfigureAwait(false) is { } broken)
                {
                    return broken;
                }

                after = claim.Key;
            }

            if (claims.Count < StretchLength)
            {
                return null;
            }
        }
    }

    private async Task<ChainBreak?> ClaimBreak(string organisation, ClaimRow claim)
    {
        try
        {
            foreach (var (id, answer) in AnsweredExercises.Decisions(packings.Unpack(claim.Response)))
            {
                var row = await store.Use(c => c.QuerySingleOrDefaultAsync<DecisionRow>(DecisionReadSql.One, new { organisation, decisionId = id })).ConfigureAwait(false);
                if (row is null || !row.ToStored(packings).Record.Answer.Span.SequenceEqual(answer))
                {
                    return new ChainBreak(id, row?.Sequence ?? 0, "The answer kept under a caller's key is not the one on record.");
                }
            }

            return null;
        }
        catch (Exception e) when (e is InvalidDataException or JsonException)
        {
            return new ChainBreak(null, 0, "An answer kept under a caller's key is damaged.");
        }
    }

    private sealed class IndexedExercise
    {
        public long Sequence { get; init; }

        public string Exercise { get; init; } = "";

        public long CreatedAt { get; init; }
    }
}

/// <summary>The recorded end of a chain.</summary>
/// <param name="Records">How many records were appended.</param>
/// <param name="Hash">Hash of the last; zeros for an empty chain.</param>
public sealed record ChainEnd(long Records, ReadOnlyMemory<byte> Hash);

/// <summary>What a walk along a chain found.</summary>
/// <param name="Checked">Records that fit, from the first on.</param>
/// <param name="Head">Hash of the last of them: noted elsewhere, it shows later that nothing before it was changed.</param>
/// <param name="FirstBroken">The first that does not fit, or null.</param>
/// <param name="HeadFound">Whether one of them carries the hash that was looked for; null when none was.</param>
public sealed record ChainCheck(long Checked, ReadOnlyMemory<byte> Head, ChainBreak? FirstBroken, bool? HeadFound);

/// <summary>Where a chain does not hold.</summary>
/// <param name="DecisionId">The record, or null when it is not there.</param>
/// <param name="Position">Its place in the chain, from 1; 0 when it has none.</param>
/// <param name="Problem">What is wrong.</param>
public sealed record ChainBreak(string? DecisionId, long Position, string Problem);
