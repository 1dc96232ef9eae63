using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Dosing;

/// <summary>Doses picks for the quality each was picked for: what the table or a sore region's programme gives, then what the day changes.</summary>
/// <param name="situation">The situation.</param>
/// <param name="profile">What is needed; a weaker side gets its extra set in the best pick that serves it.</param>
public sealed class DoseCalculator(Situation situation, NeedProfile profile)
{
    private readonly DoseRules rules = situation.Knowledge.Dose;
    private readonly WeekSpan keepWeeks = KeepWeeks(situation);
    private readonly string? progression = situation.OnTheDay?.Progression ?? InTheTaper(situation)?.Progression;
    private readonly List<WeakerSide> waiting = [.. profile.WeakerSides.Where(w => w.ExtraSets > 0)];
    private readonly ContactBudget contacts = new(situation);

    /// <summary>The dose of the next pick, best pick first: landings that earlier picks have used are not there for later ones.</summary>
    /// <param name="position">Catalogue position of the pick.</param>
    /// <param name="quality">Position of the quality it was picked for.</param>
    /// <param name="equipment">What it is done with here.</param>
    /// <returns>A dose that fits the minutes at hand, where any are stated.</returns>
    public Dose Next(int position, int quality, IReadOnlyList<string> equipment)
    {
        var exercise = situation.Catalogue.Exercises[position];
        var usual = Prescription.Of(situation, position, quality, Side.Both);
        var dose = Dose(usual, exercise, quality, equipment);
        var sides = exercise.PerSide ? Sides(usual, dose, position, quality, equipment) : null;
        if (sides is null && Weaker(exercise) is { } weaker && Fits(exercise, Extra(usual, dose, exercise, weaker)) is { } more)
        {
            Served(weaker);
            (dose, sides) = (more, SidesOf(more, dose, weaker));
        }

        contacts.Spend(exercise, dose);
        return sides is null ? dose : dose with { Sides = sides };
    }

    /// <summary>
    /// The doses a session may choose from, whatever the time: the usual one and, where it has fewer sets, the smallest worth doing.
    /// Landings are those of the exercise alone; the session holds their sum.
    /// </summary>
    /// <param name="position">Catalogue position.</param>
    /// <param name="quality">Position of the quality it would be picked for.</param>
    /// <param name="equipment">What it is done with here.</param>
    /// <returns>Largest first; none where not even one set fits into the landings of a session.</returns>
    internal IReadOnlyList<Dose> Choices(int position, int quality, IReadOnlyList<string> equipment)
    {
        var usual = Prescription.Of(situation, position, quality, Side.Both);
        var whole = Choice(DoseSize.Usual);
        return whole.Adjustments.Any(a => a.Code == "contacts-another-day") ? [] : Smallest(usual, whole.Sets) < whole.Sets ? [whole, Choice(DoseSize.Smallest)] : [whole];

        Dose Choice(DoseSize size)
        {
            var exercise = situation.Catalogue.Exercises[position];
            var dose = Dose(usual, exercise, quality, equipment, size);
            return exercise.PerSide && Sides(usual, dose, position, quality, equipment, size) is { } sides ? dose with { Sides = sides } : dose;
        }
    }

    /// <summary>A dose with the extra set of a weaker side that waits for one, whatever the time and the landings; null where none waits that this exercise serves.</summary>
    /// <param name="position">Catalogue position.</param>
    /// <param name="quality">Position of the quality it is picked for.</param>
    /// <param name="dose">Its dose.</param>
    /// <returns>The dose, and whose extra set it is: to be told to <see cref="Served"/> when it is taken.</returns>
    internal (Dose Dose, WeakerSide Weaker)? WithExtraSet(int position, int quality, Dose dose)
    {
        var exercise = situation.Catalogue.Exercises[position];
        if (dose.Sides is not null || Weaker(exercise) is not { } weaker)
        {
            return null;
        }

        var more = Extra(Prescription.Of(situation, position, quality, Side.Both), dose, exercise, weaker);
        return (more with { Sides = SidesOf(more, dose, weaker) }, weaker);
    }

