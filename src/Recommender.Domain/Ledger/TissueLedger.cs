using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Ledger;

/// <summary>
/// The one arithmetic of work on a tissue, for session, week and explanation alike:
/// per side = sets x amount x loadings per unit x load (raised to the rules' exponent).
/// </summary>
/// <param name="catalogue">Gives the loads.</param>
/// <param name="knowledge">Gives the rules.</param>
/// <remarks>Every entry is a whole number of hundredths, halves away from zero, so that sums are exact in any order.</remarks>
public sealed class TissueLedger(ExerciseCatalogue catalogue, KnowledgeBase knowledge)
{
    private readonly LedgerRules rules = knowledge.Ledger;

    /// <summary>Hundredths of one entry.</summary>
    /// <param name="loadings">Sets x amount x loadings per unit; at least 0.</param>
    /// <param name="loadHundredths">Load, hundredths of 0 to 10.</param>
    /// <param name="exponent">The rules' exponent.</param>
    public static long Entry(decimal loadings, int loadHundredths, decimal exponent)
    {
        var load = exponent == 1 ? loadHundredths : decimal.Round((decimal)Math.Pow(loadHundredths / 100.0, (double)exponent) * 100, 2, MidpointRounding.AwayFromZero);
        return (long)decimal.Round(loadings * load, MidpointRounding.AwayFromZero);
    }

    /// <summary>Loadings that each side gets from work that is counted in this unit.</summary>
    /// <param name="exercise">The exercise.</param>
    /// <param name="sets">Sets.</param>
    /// <param name="amount">Amount of a set; of each side where the exercise is counted a side.</param>
    /// <param name="unit">Unit of the amount.</param>
    public decimal Loadings(Exercise exercise, int sets, decimal amount, DoseUnit unit)
    {
        var alternates = !exercise.PerSide && rules.Alternating.Supports.Contains(exercise.Support) && rules.Alternating.Units.Contains(unit);
        return sets * amount * knowledge.Dose.LoadingsPerUnit[unit].Value * (alternates ? rules.Alternating.Share : 1);
    }

    /// <summary>Adds a dose; where the sides differ, each side its own.</summary>
    public void Add(LedgerSheet sheet, int position, Dose dose)
    {
        var exercise = catalogue.Exercises[position];
        var (left, right) = dose.Sides is { } sides ? (sides.Left, sides.Right) : (dose, dose);
        Add(sheet, position, Loadings(exercise, left.Sets, left.Amount, left.Unit), Loadings(exercise, right.Sets, right.Amount, right.Unit), 1);
    }

    /// <summary>Adds work that was done; what was not said of it is taken from the rules.</summary>
    /// <param name="sheet">Sheet.</param>
    /// <param name="position">Catalogue position.</param>
    /// <param name="sets">Sets, or null.</param>
    /// <param name="amount">Amount of a set, or null.</param>
    /// <param name="unit">Unit, or null for the exercise's own.</param>
    /// <param name="share">Share that counts, 0 to 1.</param>
    public void Add(LedgerSheet sheet, int position, int? sets, decimal? amount, DoseUnit? unit, decimal share)
    {
        var exercise = catalogue.Exercises[position];
        var counted = unit ?? exercise.DoseUnit;
        var loadings = Loadings(exercise, sets ?? rules.UsualWork.Sets, amount ?? rules.UsualWork.Amount[counted], counted);
        Add(sheet, position, loadings, loadings, share);
    }

    /// <summary>Adds loadings of an exercise.</summary>
    /// <param name="sheet">Sheet.</param>
    /// <param name="position">Catalogue position of the exercise whose loads they have.</param>
    /// <param name="left">Loadings of the left side.</param>
    /// <param name="right">Loadings of the right side.</param>
    /// <param name="share">Share that counts, 0 to 1.</param>
    /// <param name="regions">Only these regions; null for all.</param>
    public void Add(LedgerSheet sheet, int position, decimal left, decimal right, decimal share, Func<int, bool>? regions = null)
    {
        for (var region = 0; region < catalogue.RegionCount; region++)
        {
            var load = catalogue.TissueValue[(position * catalogue.RegionCount) + region];
            if (load > 0 && regions?.Invoke(region) != false)
            {
                sheet.Add(region, Entry(left * share, load, rules.Exponent.Value), Entry(right * share, load, rules.Exponent.Value));
            }
        }
    }
}
