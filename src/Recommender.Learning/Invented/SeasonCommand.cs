using System.Text.Json;
using Recommender.Answers;
using Recommender.Answers.Access;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Learning.Preferences;
using Recommender.Storage;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;
using Recommender.Storage.Preferences;
using Recommender.Storage.Versioning;

namespace Recommender.Learning.Invented;

/// <summary>A season of three invented coaches with the demo squad, on a store of its own: asked, answered, recorded, reported, learned, and asked again.</summary>
public static class SeasonCommand
{
    private const string Club = Caller.LocalOrganisation;
    private const int Decisions = 2000;
    private const int Together = 50;

    /// <summary>Plays it and prints what was learned, what it costs, and three explanations.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="output">Takes the words.</param>
    /// <param name="kept">Folder in which the store is made and stays; null for one that goes afterwards.</param>
    public static async Task Run(string dataFolder, TextWriter output, string? kept = null)
    {
        var folder = kept is null ? Directory.CreateTempSubdirectory("recommender-season-") : Directory.CreateDirectory(kept);
        try
        {
            using var store = SqliteStore.Open(folder.FullName);
            var start = KnowledgeAtStart.Read(dataFolder);
            var edition = start.Edition;
            var editions = new Editions(new VersionStore(store), start);
            var packings = new Packings(store);
            await packings.Use(RepeatedText.Of(edition)).ConfigureAwait(false);
            await using var log = new DecisionLog(store, packings);
            var (outcomes, preferences) = (new OutcomeStore(store), new PreferenceStore(store));
            var inForce = new PreferencesInForce(preferences, TimeProvider.System);
            var answers = new AnswerRecommendation(EditionInForce.Always(edition), log, new ReadFacts(outcomes, inForce), TimeProvider.System);
            var reports = 0;
            var requests = InventedSeason.Coaches.Select((c, i) => InventedSeason.Requests(dataFolder, c.Id, Decisions, 100 + i).ToArray()).ToArray();
            var random = new Random(7);
            for (var from = 0; from < Decisions; from += Together)
            {
                // The three ask side by side, so that earlier and later mean the same for each.
                for (var c = 0; c < requests.Length; c++)
                {
                    var asked = requests[c][from..(from + Together)];
                    var answered = await Task.WhenAll(asked.Select(r => answers.One(r, Club, null))).ConfigureAwait(false);
                    for (var i = 0; i < asked.Length; i++)
                    {
                        foreach (var (report, facts) in InventedSeason.Coaches[c].Chooses(answered[i].Answer!, asked[i], edition, random))
                        {
                            await outcomes.Append(Club, new StoredOutcome(answered[i].Answer!.DecisionId, report.Exercise!, 0, DateTimeOffset.UtcNow, report.Verdict!, asked[i].Athlete!.Ref, asked[i].Coach,
                                JsonSerializer.Serialize(report, WireJson.Compact.OutcomeReport), JsonSerializer.Serialize(facts, WireJson.Compact.OutcomeFacts), false, false)).ConfigureAwait(false);
                            reports++;
                        }
                    }
                }
            }

            await output.WriteLineAsync($"{requests.Length} coaches, {requests.Length * Decisions} decisions, {reports} reports.").ConfigureAwait(false);
            var learn = new LearnPreferences(new LearnableOutcomes(outcomes), new LearnedPreferences(preferences, inForce, TimeProvider.System), new CostOfPreference(log, editions));
            var (learned, note) = await learn.Run(Club, edition.Knowledge.Outcomes!).ConfigureAwait(false);
            await output.WriteLineAsync(note).ConfigureAwait(false);
            foreach (var version in learned)
            {
                await output.WriteLineAsync(LearnCommand.Line(version)).ConfigureAwait(false);
                await output.WriteLineAsync("    " + string.Join(", ", version.Numbers.Factors.Where(f => f.Value != 0).Select(f => $"{f.Key} {f.Value:+0.###;-0.###}")
                    .Concat(version.Numbers.Families.OrderByDescending(f => Math.Abs(f.Value)).Take(6).Select(f => $"{f.Key} {f.Value:+0.###;-0.###}")))).ConfigureAwait(false);
            }

            foreach (var coach in InventedSeason.Coaches)
            {
                await Show(coach.Id).ConfigureAwait(false);
            }

            async Task Show(string coach)
            {
                foreach (var request in InventedSeason.Requests(dataFolder, coach, 40, 900))
                {
                    var answer = (await answers.One(request, Club, null).ConfigureAwait(false)).Answer!;
                    if (answer.Picks.Where(p => p.Contributions[^1].Points.Thousandths > 0).MaxBy(p => p.Contributions[^1].Points.Thousandths) is { } pick)
                    {
                        await output.WriteLineAsync($"{coach}: {pick.Exercise.Name}, {pick.Score} points, place {pick.Rank}.").ConfigureAwait(false);
                        foreach (var why in pick.Why)
                        {
                            await output.WriteLineAsync($"    {why}").ConfigureAwait(false);
                        }

                        foreach (var detail in pick.Contributions[^1].Details.Where(d => d.Points.Thousandths != 0))
                        {
                            await output.WriteLineAsync($"      {detail.Label}: {detail.Points}").ConfigureAwait(false);
                        }

                        return;
                    }
                }
            }
        }
        finally
        {
            if (kept is null)
            {
                folder.Delete(recursive: true);
            }
        }
    }
}
