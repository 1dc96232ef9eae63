using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Dosing;

/// <summary>The load in kilograms, rounded to what is there, and what is done where it is not.</summary>
/// <param name="LoadKg">Kilograms, for dumbbells each; null when no maximum is known or nothing so light is there.</param>
/// <param name="Amount">Amount of a set; more where the load is missing.</param>
/// <param name="Tempo">Tempo; slower where the load is missing.</param>
internal readonly record struct Loading(decimal? LoadKg, decimal Amount, string? Tempo)
{
    private const string Pair = "dumbbells";
    private const string One = "dumbbell";

    /// <summary>The loading of a dose.</summary>
    public static Loading Of(Situation situation, Exercise exercise, Intensity intensity, decimal amount, string? tempo, IReadOnlyList<string> equipment, ref List<DoseAdjustment>? changes)
    {
        var usual = new Loading(null, amount, tempo);
        if (exercise.DoseUnit != DoseUnit.Reps || exercise.LoadBand == LoadBand.Unloaded)
        {
            return usual;
        }

        var hands = equipment.Contains(Pair, StringComparer.Ordinal) ? 2 : equipment.Contains(One, StringComparer.Ordinal) ? 1 : 0;
        var heaviest = hands > 0 ? situation.Request.Setting?.Kit?.Dumbbell?.MaxKg : null;
        if (intensity is { Kind: "percent-1rm", Low: { } percent } && OneRepMax.Of(situation, exercise.Id) is { } max)
        {
            var wanted = max * percent / 100;
            return heaviest is { } each && each * hands < wanted
                ? Lighter(situation, usual, Step(situation, each), (int)decimal.Floor(100 * each * hands / max), ref changes)
                : usual with { LoadKg = hands > 0 ? NotNothing(Step(situation, wanted / hands)) : Bar(situation, wanted) };
        }

        if (heaviest is { } most && situation.Knowledge.Dose.Kit.LightBelow.TryGetValue(exercise.LoadBand, out var share)
            && most * hands < share * (situation.Request.Athlete!.BodyMassKg ?? situation.Knowledge.Dose.Kit.UsualMassKg))
        {
            return Lighter(situation, usual, Step(situation, most), null, ref changes);
        }

        return usual;
    }

    /// <summary>A share of the working load, for a warm-up set; null when that is not known or nothing so light is there.</summary>
    public static decimal? Share(Situation situation, decimal? loadKg, int percent, IReadOnlyList<string> equipment) => loadKg is not { } load ? null
        : equipment.Contains(Pair, StringComparer.Ordinal) || equipment.Contains(One, StringComparer.Ordinal) ? NotNothing(Step(situation, load * percent / 100))
        : Bar(situation, load * percent / 100);

    /// <summary>More repetitions, slower: by the published repetitions at that percentage where a maximum is known, else by the rules' factor.</summary>
    private static Loading Lighter(Situation situation, Loading usual, decimal each, int? percent, ref List<DoseAdjustment>? changes)
    {
        var kit = situation.Knowledge.Dose.Kit;
        var able = percent is { } p ? kit.RepsAtPercent.Where(r => r.Key >= p).MinBy(r => r.Key).Value - kit.Reserve : 0;
        var more = decimal.Ceiling(usual.Amount * kit.AmountFactor);
        var amount = Math.Min(kit.MostAmount, percent is null ? more : Math.Max(usual.Amount, percent < kit.RepsAtPercent.Keys.Min() ? Math.Max(able, more) : able));
        DoseCalculator.Say(ref changes, "light-kit", string.Create(CultureInfo.InvariantCulture, $"The heaviest here, {each:0.##} kg, is light for this: more repetitions, lowered slower, closer to the limit ({kit.Reserve} in reserve)."), kit.Basis, kit.Source ?? kit.RepsSource);
        return new Loading(each, amount, kit.Tempo);
    }

    /// <summary>The largest dumbbell not above a load, by the kit's step.</summary>
    private static decimal Step(Situation situation, decimal kg)
    {
        var dumbbell = situation.Request.Setting?.Kit?.Dumbbell;
        var step = dumbbell?.StepKg ?? situation.Knowledge.Dose.Kit.DumbbellStepKg;
        return Math.Min(dumbbell?.MaxKg ?? decimal.MaxValue, decimal.Floor(kg / step) * step);
    }

    private static decimal? NotNothing(decimal kg) => kg > 0 ? kg : null;

    /// <summary>The largest load of bar and plates not above a load; null when not even the empty bar is.</summary>
    private static decimal? Bar(Situation situation, decimal kg)
    {
        if (situation.Request.Setting?.Kit?.Barbell is { BarKg: { } bar, PlatesKg: { } plates })
        {
            return bar > kg ? null : bar + (2 * Plates((kg - bar) / 2, [.. plates.Distinct().OrderDescending()]));
        }

        var load = decimal.Floor(kg / situation.Knowledge.Dose.LoadStepKg.Value) * situation.Knowledge.Dose.LoadStepKg.Value;
        return load >= situation.Knowledge.Dose.LightestBarKg.Value ? load : null;
    }

    /// <summary>The most that goes on one end without passing a weight: of the heaviest as many as are needed, of the others one.</summary>
    private static decimal Plates(decimal room, decimal[] heaviestFirst)
    {
        if (heaviestFirst.Length == 0)
        {
            return 0;
        }

        var best = 0m;
        for (var count = decimal.Floor(room / heaviestFirst[0]); count >= 0; count--)
        {
            best = Math.Max(best, (count * heaviestFirst[0]) + Rest(room - (count * heaviestFirst[0]), heaviestFirst, 1));
        }

        return best;
    }

    private static decimal Rest(decimal room, decimal[] plates, int from)
    {
        if (from == plates.Length)
        {
            return 0;
        }

        var without = Rest(room, plates, from + 1);
        return plates[from] > room ? without : Math.Max(without, plates[from] + Rest(room - plates[from], plates, from + 1));
    }
}
