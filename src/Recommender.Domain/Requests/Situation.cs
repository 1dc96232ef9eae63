using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Requests;

/// <summary>A side of the body.</summary>
public enum Side
{
    /// <summary>Left.</summary>
    Left,

    /// <summary>Right.</summary>
    Right,

    /// <summary>Both.</summary>
    Both,
}

/// <summary>A value taken because the request left it out.</summary>
/// <param name="Pointer">JSON Pointer to where it would stand.</param>
/// <param name="Value">A string, a number or a list of strings.</param>
public sealed record Assumption(string Pointer, object Value);

/// <summary>A complaint with its gaps filled.</summary>
/// <param name="Region">The region as named.</param>
/// <param name="Side">Side.</param>
/// <param name="Pain">Pain as given, 0 to 10.</param>
/// <param name="EffectivePain">Pain that the limits are read at; higher when the next morning was worse.</param>
/// <param name="WorseMorning">Whether the next morning was worse.</param>
/// <param name="RedFlags">Its red flags.</param>
public sealed record ResolvedComplaint(RegionTerm Region, Side Side, int Pain, int EffectivePain, bool WorseMorning, IReadOnlyList<RedFlagTerm> RedFlags);

/// <summary>When an exercise or its family was last done.</summary>
/// <param name="Position">Catalogue position.</param>
/// <param name="DaysAgo">Days ago.</param>
public readonly record struct LastDone(int Position, int DaysAgo);

/// <summary>A request with every gap filled from the rules, ready for the stages. Immutable.</summary>
public sealed class Situation
{
    private Situation(RecommendationRequest request, Edition edition)
    {
        Request = request;
        Edition = edition;
        var catalogue = edition.Catalogue;
        var knowledge = edition.Knowledge;
        var vocabulary = catalogue.Vocabulary;
        var defaults = knowledge.Defaults;
        var assumed = new List<Assumption>();
        T Assume<T>(string pointer, T value) where T : notnull
        {
            assumed.Add(new Assumption(pointer, value));
            return value;
        }

        var athlete = request.Athlete!;
        EventGroup = athlete.EventGroup ?? vocabulary.Events.Find(athlete.Event!)!.EventGroup;
        Event = athlete.Event ?? Assume("/athlete/event", knowledge.GroupOf(EventGroup).DefaultEvent);
        Profile = knowledge.ProfileOf(Event);
        if (athlete.AgeYears is null)
        {
            Assume("/athlete/ageYears", "adult");
        }

        AgeYears = athlete.AgeYears ?? defaults.AdultAgeYears;
        TrainingAgeYears = athlete.TrainingAgeYears ?? Assume("/athlete/trainingAgeYears", defaults.TrainingAgeYears);
        var competence = athlete.Competence ?? Assume<IReadOnlyList<string>>("/athlete/competence", CompetencesAt(TrainingAgeYears));
        CompetenceMask = vocabulary.Competences.Mask(competence);
        Phase = (Phase)vocabulary.Phases.IndexOf(request.Phase!);
        WeeksToCompetition = request.WeeksToCompetition ?? Assume("/weeksToCompetition", defaults.WeeksByPhase[(int)Phase]);
        Place = vocabulary.Places.Find(request.Setting?.Place ?? Assume("/setting/place", defaults.Place))!;
        PlaceMask = 1UL << vocabulary.Places.IndexOf(Place.Id);
        var equipment = request.Setting?.Equipment ?? Assume("/setting/equipment", Place.Equipment);
        EquipmentMask = WithImplied(vocabulary.Equipment.Mask(equipment), vocabulary);
        Minutes = request.Setting?.Minutes;
        SettingLimits = request.Setting?.Limits ?? [];
        Complaints = [.. (request.Complaints ?? []).Select((c, i) =>
        {
            var side = c.Side ?? Assume($"/complaints/{i}/side", "both");
            var worse = (c.NextMorning ?? Assume($"/complaints/{i}/nextMorning", "same")) == "worse";
            var rule = knowledge.Pain.WorseMorning;
            var raised = worse ? Math.Max(c.Pain!.Value, Math.Min(rule.AtMost, c.Pain.Value + rule.AddsPain)) : c.Pain!.Value;
            return new ResolvedComplaint(vocabulary.Regions.Find(c.Region!)!, Enum.Parse<Side>(side, ignoreCase: true), c.Pain.Value, raised, worse,
                [.. (c.RedFlags ?? []).Distinct(StringComparer.Ordinal).Select(f => vocabulary.RedFlags.Find(f)!)]);
        })];
        GeneralRedFlags = [.. (request.RedFlags ?? []).Distinct(StringComparer.Ordinal).Select(f => vocabulary.RedFlags.Find(f)!)];
        foreach (var (need, i) in (request.Needs ?? []).Select((n, i) => (n, i)))
        {
            if (need.Importance is null && need.Weight is null)
            {
                Assume($"/needs/{i}/importance", "medium");
            }
        }

        LastDone = [.. (request.Recent ?? [])
            .GroupBy(r => r.Exercise!, StringComparer.Ordinal)
            .Select(g => new LastDone(catalogue.PositionOf(g.Key), g.Min(r => r.DaysAgo!.Value)))
            .OrderBy(l => l.Position)];
        Asks = [.. (request.Needs ?? []).Select(n => (IReadOnlyList<int>)[.. (vocabulary.Aliases.Find(n.Quality!)?.Qualities ?? [n.Quality!]).Select(vocabulary.Qualities.IndexOf)])];
        Excluded = (request.Exclude ?? []).Select(catalogue.PositionOf).ToHashSet();
        Only = request.Only is { } only ? new OnlyKinds(only, vocabulary) : null;
        Count = request.Count ?? Assume("/count", defaults.Count);
        Assumed = assumed;
        DoseRows = edition.DoseTable.InForce(new DoseCircumstances(Phase, EventGroup, AgeYears, TrainingAgeYears,
            [.. Complaints.SelectMany(c => c.Region.Covers.Append(c.Region.Id)).Distinct(StringComparer.Ordinal)]));
    }

