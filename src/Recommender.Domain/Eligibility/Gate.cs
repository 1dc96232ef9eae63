using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>A yes-or-no question of eligibility. Never traded against points.</summary>
/// <param name="reason">Reason id of its no; permanent.</param>
/// <remarks>Hot path: <see cref="Refuses"/> runs for every exercise, on flat columns, without allocation. Benchmark: tests/Recommender.Benchmarks.</remarks>
public abstract class Gate(string reason)
{
    /// <summary>Reason id.</summary>
    public string Reason { get; } = reason;

    /// <summary>Whether a near miss of this gate is worth telling: what the athlete or coach could change.</summary>
    public virtual bool CanBeMet => true;

    /// <summary>Whether this gate has anything to ask in this situation; one that has not is skipped.</summary>
    public virtual bool Asks(GateContext context) => true;

    /// <summary>Whether the exercise at <paramref name="position"/> is refused.</summary>
    public abstract bool Refuses(GateContext context, int position);

    /// <summary>Marks every exercise that <see cref="Refuses"/> says no to; a gate that is asked every time overrides it by the same question over a column.</summary>
    /// <param name="context">What it is asked on.</param>
    /// <param name="refused">[exercise] bits of the gates that refused it; this gate's is added.</param>
    /// <param name="bit">This gate's bit.</param>
    /// <returns>How many it refused.</returns>
    public virtual int Mark(GateContext context, uint[] refused, uint bit)
    {
        var count = 0;
        for (var e = 0; e < refused.Length; e++)
        {
            if (Refuses(context, e))
            {
                refused[e] |= bit;
                count++;
            }
        }

        return count;
    }

    /// <summary>Marking for a gate that can refuse only what shares a bit with what is asked about.</summary>
    /// <param name="context">What it is asked on.</param>
    /// <param name="refused">[exercise] bits of the gates that refused it.</param>
    /// <param name="bit">This gate's bit.</param>
    /// <param name="masks">[exercise] bits of what it is.</param>
    /// <param name="about">Bits that the gate can refuse.</param>
    /// <param name="surely">Whether sharing a bit is all it takes.</param>
    protected int MarkSharing(GateContext context, uint[] refused, uint bit, ulong[] masks, ulong about, bool surely)
    {
        var count = 0;
        for (var e = 0; e < refused.Length; e++)
        {
            if ((masks[e] & about) != 0 && (surely || Refuses(context, e)))
            {
                refused[e] |= bit;
                count++;
            }
        }

        return count;
    }

    /// <summary>The refusal in facts and words. Call only for an exercise that this gate refuses.</summary>
    public abstract Refusal Explain(GateContext context, int position);
}

/// <summary>A gate's no.</summary>
/// <param name="Reason">Reason id.</param>
/// <param name="Limit">What would have passed: a number or a text; null when it is no such thing.</param>
/// <param name="Value">What was found: a number or a text; null when it is no such thing.</param>
/// <param name="WouldBeAllowedIf">What would let it in, in plain words.</param>
public sealed record Refusal(string Reason, object? Limit, object? Value, string WouldBeAllowedIf);

/// <summary>All that gates ask; made once a request.</summary>
public sealed class GateContext
{
    /// <param name="situation">The situation.</param>
    /// <param name="limits">Limits of its complaints.</param>
    public GateContext(Situation situation, TissueLimits limits)
    {
        Situation = situation;
        Limits = limits;
        TooComplex = [.. situation.Knowledge.Competence.TrainingAgeByComplexity.Select(step => situation.TrainingAgeYears < step.Years)];
        WholeTenths = situation.Minutes is { } minutes ? (int)decimal.Floor(minutes * 10) : int.MaxValue;
    }

    /// <summary>The situation.</summary>
    public Situation Situation { get; }

    /// <summary>Limits of its complaints.</summary>
    public TissueLimits Limits { get; }

    /// <summary>[complexity - 1] whether training age is too short for it.</summary>
    public bool[] TooComplex { get; }

    /// <summary>Whole tenths of the minutes at hand; doses take whole tenths.</summary>
    public int WholeTenths { get; }
}