    /// <summary>A weaker side has its extra set and waits for no other.</summary>
    internal void Served(WeakerSide weaker) => waiting.Remove(weaker);

    /// <summary>Doses by side where a complaint of one side changes the dose; null where both sides do the same, as they do when the fuller dose of the other side has no time.</summary>
    private DoseSides? Sides(Prescription usual, Dose dose, int position, int quality, IReadOnlyList<string> equipment, DoseSize size = DoseSize.FitsMinutes)
    {
        if (situation.DoseRowsBySide is null)
        {
            return null;
        }

        var left = Prescription.Of(situation, position, quality, Side.Left);
        var right = Prescription.Of(situation, position, quality, Side.Right);
        if (left == right)
        {
            return null;
        }

        var sides = new DoseSides(Of(left), Of(right));
        return size == DoseSize.FitsMinutes && Math.Max(sides.Left.Minutes, sides.Right.Minutes) > situation.Minutes ? null : sides;

        Dose Of(Prescription side) => side == usual ? dose : Dose(side, situation.Catalogue.Exercises[position], quality, equipment, size);
    }

    /// <summary>The weaker side that this pick could serve, or null; in a taper, and where fewer sets are the point, none.</summary>
    private WeakerSide? Weaker(Exercise exercise)
    {
        if (waiting.Count == 0 || !exercise.PerSide || situation.VolumePhase == Phase.Taper || situation.WeekKind?.SetsShare < 1 || situation.Slot?.SetsShare < 1 || situation.Layoff is not null)
        {
            return null;
        }

        return waiting.Find(w => w.Qualities.Any(q => exercise.Qualities.TryGetValue(q, out var rating) && rating.Value >= QualityRating.Strong));
    }

    /// <summary>The dose with the extra set of the weaker side.</summary>
    private Dose Extra(Prescription usual, Dose dose, Exercise exercise, WeakerSide weaker)
    {
        var rule = situation.Knowledge.Tests.Sides.ExtraSets;
        return dose with
        {
            Sets = dose.Sets + 1,
            Minutes = (usual with { Amount = dose.Amount }).Minutes(exercise, dose.Sets + 1),
            Adjustments = [.. dose.Adjustments, new DoseAdjustment("extra-set", weaker.Note, rule.Basis, rule.Source)],
        };
    }

    /// <summary>A dose where minutes and landings hold it, else null.</summary>
    private Dose? Fits(Exercise exercise, Dose dose)
    {
        List<DoseAdjustment>? changes = null;
        return dose.Minutes > situation.Minutes || contacts.Fit(exercise, dose.Sets, dose.Amount, ref changes) < dose.Sets ? null : dose;
    }

    private static DoseSides SidesOf(Dose more, Dose dose, WeakerSide weaker) => weaker.Side == Side.Left ? new DoseSides(more, dose) : new DoseSides(dose, more);

