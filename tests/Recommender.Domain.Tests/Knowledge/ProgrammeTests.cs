using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

/// <summary>The doses of the stages against what was printed. Rows that were only recalled are not tested, and are not called published.</summary>
public sealed class ProgrammeTests
{
    /// <summary>Kongsgaard M et al. 2009, doi 10.1111/j.1600-0838.2009.00949.x (read in a hand-out that quotes it): 4 x 15, 12, 10, 8, 6RM from weeks 1, 2, 4, 6, 9; 6 s a repetition; 2 to 3 min; three times a week. The share of week 9 is recalled.</summary>
    [Fact]
    public void Heavy_slow_work_of_the_patellar_tendon_is_the_printed_one()
    {
        var dose = Dose("patellar-slow-heavy");
        Assert.Equal((4, 15m, 3), (dose.Sets, dose.Amount, dose.SessionsPerWeek));
        Assert.InRange(dose.RestSeconds, 120, 180);
        Assert.Equal("3-0-3", dose.Tempo);
        Assert.Equal([(1, 4, 15m), (2, 4, 12m), (4, 4, 10m), (6, 4, 8m), (9, 4, 6m)], dose.Steps.Select(s => (s.FromWeek, s.Sets, s.Amount)));
        Assert.Equal([60m, 65m, 70m, 75m], dose.Steps.Where(s => s.Basis == Basis.Published).Select(s => s.PercentOneRepMax!.Value));
        Assert.Equal(Basis.Recalled, dose.Steps[^1].Basis);
    }

    /// <summary>Beyer R et al. 2015, doi 10.1177/0363546515584760 (read in a text; weeks 6 to 8 recalled): 3 x 15, 3 x 12, 4 x 10, 4 x 8, 4 x 6RM; 3 s up, 3 s down; three times a week.</summary>
    [Theory]
    [InlineData("achilles-slow-heavy")]
    [InlineData("insertion-slow-heavy")]
    public void Heavy_slow_work_of_the_achilles_tendon_is_the_printed_one(string id)
    {
        var dose = Dose(id);
        Assert.Equal([(1, 3, 15m), (2, 3, 12m), (4, 4, 10m), (9, 4, 6m)], dose.Steps.Where(s => s.Basis == Basis.Published).Select(s => (s.FromWeek, s.Sets, s.Amount)));
        Assert.Equal(Basis.Recalled, dose.Steps.Single(s => s.FromWeek == 6).Basis);
        Assert.All(dose.Steps, s => Assert.Equal(3, s.SessionsPerWeek));
        Assert.InRange(dose.RestSeconds, 120, 180);
    }

    /// <summary>Malliaras P et al. 2015, doi 10.2519/jospt.2015.5987 (secondary text): 5 x 45 s, 120 s rest, daily; 4 x 15 down to 6RM, 120 s, three a week; 3 x 10 with body mass, 120 s, every third day. Holds 5 x 30 to 60 s daily: Rosen AB et al. 2022, PMC9528703, table 2.</summary>
    [Fact]
    public void Staged_loading_of_the_patellar_tendon_is_the_printed_one()
    {
        var holds = Dose("patellar-isometric-holds");
        Assert.Equal((5, 45m, DoseUnit.Seconds, 120, 7), (holds.Sets, holds.Amount, holds.Unit, holds.RestSeconds, holds.SessionsPerWeek));
        Assert.InRange(holds.Amount, 30, 60);
        var slow = Dose("patellar-slow-body-weight");
        Assert.Equal((4, 15m, 120, 3), (slow.Sets, slow.Amount, slow.RestSeconds, slow.SessionsPerWeek));
        var jumps = Dose("patellar-energy-storage");
        Assert.Equal((3, 10m, DoseUnit.Contacts, 120), (jumps.Sets, jumps.Amount, jumps.Unit, jumps.RestSeconds));
        Assert.True(jumps.SessionsPerWeek <= 7 / 3m);
    }

    /// <summary>Mjolsnes R et al. 2004, doi 10.1046/j.1600-0838.2003.00367.x (secondary text, week 4 recalled): 2 x 5 once, 2 x 6 twice, 3 x 6 to 8 three times, then 12, 10, 8; ten weeks make the printed 27 sessions.</summary>
    [Fact]
    public void Nordic_lowers_come_back_week_by_week_as_printed()
    {
        var steps = Dose("hamstring-nordic").Steps;
        Assert.Equal([(1, 2, 5m, 1), (2, 2, 6m, 2)], steps.Take(2).Select(s => (s.FromWeek, s.Sets, s.Amount, s.SessionsPerWeek)));
        Assert.InRange(steps[2].Amount, 6, 8);
        Assert.InRange(steps[4].Amount, 8, 12);
        Assert.Equal(Basis.Recalled, steps[3].Basis);
        Assert.Equal(27, Enumerable.Range(1, 10).Sum(week => steps.Last(s => s.FromWeek <= week).SessionsPerWeek));
    }

    /// <summary>Haroy J et al. 2019, doi 10.1136/bjsports-2017-098937 (abstract; sets and repetitions from a trial that used it, doi 10.1136/bjsports-2022-105890, table 1): one set, 3 to 5 rising to 12 to 15 a side, three times a week, once in season.</summary>
    [Fact]
    public void The_long_lever_of_the_groin_is_the_printed_one()
    {
        var build = Dose("groin-long-lever");
        Assert.Equal((1, 3), (build.Sets, build.SessionsPerWeek));
        Assert.InRange(build.Amount, 3, 5);
        var season = Dose("groin-season");
        Assert.Equal((1, 1), (season.Sets, season.SessionsPerWeek));
        Assert.InRange(season.Amount, 12, 15);
    }

    [Fact]
    public void What_is_called_published_names_a_source_that_was_read()
    {
        var doses = TestEdition.Knowledge.Programmes.Programmes.SelectMany(p => p.Stages).SelectMany(s => s.Doses).ToList();
        var sources = doses.Where(d => d.Basis == Basis.Published).Select(d => d.Source!)
            .Concat(doses.SelectMany(d => d.Steps).Where(s => s.Basis == Basis.Published).Select(s => s.Source!));
        Assert.NotEmpty(sources);
        Assert.All(sources, id => Assert.NotEqual("not-read", TestEdition.Knowledge.Sources.Single(s => s.Id == id).Read));
    }

    [Fact]
    public void A_stage_is_looked_up_by_region_and_a_region_without_one_has_none()
    {
        Assert.Equal(LoadingStage.SlowHeavy, TestEdition.Knowledge.ProgrammeOf("patellar-tendon", LoadingStage.SlowHeavy)!.Stage);
        Assert.Null(TestEdition.Knowledge.ProgrammeOf("neck", LoadingStage.Isometric));
    }

    [Fact]
    public void More_pain_never_means_a_later_stage()
    {
        foreach (var programme in TestEdition.Knowledge.Programmes.Programmes)
        {
            foreach (var sent in Enum.GetValues<LoadingStage>().Select(s => (LoadingStage?)s).Append(null))
            {
                var stages = Enumerable.Range(0, 11).Select(pain => programme.InForce(pain, sent, null, 0).Stage).ToList();
                Assert.Equal(stages.OrderDescending(), stages);
                Assert.True(stages[0] <= (sent ?? programme.LatestUnsent));
            }
        }
    }

    private static StageDose Dose(string id) => TestEdition.Knowledge.Programmes.Programmes.SelectMany(p => p.Stages).SelectMany(s => s.Doses).Single(d => d.Id == id);
}
