using System.Diagnostics;

namespace Recommender.Service.Tests.Overload;

/// <summary>Waiting for what must come about, however busy the machine is: what never comes about still fails.</summary>
internal static class Patiently
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(5);

    /// <summary>Asks again until it holds.</summary>
    public static async Task Until(Func<Task<bool>> holds, string what)
    {
        for (var since = Stopwatch.StartNew(); !await holds(); await Task.Delay(20))
        {
            Assert.True(since.Elapsed < Patience, $"it did not come about within {Patience.TotalMinutes} minutes: {what}");
        }
    }

    /// <summary>
    /// Tries something whose precondition holds for some seconds alone, and gives what was seen in the first attempt that it outlasted. An attempt that came too late on a busy machine says nothing either way;
    /// when none was in time for minutes the test fails.
    /// </summary>
    /// <param name="attempt">Gives what was seen, and whether the precondition held until it was.</param>
    /// <param name="precondition">What must outlast it.</param>
    public static async Task<T> While<T>(Func<Task<(T Seen, bool Held)>> attempt, string precondition)
    {
        for (var since = Stopwatch.StartNew(); since.Elapsed < Patience;)
        {
            if (await attempt() is { Held: true } inTime)
            {
                return inTime.Seen;
            }
        }

        throw new Xunit.Sdk.XunitException($"In no attempt within {Patience.TotalMinutes} minutes did it hold that {precondition}.");
    }
}
