using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Dosing;
using Recommender.Domain.Requests;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Domain.Tests.Season;

/// <summary>The demo squad walked through a season, week by week: what one week gives is last week's work for the next.</summary>
public sealed class SeasonTests(ITestOutputHelper output)
{
    /// <summary>Phase by weeks to the competition. A usual season of one peak; common practice, no source.</summary>
    private static readonly (int FromWeek, string Phase)[] Phases = [(20, "general-preparation"), (10, "specific-preparation"), (4, "pre-competition"), (2, "competition"), (0, "taper")];

    private const int Weeks = 30;

    public static TheoryData<string> Athletes => [.. Squad().Select(a => a.Ref)];

    [Theory]
    [MemberData(nameof(Athletes))]
    public void Neighbouring_weeks_change_only_where_a_rule_says_why(string reference)
    {
        var season = Walk(Squad().Single(a => a.Ref == reference));
        foreach (var ((week, answer), (_, next)) in season.Zip(season.Skip(1)))
        {
            var changedPhase = PhaseOf(week) != PhaseOf(week - 1);
            foreach (var (before, after) in answer.Picks.Join(next.Picks, p => p.Exercise.Id, p => p.Exercise.Id, (a, b) => (a, b)))
            {
                var saysWhy = !before.Dose!.Adjustments.Select(a => a.Code).SequenceEqual(after.Dose!.Adjustments.Select(a => a.Code));
                if (Purpose(before) != Purpose(after) || saysWhy)
                {
                    continue;
                }

                var (was, now) = (Volume(before.Dose!), Volume(after.Dose!));
                if (!changedPhase)
                {
                    Assert.True((was, before.Dose!.Intensity) == (now, after.Dose!.Intensity), $"{week} weeks out, {before.Exercise.Id}: {Text(before.Dose!)} becomes {Text(after.Dose!)}.");
                }

                // A new phase may ask for more, but never for a leap.
                Assert.True(now <= was * 1.7m, $"{week} weeks out, {before.Exercise.Id}: {Text(before.Dose!)} becomes {Text(after.Dose!)}.");
                Assert.True(!(after.Dose!.Intensity.Kind == "percent-1rm" && after.Dose!.Intensity.Low - before.Dose!.Intensity.Low > 10), $"{week} weeks out, {before.Exercise.Id}: {Text(before.Dose!)} becomes {Text(after.Dose!)}.");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Athletes))]
    public void Every_week_has_a_list_and_most_of_it_stays(string reference)
    {
        var season = Walk(Squad().Single(a => a.Ref == reference));
        Assert.All(season, s => Assert.True(s.Answer.Picks.Count >= 4, $"{s.Week} weeks out: {s.Answer.Picks.Count} picks."));
        foreach (var ((week, answer), (_, next)) in season.Zip(season.Skip(1)).Where(x => PhaseOf(x.First.Week) == PhaseOf(x.Second.Week)))
        {
            // What a gate of the new week refuses goes with a reason of its own; of the rest, at least half stays.
            var eligible = Stages.Of(Asked(Squad().Single(a => a.Ref == reference), week - 1, answer)).EligibleIds();
            var open = answer.Picks.Where(p => eligible.Contains(p.Exercise.Id)).ToList();
            var kept = open.Count(p => next.Picks.Any(n => n.Exercise.Id == p.Exercise.Id));
            Assert.True(kept * 2 >= open.Count, $"{week} weeks out: {kept} of {open.Count} stay.");
        }
    }

    [Fact]
    public void The_season_of_the_squad_as_a_table()
    {
        foreach (var athlete in Squad())
        {
            var season = Walk(athlete);
            output.WriteLine($"{athlete.Ref}, {athlete.Athlete.Event}, {athlete.Athlete.AgeYears} years, {athlete.Athlete.TrainingAgeYears} of training{string.Concat((athlete.Complaints ?? []).Select(c => $", {c.Region} {c.Side} {c.Pain}/10"))}, {athlete.Setting?.Place}");
            foreach (var (_, phase) in Phases)
            {
                var (week, answer) = season.First(s => PhaseOf(s.Week) == phase);
                Assert.All(answer.Picks, p => Assert.NotNull(p.Dose));
                output.WriteLine($"  {phase}, {week} weeks out; needs {string.Join(", ", answer.Needs.Take(4).Select(n => $"{n.Quality} {n.Weight:P0}"))}");
                foreach (var pick in answer.Picks)
                {
                    output.WriteLine($"    {pick.Exercise.Id,-44} {Text(pick.Dose!)}");
                }
            }
        }

    }

    private static List<(int Week, Answer Answer)> Walk(AthleteProfile athlete)
    {
        var season = new List<(int Week, Answer Answer)>();
        for (var week = Weeks; week >= 0; week--)
        {
            season.Add((week, Stages.Answer(Asked(athlete, week, season.Count == 0 ? null : season[^1].Answer))));
        }

        return season;
    }

    private static RecommendationRequest Asked(AthleteProfile athlete, int week, Answer? lastWeek) => new()
    {
        Athlete = athlete.Athlete,
        Phase = PhaseOf(week),
        WeeksToCompetition = week,
        Setting = athlete.Setting,
        Complaints = athlete.Complaints,
        Needs = athlete.Needs,
        Recent = lastWeek is null ? null : [.. lastWeek.Picks.Select(p => new RecentWork { Exercise = p.Exercise.Id, DaysAgo = 7 })],
    };

    private static string PhaseOf(int week) => Phases.First(p => week >= p.FromWeek).Phase;

    private static string Purpose(Pick pick) => pick.Contributions[0].Details[0].Code;

    private static decimal Volume(Dose dose) => dose.Sets * dose.Amount;

    private static string Text(Dose dose)
    {
        var load = dose.Intensity.Kind == "percent-1rm" ? $" at {dose.Intensity.Low} to {dose.Intensity.High} %" : dose.Intensity.Low is { } low ? $", {low} {dose.Intensity.Kind}" : $", {dose.Intensity.Kind}";
        return $"{dose.Sets} x {dose.Amount} {dose.Unit}{(dose.PerSide ? " a side" : "")}{load}{(dose.LoadKg is { } kg ? $" ({kg} kg)" : "")}{string.Concat(dose.Adjustments.Select(a => " [" + a.Code + "]"))}";
    }

    private static List<AthleteProfile> Squad()
    {
        var body = JsonNode.Parse(File.ReadAllText(Path.Combine(TestEdition.Top, "data", "demo", "squad.json")))!.AsObject();
        body.Remove("$schema");
        return [.. body.Deserialize(WireJson.Default.Squad)!.Athletes];
    }
}
