using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points for likeness to the event: support, direction of force, speed of force. Capped, since looks alone are a weak guide.</summary>
public sealed class EventCorrespondence() : Factor("event-correspondence")
{
    /// <inheritdoc/>
    public override bool IsStanding(bool sore) => true;

    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed class Prepared : Scorer
    {
        private readonly ExerciseCatalogue catalogue;
        private readonly EventProfile profile;
        private readonly decimal[] supportLike;
        private readonly decimal[] directionLike;
        private readonly decimal[] rateLike;
        private readonly Labels supportLabels;
        private readonly Labels directionLabels;
        private readonly Labels rateLabels;
        private readonly int[] support;
        private readonly int[] direction;
        private readonly int[] rate;

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.Correspondence.Basis, context.Situation.Knowledge.Scoring.Correspondence.Source)
        {
            catalogue = context.Situation.Catalogue;
            profile = context.Situation.Profile;
            var rule = context.Situation.Knowledge.Scoring.Correspondence;
            var likeness = profile.Correspondence;
            supportLike = [.. Enum.GetValues<Support>().Select(s => likeness.Support.GetValueOrDefault(s))];
            directionLike = [.. catalogue.Vocabulary.Directions.Select(d => likeness.Direction.GetValueOrDefault(d.Id))];
            rateLike = [.. Enum.GetValues<LoadingRate>().Select(r => likeness.LoadingRate.GetValueOrDefault(r))];
            support = Parts(rule.SupportShare, supportLike);
            direction = Parts(rule.DirectionShare, directionLike);
            rate = Parts(rule.LoadingRateShare, rateLike);
            supportLabels = new Labels(support.Length, s => Label("Support", catalogue.Vocabulary.Supports.InSentence(s), supportLike[s]));
            directionLabels = new Labels(direction.Length, d => Label("Direction of force", catalogue.Vocabulary.Directions.InSentence(d), directionLike[d]));
            rateLabels = new Labels(rate.Length, r => Label("Speed of force", catalogue.Vocabulary.LoadingRates.InSentence(r), rateLike[r]));

            int[] Parts(decimal share, decimal[] like) => [.. like.Select(l => Points.Of(rule.MaxPoints * share * l).Thousandths)];
        }

        public override void Score(int position, ref PointSink sink)
        {
            int s = catalogue.Supports[position], d = catalogue.Directions[position], r = catalogue.Rates[position];
            sink.Add(support[s] + direction[d] + rate[r]);
            if (sink.Records)
            {
                var source = profile.Source ?? Source;
                sink.Note("support", supportLabels[s], support[s], profile.Basis, source, supportLike[s], 1);
                sink.Note("direction", directionLabels[d], direction[d], profile.Basis, source, directionLike[d], 1);
                sink.Note("loading-rate", rateLabels[r], rate[r], profile.Basis, source, rateLike[r], 1);
            }
        }

        private string Label(string what, string fact, decimal like) => $"{what} {fact}: {like:0.##} of 1 like {catalogue.Vocabulary.Events.InSentence(profile.Event)}";
    }
}
