namespace Recommender.Domain.Audit;

/// <summary>
/// Gives each number its place in its interval. A draw hangs on seed, sample and the number's own key alone (a counter-based use of SplitMix64, whole numbers
/// throughout), so that it is the same on every machine and does not move when other numbers come or go.
/// </summary>
/// <remarks>SplitMix64: Steele, Lea, Flood, Fast splittable pseudorandom number generators, OOPSLA 2014; its three constants and shifts.</remarks>
public readonly struct Draws
{
    /// <summary>Places in an interval: 0 is its lower end, this its upper.</summary>
    public const int Places = 1000;

    private const ulong Golden = 0x9E3779B97F4A7C15;
    private readonly Mode mode;
    private readonly ulong state;
    private readonly bool high;

    private Draws(Mode mode, ulong state, bool high = false)
    {
        this.mode = mode;
        this.state = state;
        this.high = high;
    }

    private enum Mode
    {
        AsTheyAre,
        Sample,
        OneAtAnEnd,
    }

    /// <summary>Every number as it stands.</summary>
    public static Draws AsTheyAre => default;

    /// <summary>One sample: every number drawn, independently.</summary>
    public static Draws Sample(int seed, int sample) => new(Mode.Sample, Mix(Mix((ulong)seed + Golden) + ((ulong)sample * Golden)));

    /// <summary>One number at the end of its interval, or one step off; all others as they stand.</summary>
    public static Draws OneAtAnEnd(ulong key, bool high) => new(Mode.OneAtAnEnd, key, high);

    /// <summary>A number's key: FNV-1a over its name, 64 bits; a name can be taken on from the key of its beginning.</summary>
    public static ulong KeyOf(string name, ulong start = 14695981039346656037)
    {
        foreach (var c in name)
        {
            start = (start ^ c) * 1099511628211;
        }

        return start;
    }

    /// <summary>Place in the interval, 0 to <see cref="Places"/>, each as likely; -1 where the number stays as it stands.</summary>
    public int PlaceOf(ulong key) => mode switch
    {
        Mode.Sample => (int)(((Mix(state ^ key) >> 32) * (Places + 1)) >> 32),
        Mode.OneAtAnEnd when key == state => high ? Places : 0,
        _ => -1,
    };

    /// <summary>Step of a rating: -1, 0 or 1.</summary>
    /// <param name="key">The rating's key.</param>
    /// <param name="half">Half the share of draws that move, of 2^32: so many go down, as many up.</param>
    public int StepOf(ulong key, uint half)
    {
        if (mode == Mode.Sample)
        {
            var drawn = (uint)(Mix(state ^ key) >> 32);
            return drawn < half ? -1 : drawn >= uint.MaxValue - half ? 1 : 0;
        }

        return mode == Mode.OneAtAnEnd && key == state ? (high ? 1 : -1) : 0;
    }

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
