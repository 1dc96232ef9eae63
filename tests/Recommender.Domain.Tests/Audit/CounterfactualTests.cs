using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Recommender.Answers.Wire;
using Recommender.Domain.Audit;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Domain.Tests.Audit;

/// <summary>Outside check: every list is held against <see cref="NaiveChanges"/>, which runs everything.</summary>
public sealed class CounterfactualTests(ITestOutputHelper output)
{
    /// <summary>Requests whose calendar is in weeks, with few enough changes that everything can be run.</summary>
    private static Gen<RecommendationRequest> InWeeks => RequestGenerator.Requests.Select(r => r with
    {
        Competitions = null,
        Training = null,
        Complaints = [.. r.Complaints!.Take(1)],

        // These name exercises, which a small catalogue does not have.
        Athlete = r.Athlete! with { OneRepMaxKg = null },
        Tests = r.Tests is null ? null : r.Tests with { RepetitionsToFailure = null },
        Recent = null,
        Exclude = null,
    });

    [Fact]
    public void On_small_catalogues_the_cheapest_is_what_running_everything_finds()
    {
        var (asked, singles, pairs, none) = (0, 0, 0, 0);
        Sampling.Until(() => singles > 5 && pairs > 1 && none > 5, () => Gen.Select(InWeeks, Gen.Int[0, 10_000].Array[6, 12], Gen.Int[0, 100]).Sample((request, positions, which) =>
        {
            var edition = NaiveChanges.Small(positions);
            var exercise = edition.Catalogue.Exercises[which % edition.Catalogue.Count];
            var changes = NaiveChanges.Of(request, exercise, edition);
            var place = Place(request);

            var answer = Counterfactuals.Of(new RecommendationAsked(request), edition, exercise.Id, mayLowerPain: true);

            Assert.Equal(place == 0 ? null : place, answer.Rank);
            var first = place == 1 ? null : NaiveChanges.Cheapest(request, changes, r => Place(r) == 1);
            var within = place > 0 ? null : NaiveChanges.Cheapest(request, changes, r => Place(r) > 0);
            Assert.Equal(first, Min(answer.Counterfactuals.Where(c => c.ResultingRank == 1)));
            // Two changes that bring it to the first place may cost less than the one that only brings it among the picks; what is answered holds both.
            Assert.Equal(first < within ? first : within, place > 0 ? null : Min(answer.Counterfactuals));
            Assert.Equal(first is null, answer.None is not null);
            asked++;
            singles += answer.Counterfactuals.Any(c => c.Changes.Count == 1) ? 1 : 0;
            pairs += answer.Counterfactuals.Any(c => c.Changes.Count == 2) ? 1 : 0;
            none += answer.None is null ? 0 : 1;

            int Place(RecommendationRequest r) => RecommendationPipeline.Answer(r, edition, "").Picks.FirstOrDefault(p => p.Exercise.Id == exercise.Id)?.Rank ?? 0;
        }, iter: 20, threads: 1));
        output.WriteLine($"{asked} asked: {singles} with single changes, {pairs} with pairs, {none} with none.");
        Assert.True(singles > 5 && pairs > 1 && none > 5);
    }

    [Fact]
    public void Substitutions_on_small_catalogues_likewise()
    {
        var found = 0;
        Sampling.Until(() => found > 1, () => Gen.Select(InWeeks, Gen.Int[0, 10_000], Gen.Int[0, 100], RequestGenerator.One<string?>([null, "pain", "competence"])).Sample((request, start, which, reason) =>
        {
            // Of one movement pattern, so that some are alike.
            var catalogue = TestEdition.Current.Catalogue;
            var pattern = catalogue.Patterns[start % catalogue.Count];
            var edition = NaiveChanges.Small(Enumerable.Range(0, catalogue.Count).Where(p => catalogue.Patterns[p] == pattern).Take(14));
            var (replaced, exercise) = (edition.Catalogue.Exercises[0], edition.Catalogue.Exercises[1 + (which % (edition.Catalogue.Count - 1))]);
            var asked = new SubstitutionRequest { Exercise = replaced.Id, Context = request with { Count = null }, Reason = reason == "pain" && request.Complaints!.Count == 0 ? null : reason, Count = 3 };

            var answer = Counterfactuals.Of(new SubstitutionAsked(asked), edition, exercise.Id, mayLowerPain: true);

            var place = Place(asked.Context);
            var first = place == 1 ? null : NaiveChanges.Cheapest(asked.Context, NaiveChanges.Of(asked.Context, exercise, edition), r => Place(r) == 1);
            Assert.Equal(first, Min(answer.Counterfactuals.Where(c => c.ResultingRank == 1)));
            Assert.All(answer.Counterfactuals, c => Assert.All(c.Changes, x => Assert.StartsWith("/context/", x.Pointer)));
            found += first is null ? 0 : 1;

            int Place(RecommendationRequest r) => SubstitutionPipeline.Answer(asked with { Context = r }, edition, "").Picks.FirstOrDefault(p => p.Exercise.Id == exercise.Id)?.Rank ?? 0;
        }, iter: 15, threads: 1));
        output.WriteLine($"{found} can come first.");
        Assert.True(found > 1);
    }

