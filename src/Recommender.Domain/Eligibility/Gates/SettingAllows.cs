using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The exercise respects the setting's limits: no impact, quiet, small space.</summary>
public sealed class SettingAllows() : Gate("setting-limit")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.SettingLimits.Count > 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Broken(context, position) is not null;

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position) => Broken(context, position)!;

    private Refusal? Broken(GateContext context, int position)
    {
        var exercise = context.Situation.Catalogue.Exercises[position];
        var space = context.Situation.Knowledge.Defaults.SmallSpaceMetres;
        foreach (var limit in context.Situation.SettingLimits)
        {
            var refusal = limit switch
            {
                "no-impact" when exercise.LoadingRate == LoadingRate.Impact => new Refusal(Reason, "no impact", "impact", "landings were allowed"),
                "quiet" when exercise.Facts.Noise == "loud" || exercise.LoadingRate == LoadingRate.Impact => new Refusal(Reason, "quiet", exercise.Facts.Noise, "noise were allowed"),
                "small-space" when exercise.Facts.SpaceMetres > space => new Refusal(Reason, space, exercise.Facts.SpaceMetres, $"there were {exercise.Facts.SpaceMetres:0.#} m of free floor"),
                _ => null,
            };
            if (refusal is not null)
            {
                return refusal;
            }
        }

        return null;
    }
}
