using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Sessions;

namespace Recommender.Pages.Sessions;

/// <summary>The time of one pick: set-up and warm-up sets, work, rest, minutes.</summary>
/// <param name="Pick">The pick.</param>
/// <param name="SetUp">Set-up and warm-up sets.</param>
/// <param name="Work">Work.</param>
/// <param name="Rest">Rest between sets.</param>
public sealed record TimePart(SessionPick Pick, decimal SetUp, decimal Work, decimal Rest)
{
    /// <summary>All of it.</summary>
    public decimal Minutes => SetUp + Work + Rest;
}

/// <summary>The times of a session laid end to end, as its doses give them.</summary>
/// <param name="Parts">In the order in which they are done.</param>
/// <param name="Straight">Their sum; changes and what pairs save come on top of it.</param>
public sealed record TimeStrip(IReadOnlyList<TimePart> Parts, decimal Straight)
{
    /// <summary>The strip of a session.</summary>
    public static TimeStrip Of(IReadOnlyList<SessionPick> picks, ExerciseCatalogue catalogue)
    {
        List<TimePart> parts = [.. picks.Where(p => p.Dose is not null).Select(p => Part(p, p.Dose!, catalogue.Find(p.Exercise.Id)))];
        return new TimeStrip(parts, parts.Sum(p => p.Minutes));
    }

    /// <summary>Work and rest as the session's own arithmetic has them; what the dose takes beyond is set-up, warm-up sets and rounding.</summary>
    private static TimePart Part(SessionPick pick, Dose dose, Exercise? exercise)
    {
        if (exercise is null)
        {
            return new TimePart(pick, 0, dose.Minutes, 0);
        }

        var (work, rest) = SessionTime.Seconds(exercise, dose.Sets, dose.Amount, dose.RestSeconds);
        return new TimePart(pick, Math.Max(0, dose.Minutes - ((work + rest) / 60)), work / 60, rest / 60);
    }
}
