using Recommender.Domain.Decisions;
using Recommender.Storage.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

public abstract class DecisionLogTests(Engine engine) : OpenLogTests(engine)
{
    [SkippableFact]
    public async Task Gives_back_every_field_as_it_was_appended()
    {
        var record = Record() with { Versions = new VersionStamp(7, "cat", "rul", "pref"), CreatedAt = Noon.AddMilliseconds(123) };
        Assert.True(await Log.Append([record], null));

        var stored = await Log.Read("club", "d-1");

        Assert.NotNull(stored);
        Assert.Equal(Bare(record), Bare(stored.Record));
        Assert.Equal(Bytes(record), Bytes(stored.Record));
        Assert.False(stored.PersonalDataErased);
        Assert.Equal(new byte[32], stored.PreviousHash.ToArray());
        Assert.Equal(1, stored.Sequence);
        Assert.Equal(new RecordHash(record).At(1, new byte[32]), stored.Hash.ToArray());
    }

    [SkippableFact]
    public async Task Gives_back_a_record_without_ref_notes_top_and_preference()
    {
        var record = Record() with { Top = null, AthleteRef = null, Coach = null, Personal = default };
        await Log.Append([record], null);

        var stored = await Log.Read("club", "d-1");

        Assert.Equal(Bare(record), Bare(stored!.Record));
        Assert.True(stored.Record.Personal.IsEmpty);
        Assert.False(stored.PersonalDataErased);
    }

    [SkippableTheory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(70_000)]
    [InlineData(3_000_000)]
    public async Task Gives_back_an_answer_byte_for_byte_whatever_its_bytes(int length)
    {
        var bytes = new byte[length];
        new Random(length).NextBytes(bytes);
        await Log.Append([Record() with { Answer = bytes, Request = bytes }], null);

        var stored = (await Log.Read("club", "d-1"))!.Record;

        Assert.Equal(bytes, stored.Answer.ToArray());
        Assert.Equal(bytes, stored.Request.ToArray());
    }

    [SkippableFact]
    public async Task Says_when_the_personal_part_was_erased()
    {
        await Log.Append([Record()], null);
        Outside.Run("UPDATE decisions SET personal = NULL, personal_salt = NULL, athlete_ref = NULL, coach = NULL");

        var stored = await Log.Read("club", "d-1");

        Assert.True(stored!.PersonalDataErased);
        Assert.True(stored.Record.Personal.IsEmpty);
        Assert.Null(stored.Record.AthleteRef);
    }

    [SkippableFact]
    public async Task Has_no_record_under_an_unknown_id() => Assert.Null(await Log.Read("club", "nothing"));

    [SkippableFact]
    public async Task Another_organisation_cannot_read_a_record()
    {
        await Log.Append([Record("d-1", "club")], null);

        Assert.Null(await Log.Read("academy", "d-1"));
        Assert.NotNull(await Log.Read("club", "d-1"));
    }

    [SkippableFact]
    public async Task Each_organisation_has_a_chain_of_its_own()
    {
        await Log.Append([Record("a-1", "a")], null);
        await Log.Append([Record("b-1", "b")], null);
        await Log.Append([Record("a-2", "a"), Record("a-3", "a")], null);
        await Log.Append([Record("b-2", "b")], null);

        var chains = Chains();

        Assert.Equal(["a-1", "a-2", "a-3"], chains["a"]);
        Assert.Equal(["b-1", "b-2"], chains["b"]);
    }

    [SkippableFact]
    public async Task Two_thousand_appends_from_thirty_two_tasks_make_one_unbroken_chain_an_organisation()
    {
        string[] organisations = ["a", "b", "c"];
        await Task.WhenAll(Enumerable.Range(0, 32).Select(task => Task.Run(async () =>
        {
            for (var i = task; i < 2000; i += 32)
            {
                Assert.True(await Log.Append([Record($"d-{i}", organisations[i % 3])], null));
            }
        })));

        var chains = Chains();

        for (var o = 0; o < 3; o++)
        {
            var expected = Enumerable.Range(0, 2000).Where(i => i % 3 == o).Select(i => $"d-{i}");
            Assert.Equal(expected.Order(), chains[organisations[o]].Order());
        }
    }

