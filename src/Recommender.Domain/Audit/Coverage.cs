using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Audit;

/// <summary>One cell of the report.</summary>
/// <param name="EventGroup">Event group id.</param>
/// <param name="Phase">Phase id.</param>
/// <param name="Place">Place id.</param>
/// <param name="Complaint">Region id, or null without a complaint.</param>
/// <param name="Eligible">How many exercises pass every gate.</param>
/// <param name="Needs">How many of the heaviest needs were looked at.</param>
/// <param name="Lacking">Quality ids of those among them for which no eligible exercise is strong, heaviest first.</param>
/// <param name="Refusals">How many exercises each reason refused, most first; one refused by several counts in each.</param>
/// <param name="Referral">The referral's first reason, or null.</param>
public sealed record CoverageCell(string EventGroup, string Phase, string Place, string? Complaint, int Eligible, int Needs, IReadOnlyList<string> Lacking,
    IReadOnlyList<(string Reason, int Count)> Refusals, string? Referral)
{
    /// <summary>For how many of the needs at least one eligible exercise is strong.</summary>
    public int StrongFor => Needs - Lacking.Count;
}

/// <summary>How far the catalogue reaches: every event group in every phase, at the places and with the complaints of the rules.</summary>
public static class Coverage
{
    /// <summary>Every cell: groups, phases, places and complaints in the order of vocabulary and rules, without a complaint first.</summary>
    public static IReadOnlyList<CoverageCell> Of(Edition edition, CoverageRules rules) =>
    [
        .. from eventGroup in edition.Catalogue.Vocabulary.EventGroups
           from phase in edition.Catalogue.Vocabulary.Phases
           from place in rules.Places
           from complaint in rules.Complaints.Prepend(null)
           select Cell(edition, rules, eventGroup.Id, phase.Id, place, complaint),
    ];

    private static CoverageCell Cell(Edition edition, CoverageRules rules, string eventGroup, string phase, CoveragePlace place, string? complaint)
    {
        var situation = Situation.Of(new RecommendationRequest
        {
            Athlete = new AthleteFacts { EventGroup = eventGroup, AgeYears = rules.AgeYears, TrainingAgeYears = rules.TrainingAgeYears },
            Phase = phase,
            Setting = new SettingFacts { Place = place.Place, Equipment = place.Equipment },
            Complaints = complaint is null ? null : [new Complaint { Region = complaint, Side = "both", Pain = rules.Pain, NextMorning = "same" }],
        }, edition);
        var profile = NeedAnalysis.Derive(situation);
        var limits = TissueLimits.Of(situation);
        var outcome = EligibilityFilter.Apply(new GateContext(situation, limits));
        var top = profile.Needs.Take(rules.TopNeeds).ToList();
        return new CoverageCell(eventGroup, phase, place.Place, complaint, outcome.Eligible.Length, top.Count,
            [.. top.Where(need => !outcome.Eligible.Any(e => edition.Catalogue.RatingOf(e, need.Position) >= QualityRating.Strong)).Select(need => need.Quality)],
            [.. EligibilityFilter.Gates.Select((gate, i) => (gate.Reason, Count: outcome.CountByGate[i])).Where(r => r.Count > 0).OrderByDescending(r => r.Count).ThenBy(r => r.Reason, StringComparer.Ordinal)],
            limits.Referral?.Reasons[0].Text);
    }
}