    [Fact]
    public void What_is_told_holds_when_the_request_as_sent_is_edited_by_its_pointers()
    {
        var told = 0;
        Sampling.Until(() => told > 8, () => Gen.Select(RequestGenerator.Requests, RequestGenerator.One(TestEdition.Current.Catalogue.Exercises)).Sample((request, exercise) =>
        {
            var answer = Counterfactuals.Of(new RecommendationAsked(request), TestEdition.Current, exercise.Id, mayLowerPain: true);
            foreach (var counterfactual in answer.Counterfactuals)
            {
                var body = JsonNode.Parse(JsonSerializer.SerializeToUtf8Bytes(request, WireJson.Compact.RecommendationRequest))!.AsObject();
                foreach (var change in counterfactual.Changes)
                {
                    PointerEdits.Apply(body, change.Pointer, JsonSerializer.SerializeToNode(change.From), JsonSerializer.SerializeToNode(change.To));
                }

                var edited = RequestReader.Read<RecommendationRequest>(System.Text.Encoding.UTF8.GetBytes(body.ToJsonString()), out var fault);
                Assert.True(fault is null, fault?.Message);
                Assert.Empty(RequestChecks.Of(edited!, TestEdition.Current.Catalogue, TestEdition.Knowledge));
                var picks = RecommendationPipeline.Answer(edited!, TestEdition.Current, "").Picks;
                Assert.Equal(exercise.Id, picks[counterfactual.ResultingRank - 1].Exercise.Id);
                told++;
            }
        }, iter: 20, threads: 1));
        output.WriteLine($"{told} changes.");
        Assert.True(told > 8);
    }

    /// <summary>What a full gym's session holds and a bare room's does not: one thing more at hand, or another place, brings some of it in.</summary>
    [Fact]
    public void A_session_lets_in_what_its_changes_say()
    {
        var bare = new SessionRequest { Context = RequestBuilder.Skilled().In("home", []).InMinutes(45) };
        var full = SessionPipeline.Answer(new SessionRequest { Context = RequestBuilder.Skilled().InMinutes(45) }, TestEdition.Current, "").Picks.Select(p => p.Exercise.Id).ToList();
        var inBare = SessionPipeline.Answer(bare, TestEdition.Current, "").Picks.Select(p => p.Exercise.Id).ToList();
        Assert.NotEmpty(inBare);
        var told = 0;
        foreach (var exercise in full.Except(inBare))
        {
            var answer = Counterfactuals.Of(new SessionAsked(bare), TestEdition.Current, exercise, mayLowerPain: false);
            Assert.Null(answer.Rank);
            foreach (var counterfactual in answer.Counterfactuals)
            {
                var change = Assert.Single(counterfactual.Changes);
                var body = JsonNode.Parse(JsonSerializer.SerializeToUtf8Bytes(bare, WireJson.Default.SessionRequest))!.AsObject();
                PointerEdits.Apply(body, change.Pointer, JsonSerializer.SerializeToNode(change.From), JsonSerializer.SerializeToNode(change.To));
                var edited = RequestReader.Read<SessionRequest>(System.Text.Encoding.UTF8.GetBytes(body.ToJsonString()), out var fault);
                Assert.True(fault is null, fault?.Message);
                Assert.Equal(exercise, SessionPipeline.Answer(edited!, TestEdition.Current, "").Picks[counterfactual.ResultingRank - 1].Exercise.Id);
                told++;
            }
        }

        output.WriteLine($"{told} changes.");
        Assert.True(told > 2, $"only {told} changes were told.");

        var there = Counterfactuals.Of(new SessionAsked(bare), TestEdition.Current, inBare[0], mayLowerPain: false);
        Assert.Equal(1, there.Rank);
        Assert.Empty(there.Counterfactuals);
    }

    [Fact]
    public void Lower_pain_is_told_to_staff_alone_and_never_as_advice()
    {
        RecommendationRequest request = RequestBuilder.Skilled().Sore("patellar-tendon", 5);
        var question = new RecommendationAsked(request);
        var sore = Stages.Of(request).EligibleIds();
        var kept = Stages.Answer(RequestBuilder.Skilled().Sore("patellar-tendon", 1)).Picks.Select(p => p.Exercise.Id).First(id => !sore.Contains(id));

        var staff = Counterfactuals.Of(question, TestEdition.Current, kept, mayLowerPain: true);
        var coach = Counterfactuals.Of(question, TestEdition.Current, kept, mayLowerPain: false);

        var lower = staff.Counterfactuals.First(c => c.Changes is [{ Pointer: "/complaints/0/pain" }]);
        Assert.True((int)lower.Changes[0].To! < (int)lower.Changes[0].From!);
        Assert.Contains("how the rule works, and no reason to report less", lower.Sentence);
        Assert.DoesNotContain(coach.Counterfactuals, c => c.Changes.Any(x => x.Pointer.Contains("pain", StringComparison.Ordinal)));
        output.WriteLine(string.Join('\n', staff.Counterfactuals.Select(c => $"{c.Cost}: {c.Sentence} ({c.ResultingRank})")));
    }

    [Fact]
    public void What_nobody_can_change_is_not_offered()
    {
        RecommendationRequest request = RequestBuilder.Skilled().Without("back-squat");

        var answer = Counterfactuals.Of(new RecommendationAsked(request), TestEdition.Current, "back-squat", mayLowerPain: true);

        Assert.Empty(answer.Counterfactuals);
        Assert.Contains("excluded by the coach", answer.None);
    }

    private static int? Min(IEnumerable<Counterfactual> counterfactuals) => counterfactuals.Select(c => (int?)c.Cost).Min();
}
