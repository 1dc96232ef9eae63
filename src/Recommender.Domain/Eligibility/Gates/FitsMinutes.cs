namespace Recommender.Domain.Eligibility.Gates;

/// <summary>
/// The smallest dose worth doing fits the minutes at hand, whatever the exercise is picked for. What it is picked for hangs on the
/// needs, which pain changes; asking for one purpose alone would let more pain bring an exercise in.
/// </summary>
public sealed class FitsMinutes() : Gate("minutes")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.Minutes is not null;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => LeastTenths(context, position) > context.WholeTenths;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit)
    {
        // Most fit whatever they are picked for; only the others are asked about.
        var (most, count) = (context.Situation.Edition.DoseTable.MostTenths(context.Situation.VolumePhase), 0);
        for (var e = 0; e < refused.Length; e++)
        {
            if (most[e] > context.WholeTenths && Refuses(context, e))
            {
                refused[e] |= bit;
                count++;
            }
        }

        return count;
    }

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var needed = LeastTenths(context, position) / 10m;
        return new Refusal(Reason, context.Situation.Minutes, needed, $"there were {needed:0.#} minutes");
    }

    private static int LeastTenths(GateContext context, int position)
    {
        var situation = context.Situation;
        var most = 0;
        foreach (var column in situation.Catalogue.RatingsOf(position))
        {
            most = Math.Max(most, situation.Edition.DoseTable.LeastTenths(position, column.Quality, situation.DoseRows, situation.VolumePhase));
        }

        return most;
    }
}
