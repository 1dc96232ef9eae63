using System.Globalization;

namespace Recommender.Pages.Squad;

/// <summary>A date as spreadsheets write it.</summary>
internal static class CellDate
{
    private static readonly string[] DayFirst = ["d.M.yyyy", "d.M.yy", "d MMM yyyy", "d MMMM yyyy", "ddd d MMM yyyy", "dddd d MMMM yyyy", "d-MMM-yyyy", "d-MMM-yy"];

    /// <summary>The day; null when it is none, or when day and month could be taken for one another.</summary>
    public static DateOnly? Read(string text)
    {
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) || DateOnly.TryParseExact(text, DayFirst, CultureInfo.InvariantCulture, DateTimeStyles.AllowWhiteSpaces, out day))
        {
            return day;
        }

        // With slashes half the world writes the month first.
        var first = DateOnly.TryParseExact(text, "d/M/yyyy", CultureInfo.InvariantCulture, DateTimeStyles.None, out var byDay) ? byDay : (DateOnly?)null;
        var second = DateOnly.TryParseExact(text, "M/d/yyyy", CultureInfo.InvariantCulture, DateTimeStyles.None, out var byMonth) ? byMonth : (DateOnly?)null;
        return first is null || second is null || first == second ? first ?? second : null;
    }
}
