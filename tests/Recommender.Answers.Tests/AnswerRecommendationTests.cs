using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;
using Recommender.Testing;
using static Recommender.Answers.Tests.Desk;

namespace Recommender.Answers.Tests;

public sealed class AnswerRecommendationTests : DeskTests
{
    [Fact]
    public async Task What_is_sent_is_what_is_on_record()
    {
        var outcome = await Desk.Answers.One(Least(), "club", null);

        var stored = (await Desk.Log.Read("club", outcome.Answer!.DecisionId))!.Record;
        Assert.Equal(outcome.Sent, stored.Answer.ToArray());
        Assert.Equal(outcome.Answer.DecisionId, (string?)JsonNode.Parse(outcome.Sent)!["decisionId"]);
        Assert.Equal("recommendation", stored.Kind);
        Assert.Equal("answered", stored.Status);
        Assert.Equal(outcome.Answer.Picks[0].Exercise.Id, stored.Top);
        Assert.Equal(outcome.Answer.Versions, stored.Versions);
        Assert.Equal(DateTimeOffset.FromUnixTimeMilliseconds(Now.ToUnixTimeMilliseconds()), stored.CreatedAt);
    }

    [Fact]
    public async Task The_bytes_sent_are_the_answer_in_the_wire_shape()
    {
        var outcome = await Desk.Answers.One(Least(), "club", null);

        Assert.Equal(JsonSerializer.Serialize(outcome.Answer!, WireJson.Default.Answer), Encoding.UTF8.GetString(outcome.Sent!));
    }

    [Fact]
    public async Task A_short_answer_after_a_long_one_holds_nothing_of_it()
    {
        await Desk.Answers.One(Least() with { Count = 30 }, "club", null);
        var outcome = await Desk.Answers.One(Least() with { Count = 1 }, "club", null);

        Assert.Single(JsonNode.Parse(outcome.Sent)!["picks"]!.AsArray());
    }

    [Fact]
    public async Task A_referral_is_on_record_without_a_first_exercise()
    {
        var flag = TestEdition.Current.Catalogue.Vocabulary.RedFlags.First(f => f.Scope == "all").Id;

        var outcome = await Desk.Answers.One(Least() with { RedFlags = [flag] }, "club", null);

        var stored = (await Desk.Log.Read("club", outcome.Answer!.DecisionId))!.Record;
        Assert.Equal("referred", stored.Status);
        Assert.Null(stored.Top);
    }

    [Fact]
    public async Task Nothing_eligible_is_on_record_too()
    {
        var outcome = await Desk.Answers.One(Least() with { Exclude = [.. TestEdition.Current.Catalogue.Exercises.Select(e => e.Id)] }, "club", null);

        Assert.Equal(AnswerStatus.NothingEligible, outcome.Answer!.Status);
        Assert.Equal("nothing-eligible", (await Desk.Log.Read("club", outcome.Answer.DecisionId))!.Record.Status);
    }

    [Fact]
    public async Task A_request_with_faults_gets_them_all_and_nothing_is_stored()
    {
        var outcome = await Desk.Answers.One(Faulty() with { Count = 0 }, "club", Claim());

        Assert.Equal(["/phase", "/count"], outcome.Faults.Select(f => f.Pointer));
        Assert.Null(outcome.Sent);
        Assert.False(outcome.KeyTaken);
        Assert.Equal(0, await Desk.Count());
        Assert.Null(await Desk.Log.ReadClaim("club", "key", default));
    }

    [Fact]
    public async Task The_answer_is_kept_under_the_key_it_was_asked_with()
    {
        var outcome = await Desk.Answers.One(Least(), "club", Claim());

        Assert.False(outcome.KeyTaken);
        Assert.Equal(outcome.Sent, (await Desk.Log.ReadClaim("club", "key", Now.AddHours(-24)))!.Response.ToArray());
    }

