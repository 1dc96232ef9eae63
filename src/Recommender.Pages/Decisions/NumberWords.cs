using System.Globalization;
using System.Text.RegularExpressions;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Words;

namespace Recommender.Pages.Decisions;

/// <summary>Where a number or a value stands, as a person reads it.</summary>
internal static partial class NumberWords
{
    /// <summary>A number of the data, as sensitivity names it.</summary>
    /// <param name="number">Its place, such as exercises/back-squat/qualities/max-strength.</param>
    /// <param name="edition">Gives labels and names.</param>
    public static string Of(string number, Edition edition)
    {
        var words = edition.Catalogue.Vocabulary;
        return number.Split('/') switch
        {
            ["exercises", var id, "qualities", var quality] => $"{NameOf(id, edition)}: rating for {Say.InSentence(words.Qualities, quality)}",
            ["exercises", var id, "tissueLoad", var region] => $"{NameOf(id, edition)}: load on the {Say.InSentence(words.Regions, region)}",
            ["event-profiles", var of, .. var rest] => $"Profile of {Label(of, words)}: {string.Join(", ", rest.Select(p => Label(p, words)))}",
            ["rules", .. var rest] => $"Rules: {string.Join(", ", rest.Select(p => Label(p, words)))}",
            var parts => string.Join(", ", parts.Select(p => Label(p, words))),
        };
    }

    /// <summary>A place in an answer, as a replay names it: pick 2, dose, sets.</summary>
    /// <param name="pointer">JSON Pointer.</param>
    /// <param name="words">Gives labels.</param>
    public static string Place(string pointer, Vocabulary words)
    {
        var parts = pointer.Split('/', StringSplitOptions.RemoveEmptyEntries).Select(p => p.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal)).ToList();
        var said = new List<string>();
        for (var i = 0; i < parts.Count; i++)
        {
            var next = i + 1 < parts.Count && int.TryParse(parts[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : -1;
            said.Add(next >= 0 ? $"{Singular(Label(parts[i], words))} {next + 1}" : Label(parts[i], words));
            i += next >= 0 ? 1 : 0;
        }

        return said.Count == 0 ? "The whole answer" : char.ToUpperInvariant(said[0][0]) + string.Join(", ", said)[1..];
    }

    /// <summary>One of a list that is named otherwise than by its plural.</summary>
    private static string Singular(string list) => list switch { "unmet" => "unmet need", "by reason" => "reason", "nearest" => "nearest miss", _ => One(list) };

    private static string One(string list) => list.EndsWith('s') && list.Length > 3 ? list[..^1] : list;

    private static string NameOf(string id, Edition edition) => edition.Catalogue.Find(id)?.Name ?? id;

    /// <summary>A word of the data as it stands within a sentence.</summary>
    public static string Label(string part, Vocabulary words) =>
        words.Qualities.Has(part) ? words.Qualities.InSentence(part)
        : words.Regions.Has(part) ? words.Regions.InSentence(part)
        : words.Events.Has(part) ? words.Events.InSentence(part)
        : words.EventGroups.Has(part) ? words.EventGroups.InSentence(part)
        : words.Phases.Has(part) ? words.Phases.InSentence(part)
        : words.Factors.Has(part) ? words.Factors.InSentence(part)
        : int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var index) ? $"no. {index + 1}"
        : Humps().Replace(part, m => " " + m.Value.ToLowerInvariant()).Replace('-', ' ');

    [GeneratedRegex("(?<=[a-z])[A-Z]")]
    private static partial Regex Humps();
}
