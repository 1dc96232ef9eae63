using Recommender.Api.Tests.Hosting;
using Recommender.Domain.Audit;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Api.Tests.Commands;

public sealed class CoverageCommandTests
{
    private static readonly Lazy<Edition> Shipped = new(() => KnowledgeReader.Read(Repository.File("data")));
    private static readonly Lazy<IReadOnlyList<CoverageCell>> Cells = new(() => Coverage.Of(Shipped.Value, Shipped.Value.Knowledge.Audit.Coverage!));

    [Fact]
    public void Every_group_in_every_phase_is_asked_at_four_places_with_and_without_six_complaints()
    {
        var vocabulary = Shipped.Value.Catalogue.Vocabulary;

        Assert.Equal(vocabulary.EventGroups.Count * vocabulary.Phases.Count * 4 * 7, Cells.Value.Count);
        Assert.Equal(Cells.Value.Count, Cells.Value.Select(c => (c.EventGroup, c.Phase, c.Place, c.Complaint)).Distinct().Count());
    }

    [Fact]
    public void Where_nothing_hurts_at_least_six_exercises_are_eligible() =>
        Assert.All(Cells.Value.Where(c => c.Complaint is null), c => Assert.True(c.Eligible >= 6, $"{c.EventGroup}, {c.Phase}, {c.Place}: {c.Eligible}."));

    [Fact]
    public void In_a_full_gym_where_nothing_hurts_every_heavy_need_has_a_strong_choice() =>
        Assert.All(Cells.Value.Where(c => c is { Complaint: null, Place: "full-gym" }), c => Assert.True(c.Lacking.Count == 0, $"{c.EventGroup}, {c.Phase}: {string.Join(", ", c.Lacking)}."));

    [Fact]
    public void What_is_lacking_is_a_need_for_which_nothing_eligible_is_strong() => Assert.All(Cells.Value, c =>
    {
        Assert.InRange(c.StrongFor, 0, c.Needs);
        Assert.True(c.Eligible + c.Refusals.Max(r => r.Count) <= Shipped.Value.Catalogue.Count);
    });

    [Fact]
    public void A_complaint_never_lets_more_in() => Assert.All(Cells.Value.GroupBy(c => (c.EventGroup, c.Phase, c.Place)), row =>
    {
        var free = row.Single(c => c.Complaint is null).Eligible;
        Assert.All(row, c => Assert.True(c.Eligible <= free, $"{row.Key}, {c.Complaint}: {c.Eligible} of {free}."));
    });

    [Fact]
    public void The_report_shows_every_row_and_ends_well()
    {
        var (exit, output, _) = CommandRun.Of("coverage");

        Assert.Equal(0, exit);
        Assert.All(Cells.Value, c => Assert.Contains($"| {c.EventGroup} | {c.Phase} | {c.Place} |", output, StringComparison.Ordinal));
        Assert.Contains($"cells have fewer than 6 eligible exercises", output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_catalogue_that_is_too_small_is_told_cell_by_cell_with_reasons()
    {
        var few = Shipped.Value.Catalogue.Exercises.Where(e => e.Pattern == "olympic-lift").Take(7);
        var small = new Edition(new ExerciseCatalogue(few, Shipped.Value.Catalogue.Vocabulary), Shipped.Value.Knowledge, "small", "small");
        using var output = new StringWriter { NewLine = "\n" };

        Assert.Equal(1, Api.Commands.CoverageCommand.Run(small, output));
        Assert.Contains("- sprints, general-preparation, home, nothing hurts: 0; equipment-missing refuses 7", output.ToString(), StringComparison.Ordinal);
    }
}
