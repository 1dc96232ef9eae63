using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Practice;

/// <summary>Whole answers that a coach would hand on. Common practice, no source, unless a source stands beside.</summary>
public sealed class FittingAnswersTests
{
    private static readonly string[] Arms = ["upper-push", "upper-pull", "shoulder", "throw", "olympic-lift"];
    private static readonly string[] Legs = ["squat", "single-leg", "hinge", "hamstring", "calf-foot", "jump", "bound", "olympic-lift", "hip-adductor"];

    /// <summary>A press is no squat and a squat no row, however much maximal strength they share.</summary>
    [Theory]
    [InlineData("bench-press", "shoulder", 4)]
    [InlineData("overhead-press", "shoulder", 5)]
    [InlineData("pull-up", "elbow", 4)]
    [InlineData("back-squat", "patellar-tendon", 5)]
    [InlineData("romanian-deadlift", "lower-back", 4)]
    public void A_swap_for_pain_stays_with_its_part_of_the_body(string replaced, string region, int pain)
    {
        string[] part = Arms.Contains(TestEdition.Exercise(replaced).Pattern) ? Arms : Legs;
        foreach (var group in new[] { "throws", "sprints", "jumps" })
        {
            var answer = Swap(replaced, RequestBuilder.Skilled(group, "general-preparation").WeeksOut(20).In("full-gym").Sore(region, pain));

            Assert.All(answer.Picks, p => Assert.Contains(p.Exercise.Pattern, part));
        }
    }

