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
    public override Refusal Explain(GateContext context, int position)
    {
        var facts = context.Situation.Catalogue.Exercises[position].Facts;
        return Broken(context, position) switch
        {
            "no-impact" => new Refusal(Reason, "no impact", "impact", "landings were allowed"),
            "quiet" => new Refusal(Reason, "quiet", facts.Noise, "noise were allowed"),
            _ => new Refusal(Reason, context.Situation.Knowledge.Defaults.SmallSpaceMetres, facts.SpaceMetres, $"there were {facts.SpaceMetres:0.#} m of free floor"),
        };
    }

    /// <summary>The first limit that is not respected, or null.</summary>
    private static string? Broken(GateContext context, int position)
    {
        var exercise = context.Situation.Catalogue.Exercises[position];
        foreach (var limit in context.Situation.SettingLimits)
        {
            var broken = limit switch
            {
                "no-impact" => exercise.LoadingRate == LoadingRate.Impact,
                "quiet" => exercise.Facts.Noise == "loud" || exercise.LoadingRate == LoadingRate.Impact,
                "small-space" => exercise.Facts.SpaceMetres > context.Situation.Knowledge.Defaults.SmallSpaceMetres,
                _ => false,
            };
            if (broken)
            {
                return limit;
            }
        }

        return null;
    }
}