    [Fact]
    public async Task Who_comes_second_with_a_key_is_told_and_leaves_no_record()
    {
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => Desk.Answers.One(Least(), "club", Claim()))));

        Assert.Single(outcomes, o => !o.KeyTaken);
        Assert.Equal(1, await Desk.Count());
        foreach (var outcome in outcomes)
        {
            Assert.Equal(outcome.KeyTaken, await Desk.Log.Read("club", outcome.Answer!.DecisionId) is null);
        }
    }

    [Fact]
    public async Task No_answer_leaves_when_it_cannot_be_stored()
    {
        await Desk.Log.DisposeAsync();

        await Assert.ThrowsAsync<StoreUnavailableException>(() => Desk.Answers.One(Least(), "club", null));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => Desk.Answers.Many([Least()], "club", _ => [], null));
        Assert.Equal(0, await Desk.Count());
    }

    [Fact]
    public async Task An_edition_put_in_force_answers_the_next_request()
    {
        var before = await Desk.Answers.One(Least(), "club", null);
        Desk.Editions.Replace("club", new Edition(TestEdition.Current.Catalogue, TestEdition.Current.Knowledge, "next-catalogue", "next-rules"), 1);

        var after = await Desk.Answers.One(Least(), "club", null);

        Assert.Equal((TestEdition.Current.CatalogueVersion, TestEdition.Current.RulesVersion), (before.Answer!.Versions.Catalogue, before.Answer.Versions.Rules));
        Assert.Equal(("next-catalogue", "next-rules"), (after.Answer!.Versions.Catalogue, after.Answer.Versions.Rules));
    }

    [Fact]
    public async Task The_same_request_gets_the_same_bytes_but_for_its_id()
    {
        var first = await Desk.Answers.One(Least(), "club", null);
        var second = await Desk.Answers.One(Least(), "club", null);

        Assert.NotEqual(first.Answer!.DecisionId, second.Answer!.DecisionId);
        Assert.Equal(WithoutId(first), WithoutId(second));
    }

    [Fact]
    public async Task A_batch_is_answered_in_order_and_those_with_faults_keep_their_place()
    {
        IReadOnlyList<DecisionOutcome<Domain.Decisions.Answer>> parts = [];
        var outcome = await Desk.Answers.Many([Least() with { Count = 1 }, Faulty(), null, Least() with { Count = 2 }], "club", o =>
        {
            parts = o;
            return "whole"u8.ToArray();
        }, Claim());

        Assert.Equal("whole"u8.ToArray(), outcome.Sent);
        Assert.False(outcome.KeyTaken);
        Assert.Equal([1, 0, 0, 2], parts.Select(p => p.Answer?.Picks.Count ?? 0));
        Assert.Equal([0, 1, 1, 0], parts.Select(p => p.Faults.Count));
        Assert.Equal(new Fault("", "required", "the request is null; give an object."), parts[2].Faults[0]);
        Assert.Equal(2, await Desk.Count());
        foreach (var part in parts.Where(p => p.Sent is not null))
        {
            Assert.Equal(part.Sent, (await Desk.Log.Read("club", part.Answer!.DecisionId))!.Record.Answer.ToArray());
        }

        Assert.Equal("whole"u8.ToArray(), (await Desk.Log.ReadClaim("club", "key", Now.AddHours(-24)))!.Response.ToArray());
    }

    [Fact]
    public async Task A_batch_whose_key_was_taken_stores_nothing()
    {
        await Desk.Answers.One(Least(), "club", Claim());

        var outcome = await Desk.Answers.Many([Least(), Least()], "club", _ => "whole"u8.ToArray(), Claim());

        Assert.True(outcome.KeyTaken);
        Assert.Equal(1, await Desk.Count());
    }

    [Fact]
    public async Task A_batch_of_faults_alone_stores_nothing()
    {
        var outcome = await Desk.Answers.Many([Faulty(), null], "club", o => Encoding.UTF8.GetBytes($"{o.Count}"), Claim());

        Assert.Equal("2"u8.ToArray(), outcome.Sent);
        Assert.False(outcome.KeyTaken);
        Assert.Equal(0, await Desk.Count());
    }

    private static string WithoutId(DecisionOutcome<Domain.Decisions.Answer> outcome) => Encoding.UTF8.GetString(outcome.Sent!).Replace(outcome.Answer!.DecisionId, "", StringComparison.Ordinal);
}
