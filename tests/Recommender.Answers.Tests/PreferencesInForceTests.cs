using Recommender.Answers.Learned;
using Recommender.Domain.Knowledge;
using Recommender.Storage.Preferences;

namespace Recommender.Answers.Tests;

/// <summary>What two replicas on one store say between the moment at which one puts learned numbers in force and the moment at which the other reads them: five seconds, as README and document state.</summary>
public sealed class PreferencesInForceTests : DeskTests
{
    private const string Club = "club";

    [Fact]
    public async Task Another_replica_answers_on_what_was_put_in_force_from_the_fifth_second_on_and_names_what_it_answers_on()
    {
        var other = new PreferencesInForce(Desk.Preferences, Desk.Clock);
        var there = new AnswerRecommendation(Desk.Editions, Desk.Log, new ReadFacts(Desk.Outcomes, other), Desk.Clock);
        var here = Desk.Answers;
        var first = await Keep(1);
        var second = await Keep(2);
        await Publish(first);
        Assert.Equal((first, first), (await On(here), await On(there)));

        await Publish(second);

        // The one that it was put in force through answers on it at once; the other on the one before, whole, until the time is over.
        Assert.Equal((second, first), (await On(here), await On(there)));
        Desk.Clock.MoveOn(TimeSpan.FromSeconds(5) - TimeSpan.FromMilliseconds(1));
        Assert.Equal((second, first), (await On(here), await On(there)));
        Desk.Clock.MoveOn(TimeSpan.FromMilliseconds(1));
        Assert.Equal((second, second), (await On(here), await On(there)));
        Assert.Equal(TimeSpan.FromSeconds(5), PreferencesInForce.Fresh);

        await Publish(null);
        Assert.Equal((null, second), (await On(here), await On(there)));
        Desk.Clock.MoveOn(PreferencesInForce.Fresh);
        Assert.Null(await On(there));
    }

    /// <summary>A request that read what was in force before and comes to its end after something was put in force must not be what later requests go by.</summary>
    [Fact]
    public async Task No_reading_from_before_outlives_what_is_put_in_force_here()
    {
        var versions = new List<string>();
        for (var i = 0; i < 40; i++)
        {
            versions.Add(await Keep(i + 1));
        }

        using var stop = new CancellationTokenSource();
        var others = Enumerable.Range(0, 4).Select(_ => Task.Run(async () =>
        {
            while (!stop.IsCancellationRequested)
            {
                await Desk.InForce.Of(Club, "HC-1");
            }
        })).ToArray();
        foreach (var version in versions)
        {
            await Publish(version);
            Assert.Equal(version, (await Desk.InForce.Of(Club, "HC-1"))!.Version);
        }

        await stop.CancelAsync();
        await Task.WhenAll(others);
    }

    private async Task<string> Keep(int choices)
    {
        var (content, version) = PreferenceText.Of(new PreferenceNumbers(PreferenceScope.Coach, 80 + choices, 200, new Dictionary<string, decimal>(), new Dictionary<string, decimal>()));
        await Desk.Preferences.Keep(Club, new KeptPreference("HC-1", version, Desk.Now, content, "{}"));
        return version;
    }

    private async Task Publish(string? version)
    {
        await Desk.Preferences.Publish(Club, "HC-1", version, Desk.Now);
        Desk.InForce.Forget(Club);
    }

    private static async Task<string?> On(AnswerRecommendation answers) => (await answers.One(Desk.Least() with { Coach = "HC-1" }, Club, null)).Answer!.Versions.Preference;
}
