using System.Globalization;
using Recommender.Answers;
using Recommender.Answers.Learned;
using Recommender.Storage;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;
using Recommender.Storage.Preferences;
using Recommender.Storage.Versioning;

namespace Recommender.Learning.Preferences;

/// <summary>Learns from the reports in a store, for every organisation that has any, and puts in force what helps. A running service takes it over by itself.</summary>
public static class LearnCommand
{
    /// <summary>Learns and prints what came of it.</summary>
    /// <param name="store">The open store.</param>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="output">Takes the words.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be used.</exception>
    /// <exception cref="Domain.Knowledge.InvalidKnowledgeException">The data folder cannot be used.</exception>
    public static async Task Run(Store store, string dataFolder, TextWriter output)
    {
        var clock = TimeProvider.System;
        var start = KnowledgeAtStart.Read(dataFolder);
        var versions = new VersionStore(store);
        var editions = new Editions(versions, start);
        var inForce = new EditionInForce(versions, editions, start);
        var (outcomes, kept) = (new OutcomeStore(store), new PreferenceStore(store));
        await using var log = new DecisionLog(store, new Packings(store));
        var learn = new LearnPreferences(new LearnableOutcomes(outcomes), new LearnedPreferences(kept, new PreferencesInForce(kept, clock), clock), new CostOfPreference(log, editions));
        var organisations = await outcomes.Organisations().ConfigureAwait(false);
        if (organisations.Count == 0)
        {
            await output.WriteLineAsync("There are no reports of what was done with picks yet; POST /v1/decisions/{id}/outcomes takes them.").ConfigureAwait(false);
        }

        foreach (var organisation in organisations)
        {
            if ((await inForce.Of(organisation).ConfigureAwait(false)).Knowledge.Outcomes is not { } rules)
            {
                await output.WriteLineAsync($"{organisation}: the rules in force were published before there was learning; publish them anew.").ConfigureAwait(false);
                continue;
            }

            var (learned, note) = await learn.Run(organisation, rules).ConfigureAwait(false);
            await output.WriteLineAsync($"{organisation}: {note}").ConfigureAwait(false);
            foreach (var version in learned)
            {
                await output.WriteLineAsync(Line(version)).ConfigureAwait(false);
            }
        }
    }

    /// <summary>A version in a line.</summary>
    internal static string Line(LearnedVersion version)
    {
        var r = version.Report;
        var gains = r.PairAccuracy is { } pairs && r.Ndcg is { } order
            ? string.Create(CultureInfo.InvariantCulture, $" Pairs right {pairs.Without:0.000} -> {pairs.With:0.000} ({pairs.Low:+0.000;-0.000} to {pairs.High:+0.000;-0.000}), NDCG@{r.Top} {order.Without:0.000} -> {order.With:0.000} ({order.Low:+0.000;-0.000} to {order.High:+0.000;-0.000}).")
            : "";
        var cost = r.Cost is { } c ? string.Create(CultureInfo.InvariantCulture, $" Of {c.Answers} answers {c.FirstPlacesChanged * 100:0.#} % have another first pick, {c.PicksChanged * 100:0.#} % of picks are others; need coverage {c.NeedCoverage * 100:+0.0;-0.0;0.0} points of 100, tissue load {c.TissueLoad * 100:+0.0;-0.0;0.0} %, mean lean {c.MeanLean:0.00} points.") : "";
        return $"  {(version.Coach is null ? "organisation" : "coach " + version.Coach)} {version.Version}, from {version.Numbers.Choices} choices in {version.Numbers.Pairs} pairs, against {r.ComparedWith}.{gains}{cost} {r.Reason}";
    }
}
