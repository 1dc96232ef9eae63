using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

public abstract class ErasureTests(Engine engine) : OpenLogTests(engine)
{
    [SkippableFact]
    public async Task Erases_ref_coach_notes_and_salt_of_that_athlete_alone()
    {
        await Log.Append([Record("mine"), Record("hers") with { AthleteRef = "NM-05" }], null);

        Assert.Equal(1, await Log.Erase("club", "NM-04"));

        var mine = (await Log.Read("club", "mine"))!;
        Assert.True(mine.PersonalDataErased);
        Assert.True(mine.Record.Personal.IsEmpty && mine.Record.PersonalSalt.IsEmpty && mine.Record.AthleteRef is null && mine.Record.Coach is null);
        Assert.False((await Log.Read("club", "hers"))!.PersonalDataErased);
        Assert.Equal(["mine", "hers"], Chains()["club"]);
    }

    [SkippableFact]
    public async Task Forgets_the_keys_of_that_athletes_requests_alone()
    {
        await Log.Append([Record("mine")], Claim("mine").About(["NM-04", null]));
        await Log.Append([Record("both")], Claim("both").About(["NM-05", "NM-04"]));
        await Log.Append([Record("hers") with { AthleteRef = "NM-05" }], Claim("hers").About(["NM-05"]));
        await Log.Claim("club", Claim("needs").About(["NM-04"]));

        await Log.Erase("club", "NM-04");

        foreach (var (key, kept) in new[] { ("mine", false), ("both", false), ("needs", false), ("hers", true) })
        {
            Assert.Equal(kept, await Log.ReadClaim("club", key, Noon) is not null);
        }

        Assert.Equal(1L, Outside.Value<long>("SELECT COUNT(*) FROM idempotency_athletes"));
    }

    [SkippableFact]
    public async Task A_key_that_lapsed_and_was_taken_anew_is_about_the_new_athlete()
    {
        await Log.Append([Record("old")], Claim("key").About(["NM-04"]));
        await Log.Append([Record("new") with { AthleteRef = "NM-05" }], Claim("key", at: Noon.AddDays(2)).About(["NM-05"]));

        await Log.Erase("club", "NM-04");

        Assert.NotNull(await Log.ReadClaim("club", "key", Noon.AddDays(1)));
    }

    [SkippableFact]
    public async Task Another_organisations_athlete_of_the_same_ref_stays()
    {
        await Log.Append([Record("d-1", "academy")], null);

        Assert.Equal(0, await Log.Erase("club", "NM-04"));
        Assert.False((await Log.Read("academy", "d-1"))!.PersonalDataErased);
    }
}
