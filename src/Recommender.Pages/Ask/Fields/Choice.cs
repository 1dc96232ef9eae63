using Recommender.Domain.Catalogue;

namespace Recommender.Pages.Ask.Fields;

/// <summary>One option of a field.</summary>
/// <param name="Value">What is sent.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Group">Heading it stands under, or null.</param>
public sealed record Choice(string Value, string Label, string? Group = null)
{
    /// <summary>The terms of a vocabulary list.</summary>
    public static IReadOnlyList<Choice> Of(IEnumerable<Term> terms) => [.. terms.Select(t => new Choice(t.Id, t.Label))];

    /// <summary>Events under their groups, each group itself first.</summary>
    public static IReadOnlyList<Choice> Events(Vocabulary words) =>
        [.. words.EventGroups.SelectMany(g => words.Events.Where(e => e.EventGroup == g.Id).Select(e => new Choice(e.Id, e.Label, g.Label)).Append(new Choice(g.Id, $"{g.Label}: not one event", g.Label)))];
}
