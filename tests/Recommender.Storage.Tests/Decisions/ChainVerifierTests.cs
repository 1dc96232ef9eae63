using Recommender.Storage.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>What somebody who can write to the file may do behind the service's back.</summary>
public abstract class ChainVerifierTests(Engine engine) : OpenLogTests(engine)
{
    private const int Records = 450;

    protected ChainVerifier Verifier => new(Store, new Packings(Store));

    [SkippableFact]
    public async Task An_empty_chain_holds()
    {
        var check = await Verifier.Verify("club");

        Assert.Null(check.FirstBroken);
        Assert.Equal(0, check.Checked);
        Assert.Equal(new byte[32], check.Head.ToArray());
    }

    [SkippableFact]
    public async Task An_untouched_chain_holds_over_several_stretches_and_tells_its_end()
    {
        await Fill();
        await Log.Append([Record("other", "academy")], null);

        var check = await Verifier.Verify("club");

        Assert.Null(check.FirstBroken);
        Assert.Equal(Records, check.Checked);
        Assert.Equal((await Log.Read("club", $"d-{Records}"))!.Hash.ToArray(), check.Head.ToArray());
        Assert.Equal(["academy", "club"], await Verifier.Organisations());
    }

    [SkippableFact]
    public async Task A_walk_tells_how_far_it_is_and_can_be_stopped()
    {
        await Fill();
        var told = new List<long>();
        await Verifier.Verify("club", walked: told.Add);

        Assert.Equal(told.Order(), told);
        Assert.Equal(Records, told[^1]);
        Assert.InRange(told.Count, 3, Records);
        Assert.Equal((Records, told[^1]), ((int)(await Verifier.End("club")).Records, (await Verifier.End("club")).Records));

        using var stop = new CancellationTokenSource();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => Verifier.Verify("club", walked: _ => stop.Cancel(), cancellation: stop.Token));
    }

    /// <summary>SQL, the place that must be named, and a word of the reason.</summary>
    [SkippableTheory]
    [InlineData("UPDATE decisions SET status = 'referred' WHERE sequence = 300", 300, "does not fit its hash")]
    [InlineData("UPDATE decisions SET top = 'front-squat' WHERE sequence = 1", 1, "does not fit its hash")]
    [InlineData("UPDATE decisions SET created_at = created_at + 1 WHERE sequence = 300", 300, "does not fit its hash")]
    [InlineData("UPDATE decisions SET engine = engine + 1 WHERE sequence = 450", 450, "does not fit its hash")]
    [InlineData("UPDATE decisions SET hash = zeroblob(32) WHERE sequence = 300", 300, "does not fit its hash")]
    [InlineData("UPDATE decisions SET previous_hash = zeroblob(32) WHERE sequence = 300", 300, "does not follow")]
    [InlineData("UPDATE decisions SET personal_hash = zeroblob(32) WHERE sequence = 300", 300, "does not fit its hash")]
    [InlineData("UPDATE decisions SET request = (SELECT request FROM decisions WHERE sequence = 299) WHERE sequence = 300", 300, "does not fit its hash")]
    [InlineData("UPDATE decisions SET answer = (SELECT answer FROM decisions WHERE sequence = 299) WHERE sequence = 300", 300, "does not fit its hash")]
    [InlineData("UPDATE decisions SET answer = substr(answer, 1, length(answer) - 1) WHERE sequence = 300", 300, "damaged")]
    [InlineData("UPDATE decisions SET personal = reworded(personal, 'HC-1', 'HC-2') WHERE sequence = 300", 300, "personal part does not fit")]
    [InlineData("UPDATE decisions SET personal_salt = zeroblob(16) WHERE sequence = 300", 300, "personal part does not fit")]
    [InlineData("UPDATE decisions SET athlete_ref = 'NM-05' WHERE sequence = 300", 300, "Ref or coach")]
    [InlineData("UPDATE decisions SET coach = NULL WHERE sequence = 300", 300, "Ref or coach")]
    [InlineData("UPDATE decisions SET personal_salt = NULL WHERE sequence = 300", 300, "part of it is still there")]
    [InlineData("DELETE FROM decisions WHERE sequence = 300", 300, "missing")]
    [InlineData("DELETE FROM decisions WHERE sequence >= 300", 300, "the last ones are missing")]
    [InlineData("DELETE FROM decisions", 1, "the last ones are missing")]
    [InlineData("DELETE FROM chain_heads", 1, "recorded end")]
    [InlineData("UPDATE chain_heads SET hash = zeroblob(32)", 451, "recorded end")]
    [InlineData("UPDATE decisions SET sequence = 1000 WHERE sequence = 300", 300, "missing")]
    [InlineData("DELETE FROM decision_exercises WHERE sequence = 300", 300, "search index")]
    [InlineData("UPDATE decision_exercises SET exercise = 'front-squat' WHERE sequence = 300", 300, "search index")]
    [InlineData("UPDATE decision_exercises SET created_at = 1 WHERE sequence = 300", 300, "search index")]
    [InlineData("INSERT INTO decision_exercises VALUES ('club', 'front-squat', 0, 300)", 300, "search index")]
    public async Task Names_the_first_record_that_was_tampered_with(string sql, long position, string reason)
    {
        await Fill();
        Outside.Run(sql);

        var broken = (await Verifier.Verify("club")).FirstBroken;

        Assert.NotNull(broken);
        Assert.Equal(position, broken.Position);
        Assert.Contains(reason, broken.Problem, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task Two_rows_that_changed_places_are_found()
    {
        await Fill();
        Outside.Run("UPDATE decisions SET sequence = -1 WHERE sequence = 300; UPDATE decisions SET sequence = 300 WHERE sequence = 301; UPDATE decisions SET sequence = 301 WHERE sequence = -1");

        var broken = (await Verifier.Verify("club")).FirstBroken;

        Assert.Equal(300, broken!.Position);
        Assert.Equal("d-301", broken.DecisionId);
    }

    [SkippableFact]
    public async Task One_byte_changed_anywhere_in_request_or_answer_is_found()
    {
        await Log.Append([Record()], null);
        foreach (var column in new[] { "request", "answer", "personal", "personal_salt", "personal_hash", "previous_hash", "hash" })
        {
            var whole = Outside.Value<byte[]>($"SELECT {column} FROM decisions");
            for (var i = 0; i < whole.Length; i++)
            {
                var changed = (byte[])whole.Clone();
                changed[i] ^= 0x10;
                Outside.Run($"UPDATE decisions SET {column} = x'{Convert.ToHexString(changed)}'");

                // A bit of a frame's header may say nothing about its content; what comes out is then what was put in.
                var broken = (await Verifier.Verify("club")).FirstBroken;
                Assert.True(broken is not null || column is "request" or "answer", $"{column}, byte {i}");
                Assert.True(broken is not null || (await Log.Read("club", "d-1"))!.Record is var r && r.Request.Span.SequenceEqual(Record().Request.Span) && r.Answer.Span.SequenceEqual(Record().Answer.Span), $"{column}, byte {i}");
            }

            Outside.Run($"UPDATE decisions SET {column} = x'{Convert.ToHexString(whole)}'");
        }

        Assert.Null((await Verifier.Verify("club")).FirstBroken);
    }

    [SkippableFact]
    public async Task A_chain_holds_once_an_athlete_was_erased_and_names_a_forged_part()
    {
        await Fill();
        Assert.Equal(Records, await Log.Erase("club", "NM-04"));

        Assert.Null((await Verifier.Verify("club")).FirstBroken);
        Outside.Run("UPDATE decisions SET athlete_ref = 'NM-07' WHERE sequence = 9");
        Assert.Equal(9, (await Verifier.Verify("club")).FirstBroken!.Position);
    }

    [SkippableFact]
    public async Task An_answer_under_a_callers_key_is_held_against_the_record()
    {
        await Log.Append([Record("d-1")], Claim(response: """{"decisionId":"d-1","picks":[{"exercise":{"id":"back-squat"}}]}"""));
        Assert.Null((await Verifier.Verify("club")).FirstBroken);
        await Log.Append([Record("d-2")], Claim("key-2", response: """{"answers":[{"problem":{}},{"answer":{"decisionId":"d-2","picks":[]}}]}"""));

        var broken = (await Verifier.Verify("club")).FirstBroken!;

        Assert.Equal(("d-2", 2L), (broken.DecisionId, broken.Position));
        Assert.Contains("caller's key", broken.Problem, StringComparison.Ordinal);
    }

    protected async Task Fill() => Assert.True(await Log.Append([.. Enumerable.Range(1, Records).Select(i => Record($"d-{i}"))], null));
}
