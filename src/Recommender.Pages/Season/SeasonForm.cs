using System.Globalization;
using Microsoft.Extensions.Primitives;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Season;
using Recommender.Pages.Ask;
using Recommender.Pages.Words;

namespace Recommender.Pages.Season;

/// <summary>Reads the sentence of the season page. The address holds everything, so that a season can be bookmarked.</summary>
/// <param name="edition">Words and usual lengths.</param>
/// <param name="today">Today.</param>
internal sealed class SeasonForm(Edition edition, DateOnly today)
{
    private const int MostDays = 420;
    private const int MostWeeks = 40;
    private const int DaysPerWeek = 7;
    private const string WeeksField = "weeksToCompetition";
    private readonly List<Fault> faults = [];

    /// <summary>Before the id of a phase whose length is typed.</summary>
    public const string LengthField = "lengths.";

    /// <summary>What is wrong.</summary>
    public IReadOnlyList<Fault> Faults => faults;

    /// <summary>The fields as a profile fills them.</summary>
    public static Typed Filled(AthleteProfile profile, DateOnly today)
    {
        var fields = new Dictionary<string, StringValues>(StringComparer.Ordinal);
        Put("event", profile.Athlete.Event ?? profile.Athlete.EventGroup);
        Put("phase", profile.Phase);
        var main = Main(profile);
        Put("competition", main is null ? null : Dates.Field(today.AddDays(main.DaysToStart!.Value)));
        Put(WeeksField, main is null ? profile.WeeksToCompetition?.ToString("0.##", CultureInfo.InvariantCulture) : null);
        return new Typed(fields);

        void Put(string name, string? value)
        {
            if (value is not null)
            {
                fields[name] = value;
            }
        }
    }

    /// <summary>The competition that the season leads to: the next main one.</summary>
    private static Competition? Main(AthleteProfile profile) =>
        (profile.Competitions ?? []).Where(c => c.DaysToStart >= 0 && (c.Priority ?? "main") == "main").MinBy(c => c.DaysToStart);

    /// <summary>The season, or null while something is missing or wrong.</summary>
    /// <param name="typed">Fields.</param>
    /// <param name="profile">The saved athlete, or null.</param>
    public (RecommendationRequest Request, SeasonOutlook Outlook)? Read(Typed typed, AthleteProfile? profile)
    {
        var words = edition.Catalogue.Vocabulary;
        var chosen = typed.Get("event");
        var isGroup = chosen is not null && words.EventGroups.Has(chosen);
        if (chosen is null || (!isGroup && !words.Events.Has(chosen)))
        {
            Add("event", chosen is null ? "The event is missing; choose one." : "This is no event known here; choose one.");
        }

        var phase = typed.Get("phase") is { } id ? words.Phases.IndexOf(id) : -1;
        var days = Days(typed);
        var lengths = Lengths(typed);
        if (faults.Count > 0 || days is not { } left)
        {
            return null;
        }

        var plan = SeasonPlan.Of(left, phase < 0 ? null : (Phase)phase, lengths, edition.Knowledge.Planning!.Season);
        if (phase >= 0 && plan.Phases[0].Phase != (Phase)phase && lengths.Count > 0)
        {
            Add(LengthField + words.Phases[(int)lengths.Keys.First()].Id, $"With the lengths typed the phases to come take more than the {Dates.Weeks(left)} that are left; shorten some.");
            return null;
        }

        var request = (profile is null ? new RecommendationRequest() : AskSource.Of(profile)) with
        {
            Phase = words.Phases[(int)plan.At(left)].Id,
            WeeksToCompetition = null,
            Competitions = [new Competition { DaysToStart = left }],
        };
        request = request with
        {
            Athlete = (request.Athlete ?? new AthleteFacts()) with { Event = isGroup ? null : chosen, EventGroup = isGroup ? chosen : words.Events.Find(chosen!)!.EventGroup },
        };
        if (DecisionKind.Recommendation.Faults(request, edition) is { Count: > 0 } wrong)
        {
            faults.AddRange(wrong);
            return null;
        }

        return (request, SeasonOutlook.Of(request, plan, edition));
    }

    private int? Days(Typed typed)
    {
        if (typed.Get("competition") is { } text)
        {
            var days = Dates.Read(text) is { } date ? date.DayNumber - today.DayNumber : (int?)null;
            if (days is not (>= 0 and <= MostDays))
            {
                Add("competition", days is null ? "This is no date; give year, month and day." : days < 0 ? "This day is past; give the next main competition." : "This is more than 60 weeks away; give a nearer one.");
            }

            return days;
        }

        if (typed.Get(WeeksField) is not { } typedWeeks)
        {
            Add("competition", "The competition is missing; give its date or the weeks that are left.");
            return null;
        }

        if (decimal.TryParse(typedWeeks.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var weeks) && weeks <= MostDays / DaysPerWeek)
        {
            return (int)decimal.Round(weeks * DaysPerWeek, MidpointRounding.AwayFromZero);
        }

        Add(WeeksField, "Give the weeks as a number from 0 to 60.");
        return null;
    }

    private Dictionary<Phase, int> Lengths(Typed typed)
    {
        var lengths = new Dictionary<Phase, int>();
        foreach (var phase in Enum.GetValues<Phase>())
        {
            var name = LengthField + edition.Catalogue.Vocabulary.Phases[(int)phase].Id;
            if (typed.Get(name) is not { } text)
            {
                continue;
            }

            if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var weeks) && weeks <= MostWeeks)
            {
                lengths[phase] = weeks;
            }
            else
            {
                Add(name, $"Give whole weeks from 0 to {MostWeeks}.");
            }
        }

        return lengths;
    }

    private void Add(string field, string message) => faults.Add(new Fault("/" + field.Replace('.', '/'), "invalid", message));
}
