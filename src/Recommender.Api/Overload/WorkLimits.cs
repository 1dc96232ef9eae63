using System.Globalization;
using Recommender.Api.Hosting;

namespace Recommender.Api.Overload;

/// <summary>How much is worked on at once, and how much may wait. What comes on top is turned away at once, so that what was let in is answered soon.</summary>
/// <param name="Single">Single questions at once.</param>
/// <param name="SingleWaiting">Single questions that may wait.</param>
/// <param name="Several">Calls of several questions at once.</param>
/// <param name="SeveralWaiting">Calls of several questions that may wait.</param>
/// <param name="Walks">Walks at once.</param>
/// <param name="WalksWaiting">Walks that may wait.</param>
/// <param name="DrainSeconds">Seconds between the wish to stop and the end of listening; whoever spreads the load sees meanwhile that this replica is not ready.</param>
/// <param name="StopSeconds">Seconds that what is still worked on has after that.</param>
/// <param name="UnreadySeconds">Seconds of turning away without a pause after which this replica says that it is not ready, so that others take over.</param>
/// <param name="WaitSeconds">Seconds that a request may wait for a place before it is turned away after all.</param>
/// <param name="ReaderSeconds">Seconds that a reader who does not take its answer has, once for the whole of it.</param>
/// <param name="ReaderBytesPerSecond">Bytes a second that a reader must take beside that; slower ones lose the connection.</param>
public sealed record WorkLimits(
    int Single, int SingleWaiting, int Several, int SeveralWaiting, int Walks, int WalksWaiting, double DrainSeconds, double StopSeconds, double UnreadySeconds, double WaitSeconds, double ReaderSeconds,
    int ReaderBytesPerSecond)
{
    private const int MostPlaces = 10_000;
    private const int MostSeconds = 600;

    /// <summary>The server looks at its own least rate once a second, and takes no grace as short as that.</summary>
    private const double LeastReaderSeconds = 2;

    private const int MostBytesPerSecond = 1024 * 1024 * 1024;

    /// <summary>Reads limits; what is not set follows from the processor cores.</summary>
    /// <param name="configuration">Section Work.</param>
    /// <param name="cores">Processor cores.</param>
    /// <exception cref="InvalidSettingException">One cannot be used.</exception>
    public static WorkLimits Of(IConfiguration configuration, int cores)
    {
        // A single question holds its place while it computes, not while it waits for a commit that it shares; two a core keep the cores busy beside reads of the store.
        // Seven times as many may wait: a program with some dozen connections is served, and nobody waits longer than eight answers take. Long work gets half of the cores, and never the last.
        var single = Read("Single", 2 * cores, 1);
        var several = Read("Several", Math.Max(1, cores / 2), 1);
        return new WorkLimits(
            single, Read("SingleWaiting", 7 * single, 0), several, Read("SeveralWaiting", 16 * several, 0), Read("Walks", 1, 1), Read("WalksWaiting", 4, 0),
            ReadSeconds("DrainSeconds", 5), ReadSeconds("StopSeconds", 30), ReadSeconds("UnreadySeconds", 15), ReadSeconds("WaitSeconds", 20),
            // The slowest link that is served takes 256 kbit a second: a thousand decisions, some 45 MB with all that was answered, in 25 minutes.
            ReadSeconds("ReaderSeconds", 15, LeastReaderSeconds), Read("ReaderBytesPerSecond", 32 * 1024, 1, MostBytesPerSecond));

        int Read(string name, int usual, int least, int most = MostPlaces) => configuration[$"Work:{name}"] is not { } text ? usual
            : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var value) && value >= least && value <= most ? value
            : throw new InvalidSettingException($"Work__{name} is \"{text}\"; give a whole number from {least} to {most}, or leave it out for {usual}.");

        double ReadSeconds(string name, double usual, double least = 0) => configuration[$"Work:{name}"] is not { } text ? usual
            : double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && value >= least && value <= MostSeconds ? value
            : throw new InvalidSettingException($"Work__{name} is \"{text}\"; give seconds from {least.ToString(CultureInfo.InvariantCulture)} to {MostSeconds}, or leave it out for {usual.ToString(CultureInfo.InvariantCulture)}.");
    }
}
