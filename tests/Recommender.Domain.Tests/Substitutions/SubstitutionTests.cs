using CsCheck;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Domain.Substitutions;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Domain.Tests.Substitutions;

public sealed class SubstitutionTests(ITestOutputHelper output)
{
    [Fact]
    public void The_replaced_exercise_never_comes_back_and_every_gate_holds() =>
        Gen.Select(RequestGenerator.Requests, RequestGenerator.One(TestEdition.Current.Catalogue.Exercises), Gen.Int[1, 12]).Sample((request, exercise, count) =>
        {
            var context = request with { Count = null };
            var answer = Ask(new SubstitutionRequest { Exercise = exercise.Id, Context = context, Count = count });
            var eligible = Stages.Of(context).EligibleIds();
            Assert.All(answer.Picks, p => Assert.True(p.Exercise.Id != exercise.Id && eligible.Contains(p.Exercise.Id), p.Exercise.Id));
            Assert.True(answer.Picks.Count <= count);
            Assert.All(answer.Picks, p => Assert.InRange(p.Similarity, 0, 1));
            Assert.All(answer.Picks, p => Assert.Equal(p.Contributions.Sum(c => c.Points.Thousandths), p.Score.Thousandths));
            Assert.False(answer.Picks.Any(p => p.Dose?.Minutes > context.Setting!.Minutes), "a dose needs more minutes than there are.");
        }, iter: 300);

    /// <summary>Neighbouring steps of a ladder within one loading tier stand for one another. Common practice, no source; the ladders are the catalogue's own.</summary>
    [Fact]
    public void Neighbours_on_a_ladder_rank_in_the_top_five_for_one_another()
    {
        var catalogue = TestEdition.Current.Catalogue;
        var (asked, missed) = (0, new List<string>());
        foreach (var lower in catalogue.Exercises)
        {
            foreach (var id in lower.Progressions)
            {
                var upper = catalogue.Find(id)!;
                if (!OneTier(lower, upper))
                {
                    continue;
                }

                foreach (var (from, to) in new[] { (lower, upper), (upper, lower) })
                {
                    asked++;
                    var context = RequestBuilder.Skilled("jumps", "general-preparation").WeeksOut(30).In(to.Places[0], [.. TestEdition.Vocabulary.Equipment.Select(e => e.Id)]);
                    var picks = Ask(new SubstitutionRequest { Exercise = from.Id, Context = context, Count = 5 }).Picks;
                    if (picks.All(p => p.Exercise.Id != to.Id))
                    {
                        missed.Add($"{to.Id} for {from.Id}: {string.Join(", ", picks.Select(p => p.Exercise.Id))}");
                    }
                }
            }
        }

        output.WriteLine($"{asked - missed.Count} of {asked} neighbours in the top five; the others:");
        missed.ForEach(output.WriteLine);
        Assert.True(asked > 60, $"{asked} neighbours.");
        Assert.True(missed.Count * 10 <= asked, $"{missed.Count} of {asked} are missing: {string.Join("; ", missed.Take(10))}");
    }

    [Fact]
    public void Tags_find_what_the_id_would_find()
    {
        var squat = TestEdition.Exercise("back-squat");
        var described = new DescribedExercise
        {
            Pattern = squat.Pattern,
            Support = "double",
            Qualities = squat.Qualities.ToDictionary(q => q.Key, q => q.Value.Value),
            Direction = squat.Direction,
            Contraction = squat.Contraction,
            LoadingRate = "slow",
            LoadBand = "heavy",
        };
        var context = RequestBuilder.Skilled("throws", "general-preparation");
        var byTags = Ask(new SubstitutionRequest { Described = described, Context = context });
        Assert.Contains("back-squat", byTags.Picks.Select(p => p.Exercise.Id));
        Assert.Equal(1, byTags.Picks.Single(p => p.Exercise.Id == "back-squat").Similarity);
        Assert.Null(byTags.Replaced.Exercise);
    }

    [Fact]
    public void Heavy_triples_in_a_hotel_become_more_and_slower_repetitions_and_say_why()
    {
        var answer = Ask(new SubstitutionRequest { Exercise = "back-squat", Reason = "equipment", Context = Hotel("sprints") });
        Assert.NotEmpty(answer.Picks);
        var carried = answer.Picks.First(p => p.Dose!.Adjustments.Any(a => a.Code is "carried-over" or "light-kit"));
        Assert.True(carried.Dose!.Amount > answer.Replaced.Dose!.Amount, $"{answer.Replaced.Dose} becomes {carried.Dose}");
        Assert.NotNull(carried.Dose.Tempo);
        Assert.Contains(carried.Loses, l => l.StartsWith("Load: heavy", StringComparison.Ordinal));
    }

    [Fact]
    public void When_nothing_keeps_the_purpose_it_says_so_and_stays_short()
    {
        var answer = Ask(new SubstitutionRequest { Exercise = "depth-jump", Reason = "pain", Context = RequestBuilder.Skilled("jumps", "specific-preparation").Sore("patellar-tendon", 5), Count = 8 });
        Assert.InRange(answer.Picks.Count, 0, TestEdition.Knowledge.Substitution.NearestAtMost);
        Assert.Contains(answer.Cautions, c => c.StartsWith("Nothing that is possible here", StringComparison.Ordinal));
        Assert.All(answer.Picks, p => Assert.NotEmpty(p.Loses));
    }

