using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points for suiting the phase: speed of force and load band.</summary>
public sealed class PhaseFit() : Factor("phase-fit")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed class Prepared : Scorer
    {
        private readonly ExerciseCatalogue catalogue;
        private readonly string phase;
        private readonly int[] rate;
        private readonly int[] band;

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.PhaseFit.Basis, context.Situation.Knowledge.Scoring.PhaseFit.Source)
        {
            catalogue = context.Situation.Catalogue;
            var rule = context.Situation.Knowledge.Scoring.PhaseFit;
            var column = (int)context.Situation.Phase;
            phase = catalogue.Vocabulary.Phases.InSentence(column);
            rate = [.. Enum.GetValues<LoadingRate>().Select(r => Points.Of(rule.LoadingRate[r][column]).Thousandths)];
            band = [.. Enum.GetValues<LoadBand>().Select(b => Points.Of(rule.LoadBand[b][column]).Thousandths)];
        }

        public override void Score(int position, ref PointSink sink)
        {
            var r = rate[catalogue.Rates[position]];
            var b = band[catalogue.Bands[position]];
            sink.Add(r + b);
            if (sink.Records)
            {
                sink.Note("loading-rate", $"{catalogue.Vocabulary.LoadingRates[catalogue.Rates[position]].Label} work in {phase}", r, Basis, Source);
                sink.Note("load-band", $"{catalogue.Vocabulary.LoadBands[catalogue.Bands[position]].Label} load in {phase}", b, Basis, Source);
            }
        }
    }
}
