using System.Diagnostics;

namespace Recommender.Storage.Tests.Decisions;

public abstract class KilledProgramTests(Engine engine)
{
    [SkippableFact]
    public async Task A_killed_program_loses_no_record_that_it_had_answered_and_the_chain_goes_on()
    {
        using var place = engine.NewPlace();
        using var outside = place.Outside();
        var answered = new List<string>();
        for (var round = 0; round < 3; round++)
        {
            answered.AddRange(await AppendUntilKilled(place, $"round-{round}", afterAnswers: 100));

            Assert.True(answered.Count >= (round + 1) * 100, "the program ended before it was killed.");
            Assert.Empty(answered.Except(Chain.Walk(outside)["club"]));
        }
    }

    private static async Task<List<string>> AppendUntilKilled(StorePlace place, string prefix, int afterAnswers)
    {
        var start = new ProcessStartInfo(Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet" ? Environment.ProcessPath! : "dotnet") { RedirectStandardOutput = true };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(typeof(KilledProgramTests).Assembly.Location);
        foreach (var argument in place.Arguments)
        {
            start.ArgumentList.Add(argument);
        }

        start.ArgumentList.Add(prefix);
        using var program = Process.Start(start)!;
        var answered = new List<string>();
        while (answered.Count < afterAnswers && await program.StandardOutput.ReadLineAsync() is { } id)
        {
            answered.Add(id);
        }

        program.Kill();
        // What it had said before it died counts too; a line that was cut short does not.
        var rest = await program.StandardOutput.ReadToEndAsync();
        answered.AddRange(rest[..(rest.LastIndexOf('\n') + 1)].Split('\n', StringSplitOptions.RemoveEmptyEntries));
        await program.WaitForExitAsync();
        return answered;
    }
}
