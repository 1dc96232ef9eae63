using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>All readings of a request's tests: those sent, the findings as numbers, and what is derived.</summary>
internal static class TestMeasures
{
    /// <summary>Fills a sheet.</summary>
    public static MeasureSheet Of(Situation situation)
    {
        var sheet = new MeasureSheet(situation.Knowledge.Measures, situation.Knowledge.Tests.Use);
        var athlete = situation.Request.Athlete!;
        if (situation.Request.Tests is { } tests)
        {
            Add(sheet, tests, athlete);
        }

        StrengthMeasures.AddMaxima(sheet, situation.Request.Tests, athlete, situation.Catalogue);
        return sheet;
    }

    private static void Add(MeasureSheet sheet, TestResults tests, AthleteFacts athlete)
    {
        foreach (var (pointer, test, value) in tests.Readings())
        {
            sheet.Add(test, value, pointer == test ? null : pointer.EndsWith("/left", StringComparison.Ordinal) ? Side.Left : Side.Right);
        }

        Findings(sheet, tests);
        JumpMeasures.Add(sheet, tests, athlete);
        LoadedJumpMeasures.Add(sheet, tests, athlete);
        SprintMeasures.Add(sheet, tests, athlete);
        StrengthMeasures.Add(sheet, athlete);
        RangeMeasures.Add(sheet, tests);
    }

    private static void Findings(MeasureSheet sheet, TestResults tests)
    {
        foreach (var (side, positive) in new[] { (Side.Left, tests.ModifiedThomasPositive?.Left), (Side.Right, tests.ModifiedThomasPositive?.Right) })
        {
            if (positive is { } p)
            {
                sheet.Note("modifiedThomasPositive");
                sheet.Derive("modifiedThomasPositive", p ? 1m : 0m, side, null, "modifiedThomasPositive");
            }
        }

        foreach (var (side, rating) in new[] { (Side.Left, tests.SingleLegSquatRating?.Left), (Side.Right, tests.SingleLegSquatRating?.Right) })
        {
            if (rating is not null)
            {
                sheet.Note("singleLegSquatRating");
                sheet.Derive("singleLegSquatPoor", rating == "poor" ? 1m : 0m, side, null, "singleLegSquatRating");
            }
        }
    }
}
