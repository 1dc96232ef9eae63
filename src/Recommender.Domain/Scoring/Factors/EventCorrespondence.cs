using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points for likeness to the event: support, direction of force, speed of force. Capped, since looks alone are a weak guide.</summary>
public sealed class EventCorrespondence() : Factor("event-correspondence")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed class Prepared : Scorer
    {
        private readonly ExerciseCatalogue catalogue;
        private readonly Recommender.Domain.Knowledge.EventProfile profile;
        private readonly string eventLabel;
        private readonly int[] support;
        private readonly int[] direction;
        private readonly int[] rate;

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.Correspondence.Basis, context.Situation.Knowledge.Scoring.Correspondence.Source)
        {
            catalogue = context.Situation.Catalogue;
            profile = context.Situation.Profile;
            eventLabel = catalogue.Vocabulary.Events.InSentence(profile.Event);
            var rule = context.Situation.Knowledge.Scoring.Correspondence;
            var likeness = profile.Correspondence;
            support = [.. Enum.GetValues<Support>().Select(s => Part(rule.SupportShare, likeness.Support.GetValueOrDefault(s)))];
            direction = [.. catalogue.Vocabulary.Directions.Select(d => Part(rule.DirectionShare, likeness.Direction.GetValueOrDefault(d.Id)))];
            rate = [.. Enum.GetValues<LoadingRate>().Select(r => Part(rule.LoadingRateShare, likeness.LoadingRate.GetValueOrDefault(r)))];
            int Part(decimal share, decimal like) => Points.Of(rule.MaxPoints * share * like).Thousandths;
        }

        public override void Score(int position, ref PointSink sink)
        {
            var s = support[catalogue.Supports[position]];
            var d = direction[catalogue.Directions[position]];
            var r = rate[catalogue.Rates[position]];
            sink.Add(s + d + r);
            if (sink.Records)
            {
                var e = catalogue.Exercises[position];
                var like = profile.Correspondence;
                Note(ref sink, "support", "Support", catalogue.Vocabulary.Supports.InSentence((int)e.Support), s, like.Support.GetValueOrDefault(e.Support));
                Note(ref sink, "direction", "Direction of force", catalogue.Vocabulary.Directions.InSentence(e.Direction), d, like.Direction.GetValueOrDefault(e.Direction));
                Note(ref sink, "loading-rate", "Speed of force", catalogue.Vocabulary.LoadingRates.InSentence((int)e.LoadingRate), r, like.LoadingRate.GetValueOrDefault(e.LoadingRate));
            }
        }

        private void Note(ref PointSink sink, string code, string what, string fact, int points, decimal like) =>
            sink.Note(code, $"{what} {fact}: {like:0.##} of 1 like {eventLabel}", points, profile.Basis, profile.Source ?? Source, like, 1);
    }
}
