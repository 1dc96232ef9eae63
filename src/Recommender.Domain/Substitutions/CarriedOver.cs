using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Substitutions;

/// <summary>Carries the replaced exercise's dose over to a substitute: as many sets, and what is missing in load made up by repetitions, tempo and effort.</summary>
internal static class CarriedOver
{
    /// <summary>The substitute's dose.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="replaced">The replaced exercise.</param>
    /// <param name="original">Its dose, or null.</param>
    /// <param name="exercise">The substitute.</param>
    /// <param name="own">The substitute's own dose.</param>
    /// <returns>The own dose where nothing carries over: other units, work that a sore region takes part in, landings, and what is hard without a load.</returns>
    public static Dose Of(Situation situation, Traits replaced, Dose? original, Exercise exercise, Dose own)
    {
        if (original is null || original.Unit != own.Unit || own.Unit != DoseUnit.Reps || own.Sides is not null || Bound(own) || Bound(original) || LoadsWhatIsSore(situation, exercise))
        {
            return own;
        }

        var rule = situation.Knowledge.Substitution.Dose;
        if (rule.LeavesAlone?.Any(m => m.Holds(exercise)) == true)
        {
            return own;
        }

        var lightKit = own.Adjustments.Any(a => a.Code == "light-kit");
        var lighter = Math.Max(0, replaced.LoadBand - (int)exercise.LoadBand) + (lightKit ? 1 : 0);
        var slow = exercise.LoadingRate == LoadingRate.Slow && !situation.Young;
        var amount = lighter > 0 && slow ? Math.Max(own.Amount, Lighter(rule, original.Amount, lighter)) : own.Amount;
        var sets = original.Sets;
        while (sets > 1 && Minutes(sets) > situation.Minutes)
        {
            sets--;
        }

        if ((sets == own.Sets && amount == own.Amount) || Minutes(sets) > situation.Minutes)
        {
            return own;
        }

        var closer = lighter > 0 && slow && own.Intensity is { Kind: "reps-in-reserve", Low: { } low, High: { } high }
            ? own.Intensity with { Low = Math.Max(rule.LeastReserve, low - rule.LessReserve), High = Math.Max(rule.LeastReserve, high - rule.LessReserve) }
            : own.Intensity;
        var was = string.Create(CultureInfo.InvariantCulture, $"{original.Sets} x {original.Amount:0.#}");
        var note = lighter > 0 && slow
            ? string.Create(CultureInfo.InvariantCulture, $"{was} becomes {sets} x {amount:0.#}: the load is lighter, so more repetitions, lowered slower, nearer to the limit. What only a heavy load trains is held, not built.")
            : string.Create(CultureInfo.InvariantCulture, $"{was} becomes {sets} x {amount:0.#}: as many sets as before.");
        return own with
        {
            Sets = sets,
            Amount = amount,
            Intensity = closer,
            Tempo = lighter > 0 && slow ? rule.Tempo : own.Tempo,
            Minutes = Minutes(sets),
            Adjustments = [.. own.Adjustments, new DoseAdjustment("carried-over", note, rule.Basis, rule.Source)],
        };

        decimal Minutes(int count) => own.Minutes + SessionTime.Minutes(exercise, count, amount, own.RestSeconds) - SessionTime.Minutes(exercise, own.Sets, own.Amount, own.RestSeconds);
    }

    private static decimal Lighter(CarriedDose rule, decimal amount, int steps)
    {
        var step = rule.ByStep[Math.Min(steps, rule.ByStep.Count) - 1];
        return Math.Min(rule.MostAmount, Math.Max(step.Least, decimal.Ceiling(amount * step.Factor)));
    }

    /// <summary>Whether it loads a region that complains; its own dose was made for that, and more repetitions or effort were not.</summary>
    private static bool LoadsWhatIsSore(Situation situation, Exercise exercise) =>
        situation.Complaints.Any(c => c.Stands.Any(s => ExerciseCatalogue.LoadOn(exercise, s.Region) is { High: > 0 }));

    private static bool Bound(Dose dose) => dose.Adjustments.Any(a => a.Code is "programme" or "contacts-another-day" or "contacts-limited");
}
