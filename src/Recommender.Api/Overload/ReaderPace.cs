namespace Recommender.Api.Overload;

/// <summary>
/// Writes a long answer to a reader who must keep up: for all the time that is spent waiting until it takes more, it has a few seconds once and after that what its bytes take at the least rate. One that falls behind
/// loses the connection, so that nobody keeps a place of long work by not reading. The server's own least rate holds for each write alone, and many small writes would add up to hours.
/// </summary>
/// <param name="context">The request that is answered.</param>
/// <param name="limits">How long and how slow.</param>
/// <param name="clock">Measures the waiting.</param>
internal sealed class ReaderPace(HttpContext context, WorkLimits limits, TimeProvider clock)
{
    private TimeSpan waited;
    private long taken;

    /// <summary>Writes some of the answer.</summary>
    /// <returns>Whether the reader keeps up; when not, the connection is given up and nothing more can be written.</returns>
    /// <exception cref="OperationCanceledException">The reader has left.</exception>
    public async ValueTask<bool> Write(ReadOnlyMemory<byte> bytes)
    {
        var writing = context.Response.Body.WriteAsync(bytes, context.RequestAborted).AsTask();
        taken += bytes.Length;
        if (writing.IsCompletedSuccessfully)
        {
            return true;
        }

        var begun = clock.GetTimestamp();
        try
        {
            var left = TimeSpan.FromSeconds(limits.ReaderSeconds + ((double)taken / limits.ReaderBytesPerSecond)) - waited;
            await writing.WaitAsync(left > TimeSpan.Zero ? left : TimeSpan.Zero, clock, context.RequestAborted);
        }
        catch (TimeoutException)
        {
            context.Abort();

            // What it ends with interests nobody any more.
            _ = writing.ContinueWith(static w => w.Exception, CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted | TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default);
            return false;
        }

        waited += clock.GetElapsedTime(begun);
        return true;
    }
}
