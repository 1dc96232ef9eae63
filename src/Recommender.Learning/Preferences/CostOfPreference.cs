using Recommender.Answers;
using Recommender.Answers.Learned;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Learning.Preferences;

/// <summary>What a preference costs: the same decisions answered without and with it, on the versions that they were made on.</summary>
/// <param name="log">Keeps decisions.</param>
/// <param name="editions">Gives the edition that a decision was made on.</param>
public sealed class CostOfPreference(IDecisionLog log, Editions editions)
{
    /// <summary>Answers that are given again, the latest: more would say the same.</summary>
    private const int Most = 400;
    private const int Strong = 2;

    /// <summary>The cost over recommendations.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="decisions">Ids, oldest first.</param>
    /// <param name="without">What is compared with; null for none.</param>
    /// <param name="with">The preference.</param>
    /// <returns>Null where no recommendation among them can be answered again.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<PreferenceCost?> Of(string organisation, IReadOnlyList<string> decisions, PreferenceNumbers? without, PreferenceNumbers with)
    {
        var (off, on) = (without is null ? null : new Preference("before", without), new Preference("after", with));
        var (answers, first, changed, picks, coverage, loadOff, loadOn, lean) = (0, 0, 0, 0, 0m, 0m, 0m, 0m);
        foreach (var id in decisions.TakeLast(Most))
        {
            if (await log.Read(organisation, id).ConfigureAwait(false) is not { Record: { Kind: "recommendation" } record } || await editions.Of(organisation, record.Versions).ConfigureAwait(false) is not { } edition)
            {
                continue;
            }

            var request = DecisionKind.Recommendation.Kept(record);
            var cautions = ReadFacts.CautionsOf(record);
            var (before, after) = (Answer(off), Answer(on));
            answers++;
            first += FirstOf(before) != FirstOf(after) ? 1 : 0;
            changed += after.Picks.Select(p => p.Exercise.Id).Except(before.Picks.Select(p => p.Exercise.Id), StringComparer.Ordinal).Count();
            picks += after.Picks.Count;
            coverage += Coverage(after, edition) - Coverage(before, edition);
            loadOff += Load(before);
            loadOn += Load(after);
            lean += after.Picks.Sum(p => Math.Abs(p.Contributions[^1].Points.Value));

            Answer Answer(Preference? preference) => DecisionKind.Recommendation.Answer(request with { Read = new FactsRead(preference, cautions) }, edition, "");
        }

        return answers == 0 ? null : new PreferenceCost(answers, Share(first, answers), Share(changed, picks), decimal.Round(coverage / answers, 4), loadOff == 0 ? 0 : decimal.Round((loadOn - loadOff) / loadOff, 4), Share(lean, picks));
    }

    /// <summary>Share of need weight that some pick serves strongly.</summary>
    private static decimal Coverage(Answer answer, Edition edition)
    {
        var served = answer.Picks.SelectMany(p => edition.Catalogue.Find(p.Exercise.Id)!.Qualities.Where(q => q.Value.Value >= Strong).Select(q => q.Key)).ToHashSet(StringComparer.Ordinal);
        return answer.Needs.Where(n => served.Contains(n.Quality)).Sum(n => n.Weight);
    }

    private static string? FirstOf(Answer answer) => answer.Picks is [var first, ..] ? first.Exercise.Id : null;

    private static decimal Load(Answer answer) => answer.Picks.Sum(p => p.TissueLoad.Values.Sum(l => l.Value));

    private static decimal Share(decimal part, decimal whole) => whole == 0 ? 0 : decimal.Round(part / whole, 4);
}
