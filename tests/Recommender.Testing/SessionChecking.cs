using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Sessions;

namespace Recommender.Testing;

/// <summary>Reads a session's answer from the outside: limits and totals are reckoned again from what the answer says, not by the engine's own code.</summary>
public static class SessionChecking
{
    /// <summary>Work on a region by side, straight from the definition.</summary>
    public static (decimal Left, decimal Right) Total(SessionAnswer answer, Edition edition, string region)
    {
        var (left, right) = (0m, 0m);
        foreach (var (pick, whole) in answer.Picks.Where(p => p.Dose is not null).Select(p => (p, p.Dose!)))
        {
            var exercise = edition.Catalogue.Find(pick.Exercise.Id)!;
            var load = ExerciseCatalogue.LoadOn(exercise, edition.Catalogue.Vocabulary.Regions.Find(region)!)?.Value ?? 0;
            var fromFootToFoot = !exercise.PerSide && exercise.Support is (Support.Single or Support.Split) && exercise.DoseUnit is (DoseUnit.Reps or DoseUnit.Contacts);
            decimal Of(Dose dose) => decimal.Round(dose.Sets * dose.Amount * exercise.LoadingsPerUnit!.Value * (fromFootToFoot ? 0.5m : 1) * load, 2, MidpointRounding.AwayFromZero);
            left += Of(whole.Sides?.Left ?? whole);
            right += Of(whole.Sides?.Right ?? whole);
        }

        return (left, right);
    }

    /// <summary>Landings of the session, each side's counted; running left out.</summary>
    public static decimal Landings(SessionAnswer answer, Edition edition) => answer.Picks.Sum(pick =>
    {
        var exercise = edition.Catalogue.Find(pick.Exercise.Id)!;
        var running = edition.Knowledge.Dose.Contacts.NotCounted.Any(m => m.Holds(exercise));
        return running || pick.Dose is not { } dose ? 0 : dose.Sets * dose.Amount * exercise.ImpactContacts * (exercise.PerSide ? 2 : 1);
    });

    /// <summary>Straight minutes: doses and a change between each two; none where a clinician doses.</summary>
    public static decimal StraightMinutes(SessionAnswer answer, Edition edition) => answer.Picks.Any(p => p.Dose is null) ? 0
        : answer.Picks.Sum(p => p.Dose!.Sides is { } s ? Math.Max(p.Dose.Minutes, Math.Max(s.Left.Minutes, s.Right.Minutes)) : p.Dose.Minutes)
        + (Math.Max(0, answer.Picks.Count - 1) * edition.Knowledge.Session.ChangeOverSeconds.Value / 60);
}
