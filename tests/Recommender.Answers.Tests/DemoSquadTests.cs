using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Storage.Athletes;
using Recommender.Testing;

namespace Recommender.Answers.Tests;

public sealed class DemoSquadTests : DeskTests
{
    private AthleteStore Athletes => new(Desk.Store);

    [Fact]
    public async Task The_squad_is_loaded_once_in_the_life_of_a_store()
    {
        var squad = new DemoSquad(Athletes, Desk.Clock);

        Assert.True(await squad.Load(Path.Combine(TestEdition.DataFolder, "demo", "squad.json"), "club"));
        Assert.False(await squad.Load(Path.Combine(TestEdition.DataFolder, "demo", "squad.json"), "club"));

        Assert.Equal(12, (await Athletes.ReadAll("club")).Count);
    }

    [Fact]
    public async Task Its_twelve_athletes_have_refs_of_their_own_and_cover_every_event_group()
    {
        var profiles = await Load();

        Assert.Equal(12, profiles.Select(p => p.Ref).Distinct().Count());
        Assert.Equal(TestEdition.Current.Catalogue.Vocabulary.EventGroups.Select(g => g.Id).Order(StringComparer.Ordinal),
            profiles.Select(p => p.Athlete.EventGroup ?? TestEdition.Current.Catalogue.Vocabulary.Events.Find(p.Athlete.Event!)!.EventGroup).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Every_athlete_gets_an_answer_with_picks()
    {
        foreach (var profile in await Load())
        {
            var outcome = await Desk.Answers.One(RequestFor(profile), "club", null);

            Assert.True(outcome.Faults.Count == 0, $"{profile.Ref}: {string.Join("; ", outcome.Faults)}");
            Assert.True(outcome.Answer!.Status == AnswerStatus.Answered && outcome.Answer.Picks.Count > 0, $"{profile.Ref}: {outcome.Answer.Status}");
        }
    }

    [Fact]
    public async Task A_file_that_does_not_fit_saves_nobody()
    {
        var file = Path.GetTempFileName();
        try
        {
            await File.WriteAllTextAsync(file, """{ "club": "C", "note": "N", "athletes": [{ "ref": "A", "name": "A", "athlete": { "colour": 1 } }] }""");

            await Assert.ThrowsAsync<JsonException>(() => new DemoSquad(Athletes, Desk.Clock).Load(file, "club"));

            Assert.Empty(await Athletes.ReadAll("club"));
        }
        finally
        {
            File.Delete(file);
        }
    }

    private async Task<List<AthleteProfile>> Load()
    {
        await new DemoSquad(Athletes, Desk.Clock).Load(Path.Combine(TestEdition.DataFolder, "demo", "squad.json"), "club");
        return [.. (await Athletes.ReadAll("club")).Select(p => JsonSerializer.Deserialize(p, WireJson.Default.AthleteProfile)!)];
    }

    /// <summary>The form as it is filled from a profile.</summary>
    private static RecommendationRequest RequestFor(AthleteProfile profile) => new()
    {
        Athlete = profile.Athlete with { Ref = profile.Ref },
        Phase = profile.Phase ?? "general-preparation",
        WeeksToCompetition = profile.WeeksToCompetition,
        Setting = profile.Setting,
        Complaints = profile.Complaints,
        Needs = profile.Needs,
    };
}