    /// <summary>The request as sent.</summary>
    public RecommendationRequest Request { get; }

    /// <summary>The edition it is answered on.</summary>
    public Edition Edition { get; }

    /// <summary>The edition's catalogue.</summary>
    public ExerciseCatalogue Catalogue => Edition.Catalogue;

    /// <summary>The edition's rules.</summary>
    public KnowledgeBase Knowledge => Edition.Knowledge;

    /// <summary>Event group id.</summary>
    public string EventGroup { get; }

    /// <summary>Event id.</summary>
    public string Event { get; }

    /// <summary>The event's profile.</summary>
    public EventProfile Profile { get; }

    /// <summary>Age, years; that of an adult when not given.</summary>
    public int AgeYears { get; }

    /// <summary>Training age, years.</summary>
    public decimal TrainingAgeYears { get; }

    /// <summary>Bit per competence.</summary>
    public ulong CompetenceMask { get; }

    /// <summary>Phase.</summary>
    public Phase Phase { get; }

    /// <summary>Weeks to the competition.</summary>
    public decimal WeeksToCompetition { get; }

    /// <summary>Place.</summary>
    public PlaceTerm Place { get; }

    /// <summary>The place's bit.</summary>
    public ulong PlaceMask { get; }

    /// <summary>Bit per thing at hand; a pair of dumbbells serves as one.</summary>
    public ulong EquipmentMask { get; }

    /// <summary>Most minutes of a single pick, or null.</summary>
    public decimal? Minutes { get; }

    /// <summary>Setting limit ids.</summary>
    public IReadOnlyList<string> SettingLimits { get; }

    /// <summary>Complaints in the order given.</summary>
    public IReadOnlyList<ResolvedComplaint> Complaints { get; }

    /// <summary>Red flags that stand outside a complaint.</summary>
    public IReadOnlyList<RedFlagTerm> GeneralRedFlags { get; }

    /// <summary>Exercises done lately, by position.</summary>
    public IReadOnlyList<LastDone> LastDone { get; }

    /// <summary>What the coach asked for, in order: positions of the qualities that each ask stands for.</summary>
    public IReadOnlyList<IReadOnlyList<int>> Asks { get; }

    /// <summary>Catalogue positions the coach excluded.</summary>
    public IReadOnlySet<int> Excluded { get; }

    /// <summary>Kinds asked for, or null when all are.</summary>
    public OnlyKinds? Only { get; }

    /// <summary>How many picks are wanted.</summary>
    public int Count { get; }

    /// <summary>What was taken because it was left out, in the order of the body.</summary>
    public IReadOnlyList<Assumption> Assumed { get; }

    /// <summary>Bits of the dose rows for such an athlete; sore regions are those named, with what they cover.</summary>
    public ulong[] DoseRows { get; }

    /// <summary>Fills the gaps of a checked request.</summary>
    /// <param name="request">A request without faults.</param>
    /// <param name="edition">The edition it is to be answered on.</param>
    public static Situation Of(RecommendationRequest request, Edition edition) => new(request, edition);

    private IReadOnlyList<string> CompetencesAt(decimal trainingAgeYears) =>
        Knowledge.Competence.ByTrainingAge.Last(step => step.FromYears <= trainingAgeYears).Competences;

    private static ulong WithImplied(ulong mask, Vocabulary vocabulary)
    {
        var pair = vocabulary.Equipment.Mask(["dumbbells"]);
        return (mask & pair) != 0 ? mask | vocabulary.Equipment.Mask(["dumbbell"]) : mask;
    }
}
