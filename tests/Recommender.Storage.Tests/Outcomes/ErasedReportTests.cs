using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;
using Recommender.Storage.Tests.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Outcomes;

/// <summary>Reports about an athlete beside the erasure of the athlete, on both engines.</summary>
public abstract class ErasedReportTests(Engine engine) : OpenLogTests(engine)
{
    private const int Rounds = 40;

    [SkippableFact]
    public async Task Nothing_more_is_kept_about_a_decision_that_was_erased()
    {
        var outcomes = new OutcomeStore(Store);
        await Log.Append([Record("his"), Record("hers") with { AthleteRef = "NM-05" }], null);
        await outcomes.Append("club", Report("his", "NM-04"));
        await Log.Erase("club", "NM-04");
        await outcomes.Erase("club", "NM-04", (_, _) => ("{}", null));

        Assert.Null(await outcomes.Append("club", Report("his", "NM-04")));
        Assert.False(await Log.Claim("club", Claim("his").About(["NM-04"]) with { OfDecision = "his" }));
        Assert.True((await outcomes.Append("club", Report("hers", "NM-05")))!.Value.New);
        Assert.True(await Log.Claim("club", Claim("hers").About(["NM-05"]) with { OfDecision = "hers" }));

        Assert.Equal("hers", Outside.Value<string>("SELECT decision_id FROM outcomes WHERE athlete_ref IS NOT NULL OR report <> '{}'"));
        Assert.Equal("hers", Outside.Value<string>("SELECT key FROM idempotency"));
    }

    [SkippableFact]
    public async Task A_report_and_an_erasure_at_once_leave_nothing_personal()
    {
        using var elsewhere = Place.Open();
        await using var otherLog = new DecisionLog(elsewhere, new Packings(elsewhere));
        var (outcomes, others) = (new OutcomeStore(Store), new OutcomeStore(elsewhere));
        for (var round = 0; round < Rounds; round++)
        {
            var (decision, athlete) = ($"d-{round}", $"NM-{round}");
            await Log.Append([Record(decision) with { AthleteRef = athlete }], null);

            await Task.WhenAll(Task.Run(Reports), Task.Run(Erases));

            // As whoever takes a report does: the decision is looked at first, and much may happen until the report is kept.
            async Task Reports()
            {
                await Task.Delay(round % 7);
                if (!(await Log.Read("club", decision))!.PersonalDataErased && await outcomes.Append("club", Report(decision, athlete)) is not null)
                {
                    await Log.Claim("club", Claim(decision).About([athlete]) with { OfDecision = decision });
                }
            }

            async Task Erases()
            {
                await Task.Delay(round % 5);
                await otherLog.Erase("club", athlete);
                await others.Erase("club", athlete, (_, _) => ("{}", null));
            }
        }

        Assert.Equal(0L, Outside.Value<long>("SELECT COUNT(*) FROM outcomes WHERE athlete_ref IS NOT NULL OR coach IS NOT NULL OR report <> '{}' OR pained <> 0 OR erased = 0"));
        Assert.Equal(0L, Outside.Value<long>("SELECT COUNT(*) FROM idempotency"));
        Assert.Equal(0L, Outside.Value<long>("SELECT COUNT(*) FROM decisions WHERE personal_salt IS NOT NULL"));
    }

    private static StoredOutcome Report(string decision, string athlete) => new(decision, "squat", 0, Noon, "used", athlete, "HC-1", """{"note":"secret"}""", "{}", true, false);
}

public sealed class SqliteErasedReportTests() : ErasedReportTests(Engine.Sqlite);

public sealed class PostgresErasedReportTests() : ErasedReportTests(Engine.Postgres);
