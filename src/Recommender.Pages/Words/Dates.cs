using System.Globalization;

namespace Recommender.Pages.Words;

/// <summary>Days as a person reads them.</summary>
public static class Dates
{
    /// <summary>Thursday 26 November 2026.</summary>
    public static string Long(DateOnly day) => day.ToString("dddd d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>Thu 26 November.</summary>
    public static string Short(DateOnly day) => day.ToString("ddd d MMMM", CultureInfo.InvariantCulture);

    /// <summary>How far away a day is: today, tomorrow, in 9 days, in 12 weeks; 3 days ago.</summary>
    public static string Away(int days) => days switch
    {
        0 => "today",
        1 => "tomorrow",
        -1 => "yesterday",
        < 0 => $"{-days} days ago",
        < 15 => $"in {days} days",
        _ => $"in {Weeks(days)}",
    };

    /// <summary>Days as weeks, to half a week: 2.5 weeks.</summary>
    public static string Weeks(int days) => decimal.Round(days / 3.5m, MidpointRounding.AwayFromZero) / 2 is var weeks && weeks == 1 ? "1 week" : $"{Say.Number(weeks)} weeks";

    /// <summary>A day as forms hold it: 2026-11-26; null when it is none.</summary>
    public static DateOnly? Read(string? text) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    /// <summary>As forms hold it.</summary>
    public static string Field(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
