using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

public abstract class IdempotencyClaimTests(Engine engine) : OpenLogTests(engine)
{
    [SkippableFact]
    public async Task An_answer_comes_back_under_its_key_byte_for_byte()
    {
        var claim = Claim(response: string.Concat(Enumerable.Repeat("""{"decisionId":"d-1"}""", 5000)));
        Assert.True(await Log.Append([Record()], claim));

        var stored = await Log.ReadClaim("club", claim.Key, claim.NotBefore);

        Assert.Equal(claim.Response.ToArray(), stored!.Response.ToArray());
        Assert.Equal(claim.BodyHash.ToArray(), stored.BodyHash.ToArray());
    }

    [SkippableFact]
    public async Task An_answer_that_is_no_decision_is_kept_under_its_key_alone()
    {
        await Log.Append([Record("before")], null);
        Assert.True(await Log.Claim("club", Claim(response: "needs")));
        Assert.False(await Log.Claim("club", Claim(response: "other")));
        Assert.False(await Log.Append([Record("after")], Claim(response: "other")));

        Assert.Equal("needs"u8.ToArray(), (await Log.ReadClaim("club", "key-1", Noon))!.Response.ToArray());
        Assert.Equal(["before"], Chains()["club"]);
    }

    [SkippableFact]
    public async Task A_key_that_was_never_sent_has_no_answer() => Assert.Null(await Log.ReadClaim("club", "unknown", Noon));

    [SkippableFact]
    public async Task A_key_belongs_to_one_organisation()
    {
        await Log.Append([Record("a", "a")], Claim(response: "of a"));
        Assert.Null(await Log.ReadClaim("b", "key-1", Noon));

        Assert.True(await Log.Append([Record("b", "b")], Claim(response: "of b")));

        Assert.Equal("of a"u8.ToArray(), (await Log.ReadClaim("a", "key-1", Noon))!.Response.ToArray());
        Assert.Equal("of b"u8.ToArray(), (await Log.ReadClaim("b", "key-1", Noon))!.Response.ToArray());
    }

    [SkippableFact]
    public async Task Of_many_who_send_one_key_at_once_one_is_stored_and_the_others_are_told()
    {
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 16).Select(i => Task.Run(async () => await Log.Append([Record($"d-{i}"), Record($"e-{i}")], Claim(response: $"{i}")))));

        var winner = Array.IndexOf(outcomes, true);
        Assert.Single(outcomes, true);
        Assert.Equal([$"d-{winner}", $"e-{winner}"], Chains()["club"]);
        Assert.Equal($"{winner}", System.Text.Encoding.UTF8.GetString((await Log.ReadClaim("club", "key-1", Noon))!.Response.Span));
    }

    [SkippableFact]
    public async Task A_claim_holds_to_the_last_millisecond_of_its_day()
    {
        await Log.Append([Record("first")], Claim(at: Noon));
        var dayLater = Noon.AddHours(24);

        Assert.NotNull(await Log.ReadClaim("club", "key-1", dayLater.AddHours(-24)));
        Assert.False(await Log.Append([Record("second")], Claim(response: "second", at: dayLater)));
        Assert.Null(await Log.Read("club", "second"));
    }

    [SkippableFact]
    public async Task A_lapsed_claim_is_not_found_and_gives_way_to_a_new_one()
    {
        await Log.Append([Record("first")], Claim(response: "first", at: Noon));
        var later = Noon.AddHours(24).AddMilliseconds(1);
        Assert.Null(await Log.ReadClaim("club", "key-1", later.AddHours(-24)));

        Assert.True(await Log.Append([Record("second")], Claim(body: "another", response: "second", at: later)));

        var stored = await Log.ReadClaim("club", "key-1", later.AddHours(-24));
        Assert.Equal("second"u8.ToArray(), stored!.Response.ToArray());
        Assert.Equal(Claim(body: "another").BodyHash.ToArray(), stored.BodyHash.ToArray());
        Assert.Equal(["first", "second"], Chains()["club"]);
    }

    [SkippableFact]
    public async Task Lapsed_claims_are_swept_as_new_ones_come_so_that_they_do_not_pile_up()
    {
        for (var i = 0; i < 50; i++)
        {
            await Log.Append([Record($"old-{i}")], Claim($"old-{i}"));
        }

        await Log.Append([Record("other", "other")], Claim("old-of-another"));
        for (var i = 0; i < 5; i++)
        {
            await Log.Append([Record($"new-{i}")], Claim($"new-{i}", at: Noon.AddHours(25)));
        }

        Assert.Equal(["new-0", "new-1", "new-2", "new-3", "new-4", "old-of-another"], Outside.Rows("SELECT key FROM idempotency ORDER BY key").Select(r => r[0]));
        Assert.Equal(55, Chains()["club"].Count);
    }
}
