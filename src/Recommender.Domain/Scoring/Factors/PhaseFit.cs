using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points for suiting the phase: speed of force and load band.</summary>
public sealed class PhaseFit() : Factor("phase-fit")
{
    /// <inheritdoc/>
    public override bool IsStanding(bool sore) => true;

    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed class Prepared : Scorer
    {
        private readonly ExerciseCatalogue catalogue;
        private readonly Labels rateLabels;
        private readonly Labels bandLabels;
        private readonly int[] rate;
        private readonly int[] band;

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.PhaseFit.Basis, context.Situation.Knowledge.Scoring.PhaseFit.Source)
        {
            catalogue = context.Situation.Catalogue;
            var rule = context.Situation.Knowledge.Scoring.PhaseFit;
            var column = (int)context.Situation.Phase;
            var phase = catalogue.Vocabulary.Phases.InSentence(column);
            rateLabels = new Labels(catalogue.Vocabulary.LoadingRates.Count, r => $"{catalogue.Vocabulary.LoadingRates[r].Label} work in {phase}");
            bandLabels = new Labels(catalogue.Vocabulary.LoadBands.Count, b => $"{catalogue.Vocabulary.LoadBands[b].Label} load in {phase}");
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
                sink.Note("loading-rate", rateLabels[catalogue.Rates[position]], r, Basis, Source);
                sink.Note("load-band", bandLabels[catalogue.Bands[position]], b, Basis, Source);
            }
        }
    }
}