    private Dose Dose(Prescription usual, Exercise exercise, int quality, IReadOnlyList<string> equipment, DoseSize size = DoseSize.FitsMinutes)
    {
        List<DoseAdjustment>? changes = null;
        if (usual.Stage is { } staged)
        {
            Say(ref changes, "programme", $"The {situation.Catalogue.Vocabulary.LoadingStages.InSentence((int)staged.Stage.Stage)} stage for the {situation.Catalogue.Vocabulary.Regions.InSentence(staged.Region.Id)}.", staged.Stage.Basis, staged.Stage.Source);
        }

        if (situation.Taper is { } taper)
        {
            Say(ref changes, "taper", taper.Note, taper.Basis, taper.Source);
        }

        var sets = Volume.Sets(situation, usual.Sets, ref changes);
        if (size == DoseSize.Smallest && Smallest(usual, sets) < sets)
        {
            sets = Smallest(usual, sets);
            var smaller = situation.Knowledge.Session.SmallerDose;
            Say(ref changes, "smaller-dose", "The smallest dose worth doing, so that the session stays inside its limits.", smaller.Basis, smaller.Source);
        }

        // A light kit asks for more repetitions, and these take their time and land too.
        List<DoseAdjustment>? kit = null;
        var loading = Loading.Of(situation, exercise, usual.Intensity, usual.Amount, usual.Tempo, equipment, ref kit);
        usual = usual with { Amount = loading.Amount };
        if (size == DoseSize.FitsMinutes)
        {
            (sets, usual) = Within(situation.Minutes, usual, exercise, sets);
        }

        sets = contacts.Fit(exercise, sets, usual.Amount, ref changes);
        foreach (var change in kit ?? [])
        {
            (changes ??= []).Add(change);
        }

        return new Dose(sets, usual.Amount, exercise.DoseUnit, exercise.PerSide, usual.Intensity, loading.LoadKg, usual.RestSeconds, loading.Tempo, situation.OnTheDay is null ? usual.SessionsPerWeek : 1,
            usual.Minutes(exercise, sets), progression ?? usual.Progression, usual.StopRule, usual.Basis, usual.Source)
        {
            Intent = rules.IntentOf(exercise, loading.Tempo, situation.Catalogue.Vocabulary.Qualities[quality].Id),
            KeepWeeks = keepWeeks,
            WarmUp = usual.WarmUp is not { } warmUp ? [] : [.. warmUp.Steps.Select(s => new WarmUpSet(s.Percent, s.Reps, Loading.Share(situation, loading.LoadKg, s.Percent, equipment)))],
            Adjustments = changes ?? (IReadOnlyList<DoseAdjustment>)[],
        };
    }

    /// <summary>Null outside a taper, and on rules from before they spoke of one.</summary>
    private static TaperWords? InTheTaper(Situation situation) => situation.VolumePhase == Phase.Taper ? situation.Knowledge.Week.InTheTaper : null;

    /// <summary>How long it is kept: for the day alone on the day of a competition, and in the phase of the taper no longer than to the peak; in a season of weekly competitions it stays beyond them.</summary>
    private static WeekSpan KeepWeeks(Situation situation)
    {
        if (situation.OnTheDay is not null)
        {
            return new(0, 0);
        }

        var usual = situation.Knowledge.Dose.KeepWeeks;
        var most = situation.Phase != Phase.Taper || InTheTaper(situation) is null ? usual.To : Math.Clamp((int)decimal.Ceiling(situation.WeeksToCompetition), 1, usual.To);
        return new(Math.Min(usual.From, most), most);
    }

    /// <summary>Fewer sets, down to what is worth doing, and then fewer of each: the gate lets in what the dose table's smallest dose has time for, and a programme or a light kit may ask for more.</summary>
    private static (int Sets, Prescription Usual) Within(decimal? minutes, Prescription usual, Exercise exercise, int sets)
    {
        while (sets > usual.MinSets && usual.Minutes(exercise, sets) > minutes)
        {
            sets--;
        }

        while (usual.Amount > 1 && usual.Minutes(exercise, sets) > minutes)
        {
            usual = usual with { Amount = usual.Amount - 1 };
        }

        return (sets, usual);
    }

    /// <summary>Sets of the smallest dose of a session: what the table holds worth doing, and not so little that it is done for show.</summary>
    private int Smallest(Prescription usual, int sets)
    {
        var rule = situation.Knowledge.Session.SmallerDose;
        return Math.Max(Math.Max(usual.MinSets, rule.LeastSets), (int)decimal.Ceiling(sets * rule.LeastShare));
    }

    private enum DoseSize
    {
        FitsMinutes,
        Usual,
        Smallest,
    }

    /// <summary>Notes a change, making the list when it is the first.</summary>
    internal static void Say(ref List<DoseAdjustment>? changes, string code, string note, Basis basis, string? source) =>
        (changes ??= []).Add(new DoseAdjustment(code, note, basis, source));
}
