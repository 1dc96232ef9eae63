using CsCheck;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Requests;
using Recommender.Pages.Squad;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Squad;

public sealed class SquadImportTests
{
    private static readonly DateOnly Today = new(2026, 11, 24);
    private static readonly AthleteProfile Saved = new("NM-04", "Solveig Amadi", new AthleteFacts { Event = "long-jump", EventGroup = "jumps", OneRepMaxKg = new Dictionary<string, decimal> { ["back-squat"] = 95 } }, "pre-competition", 5,
        Complaints: [new Complaint { Region = "patellar-tendon", Side = "left", Pain = 3, Stage = "slow-heavy" }]);

    /// <summary>Cells with delimiters, quotation marks and line ends, as RFC 4180 section 2 writes them.</summary>
    [Fact]
    public void Quoted_cells_are_read_as_the_standard_says() =>
        Assert.Equal([["name", "note"], ["a,\"b\"", "c\r\nd"]], SquadCsv.Read("name,note\r\n\"a,\"\"b\"\"\",\"c\r\nd\"\r\n").Rows);

    [Fact]
    public void An_export_comes_back_without_any_change() =>
        Gen.String[1, 20].Where(n => n.Trim() == n && n.Length > 0 && !n.Any(char.IsControl) && !n.StartsWith('\'')).Sample(name =>
        {
            var squad = new[] { Saved with { Name = name } };
            var row = Assert.Single(Import(SquadCsv.Write(squad, TestEdition.Vocabulary, Today), squad).Rows);
            Assert.Empty(row.Faults);
            Assert.Empty(row.Changes);
        });

    [Fact]
    public void No_cell_of_an_export_is_run_as_a_formula() =>
        Assert.Contains(",'=cmd(),", SquadCsv.Write([Saved with { Name = "=cmd()" }], TestEdition.Vocabulary, Today), StringComparison.Ordinal);

    [Fact]
    public void A_coachs_own_headings_and_words_are_understood_and_what_is_not_there_is_kept()
    {
        var row = Assert.Single(Import("Athlete;Discipline;Weeks out;Injury;Pain\nSolveig Amadi;Long Jump;4,5;Patellar tendon;2\n", [Saved]).Rows);
        Assert.Empty(row.Faults);
        Assert.Equal(["Weeks to the competition: 5 → 4.5", "Pain, 0 to 10: 3 → 2"], row.Changes);
        Assert.Equal(95, row.Profile.Athlete.OneRepMaxKg!["back-squat"]);
        Assert.Equal(("left", "slow-heavy"), (row.Profile.Complaints![0].Side, row.Profile.Complaints[0].Stage));
    }

    /// <summary>RFC 3986, 5.2.4: dots alone lead elsewhere, so that no address could name such an athlete; nor is one that is saved already kept going.</summary>
    [Theory]
    [InlineData(".")]
    [InlineData("..")]
    public void A_ref_that_no_address_can_name_holds_back_its_row_and_is_told_at_its_column(string reference)
    {
        foreach (var squad in new AthleteProfile[][] { [], [Saved with { Ref = reference }] })
        {
            var import = SquadImport.Of($"ref,name,event\n{reference},Ilka Varro,long-jump\n", null, squad, TestEdition.Vocabulary, p => KeepAthlete.Faults(p, TestEdition.Current), "", Today);

            Assert.Empty(import.Ready);
            var fault = Assert.Single(Assert.Single(import.Rows).Faults);
            Assert.Equal("ref", fault.Column);
            Assert.Contains("stands in addresses", fault.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_complaint_that_is_gone_is_said_to_be_gone() =>
        Assert.Contains("Sore region: no longer Patellar tendon", Assert.Single(Import("name,sore\nSolveig Amadi,\n", [Saved]).Rows).Changes);

    [Fact]
    public void Each_fault_is_told_at_its_column_and_holds_back_its_row_alone()
    {
        var import = Import("name,event,age,pain,sore\nOne,moon jump,old,11,hip\nTwo,discus,20,,\nTwo,javelin,20,,\n", []);
        Assert.Equal(["event", "age", "pain"], import.Rows[0].Faults.Select(f => f.Column).Where(c => c is "event" or "age" or "pain").Distinct());
        Assert.All(import.Rows.Skip(1), r => Assert.Contains(r.Faults, f => f.Column == "ref"));
        Assert.Empty(import.Ready);
        Assert.Single(Import("name,event\nOne,moon jump\nTwo,discus\n", []).Ready);
    }

    [Fact]
    public void A_date_of_competition_takes_the_place_of_the_weeks_column_and_comes_back_from_an_export()
    {
        var row = Assert.Single(Import("name,weeks,next comp,weeks off,off because\nSolveig Amadi,,28.11.2026,5,illness\n", [Saved]).Rows);
        Assert.Empty(row.Faults);
        Assert.Equal(4, Assert.Single(row.Profile.Competitions!).DaysToStart);
        Assert.Equal((5, "illness"), (row.Profile.Athlete.Layoff!.Weeks, row.Profile.Athlete.Layoff.Reason));
        Assert.Equal(Today, row.Profile.AsOf);
        Assert.Contains("Competition: 2026-11-28", row.Changes);
        var again = Assert.Single(Import(SquadCsv.Write([row.Profile], TestEdition.Vocabulary, Today), [row.Profile]).Rows);
        Assert.Empty(again.Faults);
        Assert.Empty(again.Changes);
    }

    [Theory]
    [InlineData("2026-12-05", true)]
    [InlineData("5.12.2026", true)]
    [InlineData("5 Dec 2026", true)]
    [InlineData("28/11/2026", true)]
    [InlineData("5/12/2026", false)]
    [InlineData("Saturday", false)]
    public void A_date_that_can_be_read_in_two_ways_is_asked_about(string date, bool read) =>
        Assert.Equal(read, Assert.Single(Import($"name,event,competition\nOne,discus,{date}\n", []).Rows).Faults.Count == 0);

    private static SquadImport Import(string csv, IReadOnlyList<AthleteProfile> squad) => SquadImport.Of(csv, null, squad, TestEdition.Vocabulary,
        p => RequestChecks.Of(new RecommendationRequest { Athlete = p.Athlete, Phase = p.Phase ?? "taper", WeeksToCompetition = p.WeeksToCompetition, Setting = p.Setting, Complaints = p.Complaints, Needs = p.Needs, Competitions = p.Competitions }, TestEdition.Current.Catalogue, TestEdition.Knowledge), "", Today);
}