    [SkippableFact]
    public async Task One_task_finds_its_own_records_in_the_order_in_which_it_appended_them()
    {
        await Task.WhenAll(Enumerable.Range(0, 8).Select(task => Task.Run(async () =>
        {
            for (var i = 0; i < 25; i++)
            {
                await Log.Append([Record($"{task}/{i:00}")], null);
            }
        })));

        foreach (var ofOneTask in Chains()["club"].GroupBy(id => id.Split('/')[0]))
        {
            Assert.Equal(Enumerable.Range(0, 25).Select(i => $"{ofOneTask.Key}/{i:00}"), ofOneTask);
        }
    }

    [SkippableFact]
    public async Task A_batch_stands_together_and_in_order_among_others()
    {
        await Task.WhenAll(Enumerable.Range(0, 40).Select(async batch => await Log.Append([.. Enumerable.Range(0, 10).Select(i => Record($"{batch:00}/{i}"))], null)));

        var ids = Chains()["club"];

        Assert.Equal(400, ids.Count);
        Assert.All(ids.Chunk(10), batch => Assert.Equal(Enumerable.Range(0, 10).Select(i => $"{batch[0][..2]}/{i}"), batch));
    }

    [SkippableFact]
    public async Task An_outside_connection_sees_a_record_as_soon_as_its_caller_is_answered()
    {
        for (var i = 0; i < 50; i++)
        {
            await Log.Append([Record($"d-{i}")], null);
            Assert.Equal(i + 1L, Outside.Value<long>("SELECT COUNT(*) FROM decisions"));
        }
    }

    [SkippableFact]
    public async Task The_chain_goes_on_where_a_closed_log_left_it()
    {
        await Log.Append([Record("d-1")], null);
        await Log.DisposeAsync();
        await using (var next = new DecisionLog(Store, new Packings(Store)))
        {
            await next.Append([Record("d-2")], null);
        }

        Assert.Equal(["d-1", "d-2"], Chains()["club"]);
    }

    [SkippableFact]
    public async Task Two_programs_that_append_to_one_file_do_not_fork_the_chain()
    {
        using var otherStore = Place.Open();
        await using var other = new DecisionLog(otherStore, new Packings(otherStore));
        for (var i = 0; i < 20; i++)
        {
            await (i % 2 == 0 ? Log : other).Append([Record($"turn-{i}")], null);
        }

        await Task.WhenAll(Enumerable.Range(0, 100).Select(async i => await (i % 2 == 0 ? Log : other).Append([Record($"race-{i}")], null)));

        Assert.Equal(120, Chains()["club"].Count);
    }

    [SkippableFact]
    public async Task Refuses_to_append_nothing() =>
        await Assert.ThrowsAsync<ArgumentException>(async () => await Log.Append([], null));

    [SkippableFact]
    public async Task Refuses_records_of_two_organisations_in_one_append()
    {
        await Assert.ThrowsAsync<ArgumentException>(async () => await Log.Append([Record("a-1", "a"), Record("b-1", "b")], null));

        Assert.Empty(Chains());
    }

    [SkippableFact]
    public async Task Once_closed_an_append_fails_at_once_and_a_read_still_works()
    {
        await Log.Append([Record("d-1")], null);
        await Log.DisposeAsync();

        await Assert.ThrowsAsync<StoreUnavailableException>(async () => await Log.Append([Record("d-2")], null));
        Assert.NotNull(await Log.Read("club", "d-1"));
    }

    [SkippableFact]
    public async Task Closing_twice_is_harmless()
    {
        await Log.DisposeAsync();
        await Log.DisposeAsync();
    }

    [SkippableFact]
    public async Task A_damaged_answer_is_told_and_never_given()
    {
        await Log.Append([Record()], null);
        foreach (var damage in new[] { "x''", "x'000000'", "x'0000000728b52ffd'", "x'ffffffff28b52ffd'", "x'00000000'", "substr(answer, 1, length(answer) - 1)" })
        {
            Outside.Run($"UPDATE decisions SET answer = {damage}");

            await Assert.ThrowsAsync<InvalidDataException>(() => Log.Read("club", "d-1"));
        }
    }

    /// <summary>The fields that compare by value, without those that compare by address.</summary>
    private static DecisionRecord Bare(DecisionRecord r) =>
        r with { Request = default, Personal = default, PersonalSalt = default, PersonalHash = default, Answer = default, Exercises = [] };

    private static string[] Bytes(DecisionRecord r) =>
        [.. new[] { r.Request, r.Personal, r.PersonalSalt, r.PersonalHash, r.Answer }.Select(b => Convert.ToHexString(b.Span))];
}
