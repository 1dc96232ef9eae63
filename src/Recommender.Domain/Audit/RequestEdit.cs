using Recommender.Domain.Requests;

namespace Recommender.Domain.Audit;

/// <summary>One change of a request that somebody could make.</summary>
/// <param name="Kind">Which kind of change.</param>
/// <param name="Slot">What it changes; two edits of one slot do not go together, and only the smallest of a slot is offered.</param>
/// <param name="Place">What cannot be changed twice; edits that share it exclude each other.</param>
/// <param name="Cost">Cost by the rules.</param>
/// <param name="Change">As it is told.</param>
/// <param name="Phrase">In words, as a condition.</param>
/// <param name="Apply">Makes it.</param>
internal sealed record RequestEdit(EditKind Kind, string Slot, string Place, int Cost, RequestChange Change, string Phrase, Func<RecommendationRequest, RecommendationRequest> Apply);

/// <summary>A kind of change, with what of the answer it can touch.</summary>
/// <param name="Id">Id in the rules.</param>
/// <param name="Gates">Reasons of the gates that it can touch.</param>
/// <param name="Factors">Factors that it can touch.</param>
internal sealed record EditKind(string Id, string[] Gates, List<string> Factors)
{
    private const string NeedMatch = "need-match";

    /// <summary>All kinds. What each touches follows from what gates and factors read of a situation; a property test holds it.</summary>
    public static IReadOnlyList<EditKind> All { get; } =
    [
        new("equipment", ["equipment-missing"], []),
        new("need", [], [NeedMatch]),
        new("weeks", ["peaking-window", "hard-day-near", "minutes"], ["competition-freshness"]),
        new("place", ["place-unsuitable", "equipment-missing"], []),
        new("pain", ["red-flag-spared", "tissue-load", "provocation", "clinician-restriction"], [NeedMatch, "tissue-cost"]),
        new("phase", ["peaking-window", "minutes"], [NeedMatch, "phase-fit", "competition-freshness"]),
    ];

    /// <summary>Bits of its gates.</summary>
    public uint GateBits { get; } = BitsOf(Gates);

    /// <summary>Whether it can change what is needed, and with it what each exercise is for.</summary>
    public bool TouchesNeeds { get; } = Factors.Contains(NeedMatch);

    /// <summary>Whether it can take a referral away: only what is told of pain does.</summary>
    public bool TouchesReferral { get; } = Gates.Contains("red-flag-spared", StringComparer.Ordinal);

    /// <summary>Whether two kinds touch nothing in common but needs, so that both together are each alone, added up, with their needs derived together.</summary>
    public bool IsApartFrom(EditKind other) => (GateBits & other.GateBits) == 0 && !Factors.Exists(f => f != NeedMatch && other.Factors.Contains(f));

    /// <summary>The kind with this id.</summary>
    public static EditKind Of(string id) => All.First(k => k.Id == id);

    private static uint BitsOf(string[] gates)
    {
        uint bits = 0;
        for (var g = 0; g < Eligibility.EligibilityFilter.Gates.Count; g++)
        {
            bits |= gates.Contains(Eligibility.EligibilityFilter.Gates[g].Reason, StringComparer.Ordinal) ? 1U << g : 0;
        }

        return bits;
    }
}
