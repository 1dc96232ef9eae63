using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Requests;

/// <summary>A side of the body.</summary>
[JsonConverter(typeof(KebabEnumConverter<Side>))]
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
        Calendar = Calendar.Of(request, EventGroup, knowledge.Week);
        WeeksToCompetition = Calendar.Weeks ?? request.WeeksToCompetition ?? Assume("/weeksToCompetition", defaults.WeeksByPhase[(int)Phase]);
        Taper = knowledge.Week.Taper.FirstOrDefault(t => WeeksToCompetition < t.WeeksBelow && t.Phases.Contains(Phase) && (t.EventGroups is null || t.EventGroups.Contains(EventGroup, StringComparer.Ordinal)));
        Slot = request.Setting?.Slot is { } slot ? knowledge.Week.Slots.First(s => s.Id == slot) : null;
        SlotBit = Slot is null ? 0 : 1UL << knowledge.Week.Slots.TakeWhile(s => s != Slot).Count();
        OnTheDay = knowledge.Week.OnTheDay is { } day && (WeeksToCompetition < day.WeeksBelow || (Slot is not null && day.Slots.Contains(Slot.Id, StringComparer.Ordinal))) ? day : null;
        WeekKind = request.WeekKind is { } kind ? knowledge.Week.WeekKinds.First(w => w.Id == kind) : null;
        Place = vocabulary.Places.Find(request.Setting?.Place ?? Assume("/setting/place", defaults.Place))!;
        PlaceMask = 1UL << vocabulary.Places.IndexOf(Place.Id);
        var equipment = request.Setting?.Equipment ?? Assume("/setting/equipment", Place.Equipment);
        EquipmentMask = WithImplied(vocabulary.Equipment.Mask(equipment), vocabulary);
        Minutes = request.Setting?.Minutes;
        SettingLimits = request.Setting?.Limits ?? [];
        InGrowthSpurt = athlete.GrowthSpurt == true;
        Young = AgeYears < knowledge.Pain.Youth.BelowAge || InGrowthSpurt;
        Restrictions = [.. (athlete.Restrictions ?? []).Select((r, i) => Resolved(r, ParseSide(r.Side ?? Assume($"/athlete/restrictions/{i}/side", "both"))))];
        Clearances = athlete.Clearances is not { Count: > 0 } ? [] : [.. knowledge.Returning.Clearances
            .Select((rule, i) => (rule, i, days: athlete.Clearances.Where(c => c.Flag == rule.Flag).Select(c => c.DaysAgo!.Value).DefaultIfEmpty(-1).Min()))
            .Where(c => c.days >= 0)
            .Select(c => new ResolvedClearance(c.rule, c.i, c.days))];
        if (athlete.Layoff is { } off)
        {
            var reason = off.Reason ?? Assume("/athlete/layoff/reason", "injury");
            Layoff = LayoffOf(off.Weeks!.Value, reason);
            LayoffBits = (knowledge.Returning.LayoffHolds ?? []).Select((h, i) => h.HoldsAfter(off.Weeks.Value, reason) ? 1UL << i : 0).Aggregate(0UL, (all, bit) => all | bit);
        }

        var reading = new ComplaintReading(knowledge, vocabulary, Young, Restrictions);
        Complaints = [.. (request.Complaints ?? []).Select((c, i) =>
        {
            var side = ParseSide(c.Side ?? Assume($"/complaints/{i}/side", "both"));
            if (c.NextMorning is null && c.Mornings is not { Count: > 0 })
            {
                Assume($"/complaints/{i}/nextMorning", "same");
            }

            if (c is { Onset: "sudden", DaysSinceOnset: null })
            {
                Assume($"/complaints/{i}/daysSinceOnset", 0);
            }

            return reading.Of(c, side);
        })];
        Protective = [.. (knowledge.Returning.Protective ?? []).Where(IsProtected)];
        GeneralRedFlags = [.. (request.RedFlags ?? []).Distinct(StringComparer.Ordinal).Select(f => vocabulary.RedFlags.Find(f)!)];
        foreach (var (need, i) in (request.Needs ?? []).Select((n, i) => (n, i)))
        {
            if (need.Importance is null && need.Weight is null)
            {
                Assume($"/needs/{i}/importance", "medium");
            }
        }

        if (request.Tests is { } tests)
        {
            AssumeOf(tests, assumed);
        }

        LastDone = request.Recent is not { Count: > 0 } recent ? [] : [.. recent
            .GroupBy(r => r.Exercise!, StringComparer.Ordinal)
            .Select(g => new LastDone(catalogue.PositionOf(g.Key), g.Min(r => r.DaysAgo!.Value)))
            .OrderBy(l => l.Position)];
        Asks = [.. (request.Needs ?? []).Select(n => (IReadOnlyList<int>)[.. (vocabulary.Aliases.Find(n.Quality!)?.Qualities ?? [n.Quality!]).Select(vocabulary.Qualities.IndexOf)])];
        Excluded = (request.Exclude ?? []).Select(catalogue.PositionOf).ToHashSet();
        Only = request.Only is { } only ? new OnlyKinds(only, vocabulary) : null;
        Count = request.Count ?? Assume("/count", defaults.Count);
        PerFamily = request.PerFamily ?? 1;
        Assumed = assumed;
        Preference = knowledge.Outcomes is null ? null : request.Read?.Preference;
        LearnedCautions = knowledge.Outcomes is { } outcomes && request.Read is { Cautions.Count: > 0 } read ? [.. read.Cautions.Where(c => c.IsInForce(outcomes.Caution))] : [];
        DoseRows = RowsFor(Complaints);
        DoseRowsBySide = !Complaints.Any(c => c.Side != Side.Both) ? null : (RowsFor(Complaints.Where(c => c.Side != Side.Right)), RowsFor(Complaints.Where(c => c.Side != Side.Left)));

        // Growing athletes get the rows of the young, whatever their age: no adult programme, no percentage of a maximum.
        ulong[] RowsFor(IEnumerable<ResolvedComplaint> complaints) => edition.DoseTable.InForce(new DoseCircumstances(Phase, EventGroup, Young ? Math.Min(AgeYears, knowledge.Pain.Youth.BelowAge - 1) : AgeYears, TrainingAgeYears,
            [.. complaints.SelectMany(c => c.Region.Covers.Append(c.Region.Id)).Distinct(StringComparer.Ordinal)]));
    }

    /// <summary>Dose rows in force for each side; null when no complaint is of one side only.</summary>
    public (ulong[] Left, ulong[] Right)? DoseRowsBySide { get; }

    /// <summary>What the scores lean to; null while nothing was learned, or by rules that know of no learning.</summary>
    public Preference? Preference { get; }

    /// <summary>What earlier work taught about this athlete and is in force today.</summary>
    public IReadOnlyList<LearnedCaution> LearnedCautions { get; }

    /// <summary>Competitions and the rest of the week.</summary>
    public Calendar Calendar { get; }

    /// <summary>The taper rule in force, or null.</summary>
    public TaperRule? Taper { get; }

    /// <summary>The phase whose sets and amounts are done: the taper's once a taper rule is in force, else the phase itself.</summary>
    public Phase VolumePhase => Taper is null ? Phase : Phase.Taper;

    /// <summary>What kind of session it stands in, or null.</summary>
    public SlotRule? Slot { get; }

    /// <summary>Its bit in <see cref="Edition.SlotMasks"/>; 0 without a slot.</summary>
    public ulong SlotBit { get; }

    /// <summary>What a dose says on the day of a competition; null on any other day.</summary>
    public OnTheDayRule? OnTheDay { get; }

    /// <summary>The kind of week, or null.</summary>
    public WeekKindRule? WeekKind { get; }

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

    /// <summary>Whether the athlete is in a growth spurt.</summary>
    public bool InGrowthSpurt { get; }

    /// <summary>Whether the rules for growing athletes hold: under age or in a growth spurt.</summary>
    public bool Young { get; }

    /// <summary>Whether no dose is given automatically: a clinician's frame holds, and the clinician doses.</summary>
    public bool NoAutomaticDose => Clearances.Any(c => !c.Lapsed);

    /// <summary>What clinicians wrote, in the order given.</summary>
    public IReadOnlyList<ResolvedRestriction> Restrictions { get; }

    /// <summary>Clearances, in the order of the rules; the latest of each flag.</summary>
    public IReadOnlyList<ResolvedClearance> Clearances { get; }

    /// <summary>What time off does to the dose, or null.</summary>
    public Layoff? Layoff { get; }

    /// <summary>Bits of the holds in force after time off, in <see cref="Edition.LayoffMasks"/>.</summary>
    public ulong LayoffBits { get; }

    /// <summary>What sore or earlier hurt regions keep in the programme, in the order of the rules.</summary>
    public IReadOnlyList<ProtectiveRule> Protective { get; }

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

    /// <summary>How many picks may come from one variant family.</summary>
    public int PerFamily { get; }

    /// <summary>What was taken because it was left out, in the order of the body.</summary>
    public IReadOnlyList<Assumption> Assumed { get; }

    /// <summary>Bits of the dose rows for such an athlete; sore regions are those named, with what they cover.</summary>
    public ulong[] DoseRows { get; }

    /// <summary>Fills the gaps of a checked request.</summary>
    /// <param name="request">A request without faults.</param>
    /// <param name="edition">The edition it is to be answered on.</param>
    public static Situation Of(RecommendationRequest request, Edition edition) => new(request, edition);

    /// <summary>What an exercise is done with here: the first of its alternatives that is at hand; nothing where none is.</summary>
    public IReadOnlyList<string> EquipmentUsed(int position)
    {
        var missing = ~EquipmentMask;
        var start = Catalogue.EquipmentStart[position];
        for (var i = start; i < Catalogue.EquipmentStart[position + 1]; i++)
        {
            if ((Catalogue.EquipmentSets[i] & missing) == 0)
            {
                return Catalogue.Exercises[position].Equipment[i - start];
            }
        }

        return [];
    }

    private static void AssumeOf(TestResults tests, List<Assumption> assumed)
    {
        if (tests.SprintSplits is { Count: > 0 } && tests.SprintStart is null)
        {
            assumed.Add(new Assumption("/tests/sprintStart", "first-movement"));
        }

        if (tests.DaysAgo is null)
        {
            assumed.Add(new Assumption("/tests/daysAgo", 0));
        }

        if (tests.Trials is null)
        {
            assumed.Add(new Assumption("/tests/trials", "unknown"));
        }
    }

    /// <summary>Whether a clinician's clearance for a flag holds.</summary>
    public bool IsCleared(string flag) => Clearances.Any(c => c.Rule.Flag == flag && !c.Lapsed);

    private static Side ParseSide(string side) => Enum.Parse<Side>(side, ignoreCase: true);

    private ResolvedRestriction Resolved(Restriction sent, Side side)
    {
        var vocabulary = Catalogue.Vocabulary;
        var region = vocabulary.Regions.Find(sent.Region!)!;
        LoadingRate? rate = sent.MaxLoadingRate is { } given ? (LoadingRate)vocabulary.LoadingRates.IndexOf(given) : null;
        if (sent.NoImpact == true && !(rate < LoadingRate.Impact))
        {
            rate = LoadingRate.Fast;
        }

        LoadingStage? stage = sent.Stage is { } latest ? (LoadingStage)vocabulary.LoadingStages.IndexOf(latest) : null;
        return new ResolvedRestriction(region, vocabulary.Regions.PartsOf(region), side, sent.MaxTissueLoad, rate, stage, sent.ReviewInDays);
    }

    /// <summary>Whether a region of the rule is sore, though not to be examined first, or was hurt lately enough.</summary>
    private bool IsProtected(ProtectiveRule rule) =>
        Complaints.Where((c, i) => !c.ExaminedFirst && rule.Regions.Contains(c.Region.Id, StringComparer.Ordinal) && (rule.Kinds?.Contains(Request.Complaints![i].Kind ?? "pain", StringComparer.Ordinal) ?? !c.Soreness)).Any()
        || Request.Athlete!.History?.Any(h => h.MonthsAgo < rule.WithinMonths && rule.Regions.Contains(h.Region!, StringComparer.Ordinal)) == true;

    private Layoff? LayoffOf(decimal weeks, string reason)
    {
        var rule = Knowledge.Returning.Layoffs.FirstOrDefault(l => weeks >= l.WeeksFrom && (l.Reasons is null || l.Reasons.Contains(reason, StringComparer.Ordinal)));
        return rule is null ? null : new Layoff(rule.VolumeShare, rule.WeeksOfRamp, rule.NoFailure, rule.Note, rule.Basis, rule.Source);
    }

    private IReadOnlyList<string> CompetencesAt(decimal trainingAgeYears) =>
        Knowledge.Competence.ByTrainingAge.Last(step => step.FromYears <= trainingAgeYears).Competences;

    private static ulong WithImplied(ulong mask, Vocabulary vocabulary)
    {
        var (pair, one) = (vocabulary.Equipment.IndexOf("dumbbells"), vocabulary.Equipment.IndexOf("dumbbell"));
        return pair >= 0 && one >= 0 && (mask & (1UL << pair)) != 0 ? mask | (1UL << one) : mask;
    }
}