    [Theory]
    [InlineData("locked-joint")]
    public void A_red_flag_stays_a_referral(string flag)
    {
        var answer = Ask(new SubstitutionRequest { Exercise = "back-squat", Context = RequestBuilder.For().Flagged(flag) });
        Assert.Equal(AnswerStatus.Referred, answer.Status);
        Assert.Empty(answer.Picks);
        Assert.DoesNotContain(answer.Cautions, c => c.StartsWith("Nothing that is possible here", StringComparison.Ordinal));
    }

    /// <summary>Questions a coach asks on the day, printed to be read.</summary>
    [Fact]
    public void The_questions_of_the_day()
    {
        var hotel = Print("back squat, hotel", "back-squat", "equipment", Hotel("sprints"));
        Assert.All(hotel.Picks, p => Assert.Subset(new HashSet<string> { "band", "mini-band", "dumbbell" }, p.Exercise.Equipment.ToHashSet()));
        Assert.Equal("squat", hotel.Picks[0].Exercise.Pattern);

        var tendon = Print("depth jump, patellar tendon 4/10", "depth-jump", "pain", RequestBuilder.Skilled("jumps", "specific-preparation").Sore("patellar-tendon", 4));
        Assert.All(tendon.Picks, p => Assert.True(p.Exercise.LoadingRate is LoadingRate.Isometric or LoadingRate.Slow, p.Exercise.Id));

        var nordic = Print("Nordic lower, no anchor", "nordic-hamstring-lower", "equipment", RequestBuilder.For("sprints", "specific-preparation").Aged(24, 5).In("club-gym", ["band", "dumbbells", "bench", "sliders", "swiss-ball"]));
        Assert.All(nordic.Picks.Take(3), p => Assert.Equal("hamstring", p.Exercise.Pattern));

        var clean = Print("power clean, no bar, sprinter", "power-clean", "equipment", RequestBuilder.For("sprints", "specific-preparation").Aged(24, 5).In("club-gym", ["dumbbells", "kettlebell", "medicine-ball", "box"]));
        Assert.Equal("olympic-lift", clean.Picks[0].Exercise.Pattern);

        var elbow = Print("pull-up, sore elbow, thrower", "pull-up", "pain", RequestBuilder.Skilled("throws", "general-preparation").Sore("elbow", 3, side: "right"));
        Assert.Equal("upper-pull", elbow.Replaced.PurposeQuality);
        Assert.All(elbow.Picks, p => Assert.True(Load(p.Exercise.Id, "elbow") < Load("pull-up", "elbow"), p.Exercise.Id));

        var achilles = Print("hurdle hop, Achilles 3/10", "hurdle-hop", "pain", RequestBuilder.Skilled("jumps", "specific-preparation").Sore("achilles-calf", 3, side: "left"));
        Assert.DoesNotContain(achilles.Picks, p => p.Exercise.LoadingRate == LoadingRate.Impact && Load(p.Exercise.Id, "achilles-calf") > 3.8m);
    }

    private static decimal Load(string exercise, string region) => TestEdition.Exercise(exercise).TissueLoad.GetValueOrDefault(region)?.Value ?? 0;

    private SubstitutionAnswer Print(string title, string exercise, string reason, RecommendationRequest context)
    {
        var answer = Ask(new SubstitutionRequest { Exercise = exercise, Reason = reason, Context = context });
        output.WriteLine($"{title}: was {answer.Replaced.Dose?.Sets} x {answer.Replaced.Dose?.Amount} for {answer.Replaced.PurposeQuality}");
        foreach (var p in answer.Picks)
        {
            output.WriteLine($"  {p.Similarity} {p.Exercise.Id}: {p.Dose?.Sets} x {p.Dose?.Amount} {p.Dose?.Unit} {p.Dose?.Tempo}; keeps {string.Join("; ", p.Keeps.Take(3))} | loses {string.Join("; ", p.Loses.Take(3))} | gains {string.Join("; ", p.Gains.Take(2))}");
        }

        answer.Cautions.Skip(1).ToList().ForEach(c => output.WriteLine("  ! " + c));
        Assert.NotEqual(AnswerStatus.Referred, answer.Status);
        return answer;
    }

    /// <summary>One loading tier: as heavy, as fast, and on every region within two tenths of the scale; the published tiers are about three wide.</summary>
    private static bool OneTier(Exercise lower, Exercise upper) =>
        lower.LoadBand == upper.LoadBand && lower.LoadingRate == upper.LoadingRate && lower.Pattern == upper.Pattern
        && lower.TissueLoad.Keys.Union(upper.TissueLoad.Keys).All(r => Math.Abs((lower.TissueLoad.GetValueOrDefault(r)?.Value ?? 0) - (upper.TissueLoad.GetValueOrDefault(r)?.Value ?? 0)) <= 2);

    private static RecommendationRequest Hotel(string group)
    {
        var request = RequestBuilder.For(group, "competition").Aged(24, 6).WeeksOut(2).In("hotel", ["band", "dumbbell"]).Lifting("back-squat", 150).Request;
        return request with { Setting = request.Setting! with { Kit = new KitFacts { Dumbbell = new DumbbellKit { MaxKg = 20, StepKg = 2 } } } };
    }

    private static SubstitutionAnswer Ask(SubstitutionRequest request) => SubstitutionPipeline.Answer(request, TestEdition.Current, "");
}
