using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points learned from what staff chose. While a preference is in force the engine adds them itself (<see cref="Leaning"/>), since they hang on the other factors' points; here they are off.</summary>
public sealed class StaffPreference() : Factor("staff-preference")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Off();

    private sealed class Off() : Scorer(Basis.CommonPractice, null)
    {
        public override bool IsIdle => true;

        public override void Score(int position, ref PointSink sink)
        {
            // Nothing was learned yet, so nothing leans.
        }
    }
}
