using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Substitutions;

/// <summary>A candidate.</summary>
/// <param name="Rank">Rank in the ranking by score.</param>
/// <param name="Traits">Traits.</param>
/// <param name="Likeness">Thousandths.</param>
/// <param name="Kept">Share of the purpose kept, thousandths.</param>
/// <param name="Order">Likeness less what the reason takes; thousandths.</param>
internal sealed record Candidate(int Rank, Traits Traits, int Likeness, int Kept, int Order);

/// <summary>Which of the eligible exercises are offered, best first.</summary>
/// <param name="Candidates">Offered.</param>
/// <param name="Caution">Said when nothing keeps the purpose, or null.</param>
internal sealed record SubstituteChoice(IReadOnlyList<Candidate> Candidates, string? Caution)
{
    /// <summary>What the reason of the swap takes from an exercise in the order; thousandths.</summary>
    public static int Takes(SubstitutionRequest request, Situation situation, TissueLimits limits, Exercise exercise, Traits replaced)
    {
        var order = situation.Knowledge.Substitution.Order;
        return request.Reason switch
        {
            "pain" => (int)(order.SorePerLoad * limits.Rows.Select(r => ExerciseCatalogue.LoadOn(exercise, situation.Catalogue.Vocabulary.Regions[r.Region])?.High ?? 0).DefaultIfEmpty(0).Max()),
            "competence" when replaced.Id is { } id => order.HarderPerStep * Math.Max(0, exercise.Complexity - situation.Catalogue.Find(id)!.Complexity),
            _ => 0,
        };
    }

    /// <summary>Chooses.</summary>
    public static SubstituteChoice Of(SubstitutionRequest request, Situation situation, TissueLimits limits, Ranking ranking, Likeness likeness, Traits replaced)
    {
        var rules = situation.Knowledge.Substitution;
        var all = new List<Candidate>(ranking.Count);
        for (var rank = 0; rank < ranking.Count; rank++)
        {
            var exercise = situation.Catalogue.Exercises[ranking.Positions[rank]];
            if (exercise.Id == replaced.Id)
            {
                continue;
            }

            var traits = situation.Catalogue.Traits[ranking.Positions[rank]];
            var alike = likeness.Of(replaced, traits, out var kept);
            all.Add(new Candidate(rank, traits, alike, kept, alike - Takes(request, situation, limits, exercise, replaced)));
        }

        var sorted = all.OrderByDescending(c => c.Order).ThenByDescending(c => c.Likeness).ThenBy(c => c.Rank).ToList();
        var keeps = (int)(rules.KeepsFrom * 1000);
        if (sorted.Exists(c => c.Kept >= keeps))
        {
            var offered = (int)(rules.OfferedFrom * 1000);
            return new SubstituteChoice([.. sorted.Where(c => c.Kept >= offered).Take(situation.Count)], null);
        }

        var near = (int)(rules.NearestFrom * 1000);
        var nearest = sorted.Where(c => c.Kept >= near).Take(Math.Min(situation.Count, rules.NearestAtMost)).ToList();
        return new SubstituteChoice(nearest, nearest.Count == 0
            ? $"Nothing that is possible here comes near to what {replaced.Name} was there for; leave it out today."
            : $"Nothing that is possible here keeps what {replaced.Name} was there for; these are the nearest, with what is lost said beside each.");
    }
}
