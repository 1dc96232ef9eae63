using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;

namespace Recommender.Pages.Ask;

/// <summary>What stands in a form, as typed. Names are the contract's, a dot for each step: complaints.0.pain.</summary>
/// <param name="fields">Name to values.</param>
public sealed class Typed(IReadOnlyDictionary<string, StringValues> fields)
{
    private const int LongestValue = 2000;

    /// <summary>An empty form.</summary>
    public static Typed Nothing { get; } = new(new Dictionary<string, StringValues>());

    /// <summary>Names that were typed into or shown.</summary>
    public IEnumerable<string> Names => fields.Keys;

    /// <summary>A posted form.</summary>
    public static Typed Of(IFormCollection form) =>
        new(form.ToDictionary(f => f.Key, f => new StringValues([.. f.Value.Select(Cut)]), StringComparer.Ordinal));

    /// <summary>One value, trimmed; null when it was left empty.</summary>
    public string? Get(string name) => fields.TryGetValue(name, out var values) && values.Count > 0 && values[0]?.Trim() is { Length: > 0 } text ? text : null;

    /// <summary>All values of a field that may have several, such as ticked boxes.</summary>
    public IReadOnlyList<string> All(string name) => fields.TryGetValue(name, out var values) ? [.. values.OfType<string>().Where(v => v.Length > 0)] : [];

    /// <summary>Whether a box with this value is ticked.</summary>
    public bool Has(string name, string value) => All(name).Contains(value, StringComparer.Ordinal);

    /// <summary>The numbers of rows under a list that hold anything, ascending.</summary>
    /// <param name="list">Name of the list.</param>
    /// <param name="field">Field without which a row is empty.</param>
    /// <param name="most">Rows looked at.</param>
    public IReadOnlyList<int> Rows(string list, string field, int most) => [.. Enumerable.Range(0, most).Where(i => Get($"{list}.{i}.{field}") is not null)];

    private static string? Cut(string? value) => value is { Length: > LongestValue } ? value[..LongestValue] : value;
}
