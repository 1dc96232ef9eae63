using System.Globalization;
using System.Text.Json;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;
using Recommender.Pages.Words;

namespace Recommender.Pages.Answers;

/// <summary>What an answer assumed, in words.</summary>
internal static class AssumedWords
{
    /// <summary>What it is about.</summary>
    public static string Name(string pointer, Vocabulary words) => pointer.Split('/') switch
    {
        [_, "athlete", "event"] => "Event",
        [_, "athlete", "ageYears"] => "Age",
        [_, "athlete", "trainingAgeYears"] => "Strength training, years",
        [_, "athlete", "competence"] => "Can do safely",
        [_, "weeksToCompetition"] => "Weeks to the competition",
        [_, "setting", "place"] => "Place",
        [_, "setting", "equipment"] => "Equipment",
        [_, "setting", "minutes"] => "Minutes",
        [_, "count"] => "How many",
        [_, "complaints", _, "side"] => "Sore side",
        [_, "complaints", _, "nextMorning"] => "Next morning",
        [_, "needs", _, "importance"] => "Importance of a need",
        [_, "budgets", var region] => $"Budget, {Say.InSentence(words.Regions, region)}",
        var parts => string.Join(' ', parts.Skip(1)),
    };

    /// <summary>The value.</summary>
    public static string Value(Assumption assumption, Vocabulary words)
    {
        return assumption.Value switch
        {
            JsonElement { ValueKind: JsonValueKind.Array } list => Listed(list.EnumerateArray().Select(e => e.ToString())),
            JsonElement one => Word(one.ToString()),
            IEnumerable<string> list => Listed(list),
            var other => Word(Convert.ToString(other, CultureInfo.InvariantCulture) ?? ""),
        };

        string Listed(IEnumerable<string> ids) => ids.Select(Word).ToList() is { Count: > 0 } labels ? string.Join(", ", labels) : "none";

        string Word(string id) => words.Equipment.Has(id) ? words.Equipment.InSentence(id)
            : words.Competences.Has(id) ? words.Competences.InSentence(id)
            : words.Places.Has(id) ? words.Places.InSentence(id)
            : words.Events.Has(id) ? words.Events.InSentence(id)
            : id;
    }
}
