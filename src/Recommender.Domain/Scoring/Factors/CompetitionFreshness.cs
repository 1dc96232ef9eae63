using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points taken for likely soreness, more the nearer the competition.</summary>
public sealed class CompetitionFreshness() : Factor("competition-freshness")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed class Prepared : Scorer
    {
        private readonly ExerciseCatalogue catalogue;
        private readonly Labels labels;
        private readonly int[] bySoreness;

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.Freshness.Basis, context.Situation.Knowledge.Scoring.Freshness.Source)
        {
            catalogue = context.Situation.Catalogue;
            var weeks = context.Situation.WeeksToCompetition;
            var rule = context.Situation.Knowledge.Scoring.Freshness;
            var near = Math.Max(0, 1 - (weeks / rule.FadesOverWeeks));
            bySoreness = [.. rule.BySorenessRisk.Select(share => -Points.Of(rule.MaxPoints * share * near).Thousandths)];
            labels = new Labels(bySoreness.Length, risk => $"Soreness risk {risk} of 3 with {weeks:0.#} weeks to go");
        }

        public override void Score(int position, ref PointSink sink)
        {
            var risk = catalogue.SorenessRisks[position];
            sink.Add(bySoreness[risk]);
            if (sink.Records)
            {
                sink.Note("soreness", labels[risk], bySoreness[risk], Basis, Source, risk, 3);
            }
        }
    }
}
