using System.Text.Json;
using CsCheck;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Domain.Tests.Sessions;

/// <summary>What holds of every session. CsCheck prints the seed of a failure.</summary>
public sealed class SessionPropertyTests(ITestOutputHelper output)
{
    private static readonly string[] Order = ["warm-up", "power", "strength", "accessory", "trunk", "mobility"];

    private static Gen<SessionRequest> Requests { get; } = Gen.Select(
        RequestGenerator.Requests, Gen.Int[0, 3], Gen.Int[2, 8], Gen.Int[8, 90],
        Gen.Frequency((2, Gen.Const<(string, int)[]>(() => [])), (1, Gen.Select(RequestGenerator.One(TestEdition.Vocabulary.Regions.Select(r => r.Id)), Gen.Int[1, 600]).Array[1, 3])),
        (context, kind, most, minutes, budgets) => new SessionRequest
        {
            Context = context with { Setting = (context.Setting ?? new SettingFacts()) with { Minutes = kind == 0 ? null : minutes } },
            Slots = kind == 3 ? new SlotRange { Max = most } : null,
            Budgets = budgets.Length == 0 ? null : budgets.GroupBy(b => b.Item1, StringComparer.Ordinal).ToDictionary(g => g.Key, g => (decimal)g.First().Item2, StringComparer.Ordinal),
        });

