using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Dosing;

/// <summary>Landings of one session, spent by the picks in their order.</summary>
internal sealed class ContactBudget
{
    private readonly ContactRules rules;
    private readonly Basis basis;
    private readonly string? source;
    private readonly decimal[] classLeft;
    private readonly int most;
    private decimal left;

    public ContactBudget(Situation situation)
    {
        rules = situation.Knowledge.Dose.Contacts;
        most = rules.Limits.Last(l => l.FromTrainingAgeYears <= situation.TrainingAgeYears).Most;
        var young = (situation.Young || situation.AgeYears < rules.Youth.BelowAge) && rules.Youth.Most < most;
        (most, basis, source) = young ? (rules.Youth.Most, rules.Youth.Basis, rules.Youth.Source) : (most, rules.Basis, rules.Source);
        left = most;
        classLeft = [.. rules.Classes.Select(c => (decimal)c.Most)];
    }

    /// <summary>Landings of a session at most.</summary>
    public int Most => most;

    /// <summary>Landings of a dose, each side's counted; rounded up. 0 for running.</summary>
    public int Of(Exercise exercise, Dose dose)
    {
        var contacts = Contacts(exercise, dose.Sets, dose.Amount);
        return (int)decimal.Ceiling(dose.Sides is not { } sides ? contacts : Math.Max(contacts, Math.Max(Contacts(exercise, sides.Left.Sets, sides.Left.Amount), Contacts(exercise, sides.Right.Sets, sides.Right.Amount))));
    }

    /// <summary>Kinds of landing counted apart, with their most.</summary>
    public IReadOnlyList<ContactClass> Classes => rules.Classes;

    /// <summary>Whether an exercise's landings count in a class.</summary>
    public bool Belongs(Exercise exercise, int at) => Any(rules.Classes[at].Matches, exercise);

    /// <summary>Sets that still fit, at least 1; says so when it is fewer, or when not even one does.</summary>
    public int Fit(Exercise exercise, int sets, decimal amount, ref List<DoseAdjustment>? changes)
    {
        var perSet = Contacts(exercise, 1, amount);
        if (perSet == 0)
        {
            return sets;
        }

        var room = left;
        for (var c = 0; c < classLeft.Length; c++)
        {
            room = Belongs(exercise, c) ? Math.Min(room, classLeft[c]) : room;
        }

        var fits = (int)Math.Min(sets, decimal.Floor(Math.Max(0, room) / perSet));
        if (fits == sets)
        {
            return sets;
        }

        var note = fits > 0
            ? $"Fewer sets, so that the landings of all picks together stay inside {most} a session."
            : $"For another day: the picks above use up the {most} landings of a session.";
        DoseCalculator.Say(ref changes, fits > 0 ? "contacts-limited" : "contacts-another-day", note, basis, source);
        return Math.Max(1, fits);
    }

    /// <summary>Takes a dose from what is left, unless it is for another day.</summary>
    public void Spend(Exercise exercise, Dose dose)
    {
        var contacts = Contacts(exercise, dose.Sets, dose.Amount);
        if (contacts == 0 || dose.Adjustments.Any(a => a.Code == "contacts-another-day"))
        {
            return;
        }

        left -= contacts;
        for (var c = 0; c < classLeft.Length; c++)
        {
            classLeft[c] -= Belongs(exercise, c) ? contacts : 0;
        }
    }

    /// <summary>Landings of a dose; each side's count. 0 for running.</summary>
    private decimal Contacts(Exercise exercise, int sets, decimal amount) =>
        exercise.ImpactContacts == 0 || Any(rules.NotCounted, exercise) ? 0 : sets * amount * exercise.ImpactContacts * (exercise.PerSide ? 2 : 1);

    private static bool Any(IReadOnlyList<ExerciseMatch> matches, Exercise exercise)
    {
        foreach (var match in matches)
        {
            if (match.Holds(exercise))
            {
                return true;
            }
        }

        return false;
    }
}
