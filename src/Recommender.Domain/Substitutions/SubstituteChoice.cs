using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Substitutions;

/// <summary>A candidate.</summary>
/// <param name="Rank">Rank in the ranking by score.</param>
/// <param name="Traits">Traits.</param>
/// <param name="Likeness">Thousandths.</param>
/// <param name="Kept">Share of the purpose kept, thousandths; what is not of the replaced one's kind is never a candidate.</param>
/// <param name="Order">Likeness less what the reason takes; thousandths.</param>
internal sealed record Candidate(int Rank, Traits Traits, int Likeness, int Kept, int Order);

/// <summary>Which of the eligible exercises are offered, best first.</summary>
/// <param name="Candidates">Offered.</param>
/// <param name="Caution">Said when nothing keeps the purpose, or null.</param>
internal sealed record SubstituteChoice(IReadOnlyList<Candidate> Candidates, string? Caution)
{
    // Order, then likeness, then rank in one sortable number, best lowest; likeness is at most 1,000 and a rank below a million.
    private const int Bits = 20;
    private const long Mask = (1L << Bits) - 1;

    /// <summary>Chooses.</summary>
    public static SubstituteChoice Of(SubstitutionRequest request, Situation situation, TissueLimits limits, Ranking ranking, Likeness likeness, Traits replaced)
    {
        var rules = situation.Knowledge.Substitution;
        var reason = new SwapReason(request.Reason, situation, limits, replaced);
        var traits = situation.Catalogue.Traits;
        var own = replaced.Id is { } id ? situation.Catalogue.PositionOf(id) : -1;
        var (keys, kept, n, most) = (new long[ranking.Count], new int[ranking.Count], 0, 0);
        for (var rank = 0; rank < ranking.Count; rank++)
        {
            var position = ranking.Positions[rank];
            if (position != own)
            {
                var alike = likeness.Of(replaced, traits[position], out kept[rank]);
                keys[n++] = ((long)(reason.Takes(position) - alike) << (2 * Bits)) | ((Mask - alike) << Bits) | (uint)rank;
                most = Math.Max(most, kept[rank]);
            }
        }

        Array.Sort(keys, 0, n);
        var keeps = most >= (int)(rules.KeepsFrom * 1000);
        var least = (int)((keeps ? rules.OfferedFrom : rules.NearestFrom) * 1000);
        var count = keeps ? situation.Count : Math.Min(situation.Count, rules.NearestAtMost);
        var candidates = new List<Candidate>(count);
        for (var i = 0; i < n && candidates.Count < count; i++)
        {
            var rank = (int)(keys[i] & Mask);
            if (kept[rank] >= least)
            {
                candidates.Add(new Candidate(rank, traits[ranking.Positions[rank]], (int)(Mask - ((keys[i] >> Bits) & Mask)), kept[rank], (int)-(keys[i] >> (2 * Bits))));
            }
        }

        return new SubstituteChoice(candidates, keeps ? null
            : candidates.Count == 0 ? $"Nothing that is possible here comes near to what {replaced.Name} was there for; leave it out today. What trains another part of the body is no swap: ask for it as an exercise of its own."
            : $"Nothing that is possible here keeps what {replaced.Name} was there for; these are the nearest, with what is lost said beside each.");
    }
}