    [Fact]
    public void Every_limit_holds_in_every_answer()
    {
        var (answered, proven, blocked) = (0, 0, 0);
        Requests.Sample(request =>
        {
            Assert.Empty(SessionChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge));
            var answer = SessionPipeline.Answer(request, TestEdition.Current, "");
            Holds(request, answer);
            Interlocked.Add(ref answered, answer.Status == AnswerStatus.Answered ? 1 : 0);
            Interlocked.Add(ref proven, answer.Optimality.Proven ? 1 : 0);
            Interlocked.Add(ref blocked, answer.Blocks.Count > 0 ? 1 : 0);
        }, iter: 500, threads: 1);
        output.WriteLine($"500 requests: {answered} answered, {proven} proven, {blocked} with what blocks.");
        Assert.Equal(500, proven);
        Assert.InRange(answered, 250, 500);
    }

    /// <summary>Of sets under the same rules: where so few minutes leave no balanced set, balance is left aside and an unbalanced one may be worth more than the balanced one that more minutes bring back.</summary>
    [Fact]
    public void More_minutes_never_make_a_worse_set() =>
        Gen.Select(Requests, Gen.Int[8, 60], Gen.Int[1, 15]).Sample((request, minutes, more) =>
        {
            SessionRequest Of(int m) => request with { Context = request.Context! with { Setting = request.Context.Setting! with { Minutes = m } } };
            var (shorter, longer) = (SessionPipeline.Answer(Of(minutes), TestEdition.Current, ""), SessionPipeline.Answer(Of(minutes + more), TestEdition.Current, ""));
            Assert.True(longer.Points >= shorter.Points || Unbalanced(shorter) || shorter.Picks.Count == 0, $"{minutes} minutes {shorter.Points}, {minutes + more} minutes {longer.Points}");
            Assert.True(shorter.Picks.Count == 0 || longer.Picks.Count > 0);
        }, iter: 150, threads: 1);

    /// <summary>Of sets under the same rules, as with minutes.</summary>
    [Fact]
    public void A_larger_budget_never_makes_a_worse_set() =>
        Gen.Select(Requests.Where(r => r.Budgets is not null), Gen.Int[1, 300]).Sample((request, more) =>
        {
            var wider = request with { Budgets = request.Budgets!.ToDictionary(b => b.Key, b => b.Value + more, StringComparer.Ordinal) };
            var (tight, wide) = (SessionPipeline.Answer(request, TestEdition.Current, ""), SessionPipeline.Answer(wider, TestEdition.Current, ""));
            Assert.True(wide.Points >= tight.Points || Unbalanced(tight) || tight.Picks.Count == 0, $"{tight.Points} became {wide.Points}");
        }, iter: 100, threads: 1);

    [Fact]
    public void The_order_of_the_catalogue_changes_nothing()
    {
        var forward = TestEdition.Of(TestEdition.Current.Catalogue.Exercises);
        var backward = TestEdition.Of(TestEdition.Current.Catalogue.Exercises.Reverse());
        Requests.Sample(request => Assert.Equal(Bytes(SessionPipeline.Answer(request, forward, "")), Bytes(SessionPipeline.Answer(request, backward, ""))), iter: 60, threads: 1);
    }

    [Fact]
    public void The_same_request_gives_the_same_bytes() =>
        Requests.Sample(request => Assert.Equal(Bytes(SessionPipeline.Answer(request, TestEdition.Current, "")), Bytes(SessionPipeline.Answer(request, TestEdition.Current, ""))), iter: 60, threads: 1);

    [Fact]
    public void Picks_that_are_locked_stay_and_picks_that_are_avoided_go() =>
        Gen.Select(Requests, Gen.Int[0, 11]).Sample((request, which) =>
        {
            var free = SessionPipeline.Answer(request, TestEdition.Current, "");
            if (free.Picks.Count == 0)
            {
                return;
            }

            var id = free.Picks[which % free.Picks.Count].Exercise.Id;
            var locked = SessionPipeline.Answer(request with { Locked = [id] }, TestEdition.Current, "");
            Assert.Contains(locked.Picks, p => p.Exercise.Id == id && p.Locked);
            Assert.Equal(free.Points, locked.Points);
            var avoided = SessionPipeline.Answer(request with { Avoid = [id] }, TestEdition.Current, "");
            Assert.DoesNotContain(avoided.Picks, p => p.Exercise.Id == id);
            Holds(request with { Avoid = [id] }, avoided);
        }, iter: 100, threads: 1);

    private static bool Unbalanced(SessionAnswer answer) => answer.Cautions.Any(c => c.Contains("balance was left aside", StringComparison.Ordinal));

    private static void Holds(SessionRequest request, SessionAnswer answer)
    {
        if (answer.Status != AnswerStatus.Answered)
        {
            Assert.Empty(answer.Picks);
            Assert.True(answer.Status == AnswerStatus.Referred || answer.Blocks.Count > 0, "nothing is said of what blocks");
            return;
        }

        var minutes = request.Context!.Setting?.Minutes ?? TestEdition.Knowledge.Session.Minutes.Value;
        Assert.InRange(answer.Picks.Count, 1, request.Slots?.Max ?? TestEdition.Knowledge.Session.Picks.Usual);
        var straight = SessionChecking.StraightMinutes(answer, TestEdition.Current);
        Assert.True(straight <= minutes, $"{straight} of {minutes} minutes");
        Assert.Equal(straight, answer.Minutes + answer.MinutesSaved);
        Assert.True(answer.MinutesSaved >= 0);
        Assert.Equal(answer.Picks.Count, answer.Picks.Select(p => p.Exercise.Family).Distinct(StringComparer.Ordinal).Count());
        var eligible = Stages.Of(request.Context).EligibleIds();
        Assert.All(answer.Picks, p => Assert.Contains(p.Exercise.Id, eligible));
        Assert.Equal(answer.Picks.Select(p => Array.IndexOf(Order, p.Block)).Order(), answer.Picks.Select(p => Array.IndexOf(Order, p.Block)));
        Assert.True(SessionChecking.Landings(answer, TestEdition.Current) <= TestEdition.Knowledge.Dose.Contacts.Limits[^1].Most);
        foreach (var region in TestEdition.Vocabulary.Regions.Select(r => r.Id))
        {
            var (left, right) = SessionChecking.Total(answer, TestEdition.Current, region);
            var said = answer.TissueTotals.TryGetValue(region, out var total) ? (total.Left, total.Right) : (0, 0);
            Assert.Equal((left, right), said);
            Assert.True(request.Budgets?.TryGetValue(region, out var budget) != true || Math.Max(left, right) <= budget, $"{region} {left}/{right}");
        }

        Assert.All(answer.Budgets, b => Assert.True(b.Used is { Left: 0, Right: 0 } || b.Left >= 0));
        foreach (var pick in answer.Picks.Where(p => p.SupersetWith is not null))
        {
            var partner = Assert.Single(answer.Picks, p => p.Exercise.Id == pick.SupersetWith);
            Assert.Equal((pick.Exercise.Id, pick.Block, 1), (partner.SupersetWith, partner.Block, Math.Abs(partner.Order - pick.Order)));
        }

        Assert.All(answer.Coverage, c => Assert.InRange(c.Reached, 0, 1));
        Assert.All(answer.Tight, t => Assert.True(t.Gain.Thousandths > 0));
    }

    private static string Bytes(SessionAnswer answer) => JsonSerializer.Serialize(answer, WireJson.Default.SessionAnswer);
}
