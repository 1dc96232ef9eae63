using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Tests.Dosing;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

public sealed class DoseTableTests
{
    private static readonly DoseRow Net = DoseRowTests.Row() with { Id = "net", Goals = [.. TestEdition.Knowledge.Dose.Goals.Values.Distinct()], Units = Enum.GetValues<DoseUnit>() };

    private static readonly DoseRow Asking = DoseRowTests.Row() with
    {
        Id = "asking",
        MinAgeYears = 16,
        MinTrainingAgeYears = 2,
        EventGroups = ["throws"],
        SoreRegions = ["hamstring"],
        Match = new ExerciseMatch(LoadBands: [LoadBand.Heavy]),
    };

    private static readonly DoseCircumstances Met = new(Phase.Taper, "throws", 16, 2, ["hamstring"]);
    private static readonly Exercise Heavy = ExerciseBuilder.Named().At(LoadBand.Heavy).Build();

    [Fact]
    public void The_first_row_whose_conditions_all_hold_gives_the_dose()
    {
        Assert.Equal("asking", RowFor(Heavy, "max-strength", Met));
        Assert.Equal("net", RowFor(Heavy, "speed-strength", Met));
        Assert.Equal("net", RowFor(Heavy with { DoseUnit = DoseUnit.Seconds }, "max-strength", Met));
        Assert.Equal("net", RowFor(Heavy with { LoadBand = LoadBand.Light }, "max-strength", Met));
        Assert.Equal("net", RowFor(Heavy, "max-strength", Met with { EventGroup = "jumps" }));
        Assert.Equal("net", RowFor(Heavy, "max-strength", Met with { AgeYears = 15 }));
        Assert.Equal("net", RowFor(Heavy, "max-strength", Met with { TrainingAgeYears = 1.9m }));
        Assert.Equal("net", RowFor(Heavy, "max-strength", Met with { SoreRegions = ["achilles-calf"] }));
    }

    [Fact]
    public void A_row_beyond_the_first_sixty_four_is_found_too()
    {
        var never = Enumerable.Range(0, 100).Select(i => Asking with { Id = $"never-{i}", MinAgeYears = 99 });
        Assert.Equal("asking", RowFor(Heavy, "max-strength", Met, [.. never, Asking, Net]));
    }

    [Fact]
    public void The_least_time_is_that_of_the_row_at_its_fewest_sets()
    {
        var table = TestEdition.Current.DoseTable;
        var catalogue = TestEdition.Current.Catalogue;
        var inForce = table.InForce(Met);
        for (var e = 0; e < catalogue.Count; e++)
        {
            var quality = catalogue.RatingsOf(e)[0].Quality;
            foreach (var phase in Enum.GetValues<Phase>())
            {
                var row = table.RowFor(e, quality, inForce);
                Assert.Equal(SessionTime.Minutes(catalogue.Exercises[e], row.LeastSets(phase), row.Amount[(int)phase], row.RestSeconds) + (TestEdition.Knowledge.Dose.WarmUpOf(row)?.Minutes ?? 0), table.LeastTenths(e, quality, inForce, phase) / 10m);
            }
        }
    }

    private static string RowFor(Exercise exercise, string quality, in DoseCircumstances circumstances, params DoseRow[] rows)
    {
        var edition = TestEdition.Of([exercise], TestEdition.Knowledge.With(dose: TestEdition.Knowledge.Dose with { Rows = rows.Length == 0 ? [Asking, Net] : rows }));
        return edition.DoseTable.RowFor(0, TestEdition.Vocabulary.Qualities.IndexOf(quality), edition.DoseTable.InForce(circumstances)).Id;
    }
}
