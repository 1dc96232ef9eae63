namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The exercise can be done at this place.</summary>
public sealed class PlaceSuitable() : Gate("place-unsuitable")
{
    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) =>
        (context.Situation.Catalogue.PlaceMasks[position] & context.Situation.PlaceMask) == 0;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit)
    {
        var (masks, here, count) = (context.Situation.Catalogue.PlaceMasks, context.Situation.PlaceMask, 0);
        for (var e = 0; e < refused.Length; e++)
        {
            if ((masks[e] & here) == 0)
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
        var places = string.Join(", ", context.Situation.Catalogue.Exercises[position].Places);
        return new Refusal(Reason, places, context.Situation.Place.Id, $"it were done at: {places}");
    }
}