    [Fact]
    public void Where_nothing_of_its_kind_is_left_nothing_is_offered_and_it_is_said()
    {
        var context = RequestBuilder.Skilled("throws", "general-preparation").WeeksOut(20).In("full-gym").Only(new OnlyFilter { Pattern = ["squat", "hinge"] });

        var answer = Swap("bench-press", context);

        Assert.Empty(answer.Picks);
        Assert.True(answer.EligibleCount > 10);
        Assert.Contains(answer.Cautions, c => c.Contains("Bench press", StringComparison.OrdinalIgnoreCase) && c.Contains("leave it out today", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("sprints", "specific-preparation")]
    [InlineData("distance", "general-preparation")]
    [InlineData("throws", "pre-competition")]
    public void The_first_week_after_a_month_ill_is_light_slow_and_leaves_nobody_sore(string group, string phase)
    {
        var answer = Stages.Answer(RequestBuilder.Skilled(group, phase).WeeksOut(12).In("full-gym").Athlete(Off(4, "illness")).Count(12));

        Assert.True(answer.Picks.Count >= 6, $"{answer.Picks.Count}");
        Assert.All(answer.Picks.Select(p => TestEdition.Exercise(p.Exercise.Id)), e => Assert.True(e.SorenessRisk <= 1 && e.LoadBand < LoadBand.Heavy, e.Id));
        Assert.All(answer.Picks, p => Assert.NotEqual("maximal-intent", p.Dose!.Intensity.Kind));
        Assert.Contains(answer.Cautions, c => c.Contains("first week back after a month ill", StringComparison.Ordinal));
    }

    [Fact]
    public void More_time_off_never_lets_in_what_less_kept_out()
    {
        foreach (var reason in new[] { "break", "illness", "injury" })
        {
            var before = Eligible(0.2m);
            foreach (var weeks in new[] { 1m, 2m, 3m, 4m, 8m, 30m })
            {
                var now = Eligible(weeks);
                Assert.Subset(before.ToHashSet(StringComparer.Ordinal), now.ToHashSet(StringComparer.Ordinal));
                before = now;
            }

            Assert.DoesNotContain("depth-jump", before);
            IReadOnlySet<string> Eligible(decimal weeks) => Stages.Of(RequestBuilder.Skilled().WeeksOut(20).In("full-gym").Athlete(Off(weeks, reason))).EligibleIds();
        }
    }

    /// <summary>Balance work after a sprain: 22 against 33 percent sprained again within a year. Hupperets 2009 (hupperets-2009).</summary>
    [Theory]
    [InlineData("jumps", "high-jump", 5)]
    [InlineData("distance", "cross-country", 14)]
    [InlineData("sprints", "100m", 2)]
    [InlineData("throws", "discus", 20)]
    public void An_ankle_that_was_sprained_gets_balance_work(string group, string eventId, int monthsAgo)
    {
        var athlete = RequestBuilder.Skilled(group, "general-preparation").Doing(eventId).WeeksOut(20).HurtBefore("ankle", monthsAgo);

        var picks = Stages.Answer(athlete).Picks;
        var session = SessionPipeline.Answer(new SessionRequest { Context = athlete }, TestEdition.Current, "");

        var pick = Assert.Single(picks, p => p.Exercise.Family == "balance-reach" || p.Exercise.Id == "loaded-short-foot");
        Assert.Contains(pick.Why, w => w.Contains("sprain", StringComparison.Ordinal));
        Assert.Contains(session.Picks, p => p.Exercise.Family == "balance-reach" || p.Exercise.Id == "loaded-short-foot");
    }

    [Fact]
    public void A_sore_ankle_gets_balance_and_bend()
    {
        var picks = Stages.Answer(RequestBuilder.For("distance", "general-preparation").Aged(17, 2).WeeksOut(20).Sore("ankle", 2, "left")).Picks;

        Assert.Contains(picks, p => p.Exercise.Family == "balance-reach" || p.Exercise.Id == "loaded-short-foot");
        Assert.Contains(picks, p => p.Exercise.Family == "ankle-mobility");
    }

    [Theory]
    [InlineData("sprints", 1.2, "hamstring-capacity", "max-strength")]
    [InlineData("sprints", 0.6, "eccentric-strength", "hamstring-capacity")]
    [InlineData("jumps", 0.6, "hamstring-capacity", "max-strength")]
    [InlineData("throws", 0.6, "eccentric-strength", "hamstring-capacity")]
    public void The_last_days_carry_one_costly_pull_at_most(string group, double weeks, string one, string other)
    {
        var request = RequestBuilder.Skilled(group, "taper").WeeksOut((decimal)weeks).In("full-gym").Wanting(one).Wanting(other);
        foreach (var known in new[] { "romanian-deadlift", "nordic-hamstring-lower", "deadlift", "deficit-deadlift", "clean-pull", "sliding-leg-curl" })
        {
            request = request.Did(known, 6);
        }

        var picks = SessionPipeline.Answer(new SessionRequest { Context = request }, TestEdition.Current, "").Picks;

        Assert.NotEmpty(picks);
        var costly = picks.Select(p => TestEdition.Exercise(p.Exercise.Id))
            .Where(e => e.Pattern is "hinge" or "hamstring" or "olympic-lift" && new[] { "hamstring", "proximal-hamstring", "lower-back" }.Any(r => e.TissueLoad.TryGetValue(r, out var load) && load.High >= 6));
        Assert.True(costly.Count() <= 1, string.Join(", ", costly.Select(e => e.Id)));
    }

    [Fact]
    public void On_the_day_of_a_competition_a_dose_stands_for_today_alone()
    {
        var atSlot = Stages.Answer(RequestBuilder.For("jumps", "competition").Aged(22, 6).WeeksOut(2).In("track").But(r => r with { Setting = r.Setting! with { Slot = "competition-day" } }));
        var byDate = Stages.Answer(RequestBuilder.For("jumps", "competition").Aged(22, 6).WeeksOut(0).In("track"));
        var dayBefore = Stages.Answer(RequestBuilder.For("jumps", "competition").Aged(22, 6).WeeksOut(0.2m).In("track"));

        foreach (var dose in atSlot.Picks.Concat(byDate.Picks).Select(p => p.Dose!))
        {
            Assert.Equal((1, 0, 0), (dose.SessionsPerWeek, dose.KeepWeeks.From, dose.KeepWeeks.To));
            Assert.Contains("after the competition", dose.Progression, StringComparison.Ordinal);
        }

        Assert.All(dayBefore.Picks, p => Assert.True(p.Dose!.KeepWeeks.To > 0));
    }

    /// <summary>What speaks against a pick is said as a coach says it: no points, no factor names, no gaps left open.</summary>
    [Fact]
    public void What_speaks_against_a_pick_is_a_sentence()
    {
        var said = new HashSet<string>(StringComparer.Ordinal);
        foreach (var group in new[] { "sprints", "distance", "jumps", "throws", "combined" })
        {
            foreach (var (phase, weeks) in new[] { ("general-preparation", 20m), ("specific-preparation", 10m), ("taper", 1m), ("transition", 30m) })
            {
                foreach (var line in new RecommendationRequest[] { RequestBuilder.Skilled(group, phase).WeeksOut(weeks).In("full-gym").Count(20), RequestBuilder.Skilled(group, phase).WeeksOut(weeks).Sore("patellar-tendon", 2).Did("back-squat", 1).Count(20) }
                    .SelectMany(r => Stages.Answer(r).Picks).SelectMany(p => p.Why))
                {
                    Assert.DoesNotContain("points", line, StringComparison.Ordinal);
                    Assert.DoesNotContain("Against it", line, StringComparison.Ordinal);
                    Assert.DoesNotContain('{', line);
                    said.UnionWith(new[] { "It costs the", "It may leave soreness", "Setting it up" }.Where(start => line.StartsWith(start, StringComparison.Ordinal)));
                }
            }
        }

        Assert.Equal(3, said.Count);
    }

    /// <summary>Who looks at a growing athlete from which pain is said once and the same way.</summary>
    [Theory]
    [InlineData("patellar-tendon", 3, true)]
    [InlineData("quadriceps", 3, false)]
    [InlineData("quadriceps", 4, true)]
    public void Growing_athletes_are_referred_as_the_notes_say(string region, int pain, bool referred)
    {
        var youth = TestEdition.Knowledge.Pain.Youth;

        var answer = Stages.Answer(RequestBuilder.For("jumps").Aged(13, 2).Sore(region, pain));

        Assert.Equal(referred, answer.Referral is not null);
        Assert.Contains("from pain 4, and from pain 3 where a tendon joins growing bone", youth.Note, StringComparison.Ordinal);
        Assert.Contains("from pain 3, earlier than elsewhere", youth.GrowthPlateNote, StringComparison.Ordinal);
    }

    /// <summary>Told once: who reads the load on what is sore beside its limit does not read it again as a cost.</summary>
    [Fact]
    public void Load_on_what_is_sore_is_told_once()
    {
        var picks = Stages.Answer(RequestBuilder.Skilled("throws", "general-preparation").WeeksOut(20).Sore("shoulder", 3).Count(20)).Picks;

        Assert.Contains(picks, p => p.Why.Any(w => w.StartsWith("Loads the shoulder", StringComparison.Ordinal)));
        Assert.All(picks, p => Assert.True(p.Why.Count(w => w.Contains("shoulder", StringComparison.Ordinal) && w.Contains(" of 10", StringComparison.Ordinal)) <= 1, string.Join(" ", p.Why)));
    }

    [Theory]
    [InlineData("hip", "mobility")]
    [InlineData("ankle", "mobility")]
    [InlineData("upper-back", "mobility")]
    public void What_is_called_stiff_gets_some_easy_range(string region, string pattern)
    {
        RecommendationRequest request = RequestBuilder.For("distance", "general-preparation").Aged(26, 4).WeeksOut(20).In("home", ["band"]).Sore(region, 1).LastComplaint(c => c with { Kind = "stiffness" });

        Assert.Contains(Stages.Answer(request).Picks, p => p.Exercise.Pattern == pattern);
    }

    [Theory]
    [InlineData("sliding-leg-curl", 12, 1)]
    [InlineData("single-leg-squat", 12, 1)]
    public void Children_wait_for_what_leaves_very_sore_and_for_full_squats_on_one_leg(string exercise, int age, int trained)
    {
        Assert.DoesNotContain(exercise, Stages.Of(RequestBuilder.For("sprints", "general-preparation").Aged(age, trained).In("full-gym")).EligibleIds());
        Assert.Contains(exercise, Stages.Of(RequestBuilder.For("sprints", "general-preparation").Aged(age, 3).In("full-gym")).EligibleIds());
    }

    private static Func<AthleteFacts, AthleteFacts> Off(decimal weeks, string reason) => a => a with { Layoff = new LayoffFacts { Weeks = weeks, Reason = reason } };

    private static SubstitutionAnswer Swap(string exercise, RecommendationRequest context) =>
        SubstitutionPipeline.Answer(new SubstitutionRequest { Exercise = exercise, Reason = context.Complaints is null ? "equipment" : "pain", Context = context, Count = 8 }, TestEdition.Current, "");
}
