using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points taken for the minutes of setting up.</summary>
public sealed class SetUpCost() : Factor("set-up-cost")
{
    /// <inheritdoc/>
    public override bool IsStanding(bool sore) => true;

    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed class Prepared : Scorer
    {
        private readonly ExerciseCatalogue catalogue;
        private readonly int perTenth;
        private readonly int most;
        private readonly Labels labels; // [tenths]

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.SetUp.Basis, context.Situation.Knowledge.Scoring.SetUp.Source)
        {
            catalogue = context.Situation.Catalogue;
            var rule = context.Situation.Knowledge.Scoring.SetUp;
            perTenth = Points.Of(rule.PointsPerMinute / 10).Thousandths;
            most = Points.Of(rule.MaxPoints).Thousandths;
            labels = new Labels(catalogue.SetUpTenths.Max() + 1, tenths => $"{tenths / 10m:0.#} min to set up");
        }

        public override void Score(int position, ref PointSink sink)
        {
            var tenths = catalogue.SetUpTenths[position];
            var points = -Math.Min(most, tenths * perTenth);
            sink.Add(points);
            if (sink.Records)
            {
                sink.Note("set-up", labels[tenths], points, Basis, Source, tenths / 10m);
            }
        }
    }
}
