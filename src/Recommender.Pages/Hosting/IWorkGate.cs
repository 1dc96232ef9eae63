namespace Recommender.Pages.Hosting;

/// <summary>Lets a request whose body has arrived to its work, or turns it away. A request that waits for its own slow body must hold no place.</summary>
public interface IWorkGate
{
    /// <summary>Waits for a place, for as long as others are before it in a short queue.</summary>
    /// <returns>Whether there is one; it is given back with <see cref="Leave"/>, and at the latest when the answer has gone out.</returns>
    ValueTask<bool> Enter();

    /// <summary>Gives the place back early: the work is done, and only waiting is left.</summary>
    void Leave();
}

/// <summary>More is asked than can be answered soon; nothing was done for this request.</summary>
public sealed class OverloadedException() : Exception("Too much is asked at once.");
