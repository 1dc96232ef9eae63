using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Storage.Athletes;

namespace Recommender.Answers;

/// <summary>Loads the invented club on the first start of a store, so that there is something to ask about.</summary>
/// <param name="athletes">Keeps profiles.</param>
/// <param name="clock">Gives the time.</param>
public sealed class DemoSquad(AthleteStore athletes, TimeProvider clock)
{
    private const string Mark = "demo-squad-1";

    /// <summary>Loads the squad unless this store had it before.</summary>
    /// <param name="file">data/demo/squad.json.</param>
    /// <param name="organisation">Who gets it.</param>
    /// <returns>Whether it was loaded now.</returns>
    /// <exception cref="JsonException">The file does not fit.</exception>
    public async Task<bool> Load(string file, string organisation)
    {
        var body = System.Text.Json.Nodes.JsonNode.Parse(await File.ReadAllBytesAsync(file).ConfigureAwait(false))!.AsObject();
        body.Remove("$schema");
        var squad = body.Deserialize(WireJson.Default.Squad)!;
        return await athletes.SaveOnce(Mark, organisation, squad.Athletes.Select(a => (a.Ref, JsonSerializer.Serialize(a, WireJson.Compact.AthleteProfile))), clock.GetUtcNow()).ConfigureAwait(false);
    }
}
