using Recommender.Answers.Learned;
using Recommender.Domain.Knowledge;

namespace Recommender.Learning.Preferences;

/// <summary>What was learned of one organisation or coach, and what became of it.</summary>
/// <param name="Coach">The coach; null for the organisation.</param>
/// <param name="Version">Version that it is kept under.</param>
/// <param name="Numbers">The numbers.</param>
/// <param name="Report">What they gain and cost.</param>
public sealed record LearnedVersion(string? Coach, string Version, PreferenceNumbers Numbers, PreferenceReport Report);

/// <summary>Learns from all reports of an organisation: earlier decisions teach, later ones test, and only what helps is put in force. The same reports give the same versions.</summary>
/// <param name="outcomes">Reads reports.</param>
/// <param name="preferences">Keeps what was learned.</param>
/// <param name="cost">Answers decisions again.</param>
public sealed class LearnPreferences(LearnableOutcomes outcomes, LearnedPreferences preferences, CostOfPreference cost)
{
    /// <summary>Learns, keeps, and puts in force what helps.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="rules">Rules in force.</param>
    /// <returns>What was learned, the organisation's first; and why not more.</returns>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be used.</exception>
    public async Task<(IReadOnlyList<LearnedVersion> Versions, string Note)> Run(string organisation, OutcomeRules rules)
    {
        var decisions = ReportedDecision.Of(await outcomes.Of(organisation).ConfigureAwait(false), rules.Position);
        var (trained, tested) = Split(decisions, rules.Publication.TestShare);
        var learned = PreferenceFit.Of([.. trained.SelectMany(d => d.Pairs)], rules);
        if (learned.Organisation is null)
        {
            var pairs = trained.Sum(d => d.Pairs.Count);
            return ([], $"{pairs} {(pairs == 1 ? "pair" : "pairs")} of choices in the earlier decisions; from {rules.Pairs.Least} on something is learned. Nothing leans.");
        }

        var ofAll = await Try(null, learned.Organisation, trained, tested, null).ConfigureAwait(false);
        List<LearnedVersion> versions = [ofAll];
        foreach (var (coach, numbers) in learned.Coaches)
        {
            versions.Add(await Try(coach, numbers, Of(trained, coach), Of(tested, coach), ofAll.Report.Helps ? learned.Organisation : null).ConfigureAwait(false));
        }

        return (versions, $"Learned from {trained.Count} decisions and tested on {tested.Count} later ones.");

        async Task<LearnedVersion> Try(string? coach, PreferenceNumbers numbers, IReadOnlyList<ReportedDecision> taught, IReadOnlyList<ReportedDecision> tests, PreferenceNumbers? against)
        {
            var gains = new PreferenceTrial(rules.Publication, rules.Bounds).Of(tests, against, numbers);
            var helps = gains is { Pairs.Low: > 0, Ndcg.Low: > 0 };
            var report = new PreferenceReport(against is null ? "none" : "organisation", Size(taught), Size(tests), gains?.Pairs, gains?.Ndcg, rules.Publication.Top, learned.PointsPerUnit,
                await cost.Of(organisation, [.. tests.Select(t => t.Id)], against, numbers).ConfigureAwait(false), helps, Reason(gains, helps));
            var version = await preferences.Keep(organisation, coach, numbers, report).ConfigureAwait(false);
            if (helps)
            {
                await preferences.Publish(organisation, coach, version).ConfigureAwait(false);
            }

            return new LearnedVersion(coach, version, numbers, report);
        }
    }

    /// <summary>The earlier decisions and the later ones.</summary>
    private static (IReadOnlyList<ReportedDecision> Trained, IReadOnlyList<ReportedDecision> Tested) Split(IReadOnlyList<ReportedDecision> decisions, decimal testShare)
    {
        var trained = (int)decimal.Ceiling(decisions.Count * (1 - testShare));
        return ([.. decisions.Take(trained)], [.. decisions.Skip(trained)]);
    }

    private static IReadOnlyList<ReportedDecision> Of(IReadOnlyList<ReportedDecision> decisions, string coach) => [.. decisions.Where(d => d.Coach == coach)];

    private static TrialSize Size(IReadOnlyList<ReportedDecision> decisions) => new(decisions.Count, decisions.Sum(d => d.Pairs.Count));

    private static string Reason((TrialGain Pairs, TrialGain Ndcg)? gains, bool helps) => gains is not { } g ? "There are no later decisions to test it on; it is kept as a draft."
        : helps ? "Both gains on later decisions are above zero at the lower end of their interval; it was put in force."
        : g.Pairs.Low <= 0 ? $"The gain in pair accuracy may be as low as {g.Pairs.Low:0.####}; it is kept as a draft."
        : $"The gain in the order's quality may be as low as {g.Ndcg.Low:0.####}; it is kept as a draft.";
}
