using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>A few points taken for upper-body muscle mass where it costs the event; none, and unmentioned, for the young.</summary>
public sealed class MassCost() : Factor("mass-cost")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    /// <summary>Whether it takes anything from this athlete.</summary>
    internal static bool Applies(Situation situation) => situation.AgeYears >= situation.Knowledge.Scoring.MassCost.FromAge && !Spared(situation, situation.Knowledge.Scoring.MassCost);

    /// <summary>Whether muscle is to be kept or won back rather than spared.</summary>
    private static bool Spared(Situation situation, MassCostRule rule) =>
        situation.GeneralRedFlags.Any(f => rule.ZeroWithRedFlags.Contains(f.Id, StringComparer.Ordinal))
        || situation.Request.Athlete!.History?.Any(h => h.Surgery == true && h.MonthsAgo <= rule.ZeroAfterSurgeryMonths) == true
        || situation.Request.Athlete.Layoff?.Weeks >= rule.ZeroAfterLayoffWeeks;

    private sealed class Prepared : Scorer
    {
        private readonly ExerciseCatalogue catalogue;
        private readonly bool[] upperBody;
        private readonly int mass;
        private readonly int perRating;

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.MassCost.Basis, context.Situation.Knowledge.Scoring.MassCost.Source)
        {
            catalogue = context.Situation.Catalogue;
            var rule = context.Situation.Knowledge.Scoring.MassCost;
            mass = catalogue.Vocabulary.Qualities.IndexOf("muscle-mass");
            upperBody = [.. catalogue.Vocabulary.Patterns.Select(p => rule.UpperBodyOnlyPatterns.Contains(p.Id, StringComparer.Ordinal))];
            perRating = Applies(context.Situation) ? Points.Of(rule.MaxPoints * context.Situation.Profile.MassCost / 3).Thousandths : 0;
        }

        public override bool IsIdle => perRating == 0;

        public override void Score(int position, ref PointSink sink)
        {
            if (perRating == 0 || !upperBody[catalogue.Patterns[position]])
            {
                return;
            }

            foreach (var column in catalogue.RatingsOf(position))
            {
                if (column.Quality == mass)
                {
                    sink.Add(-perRating * column.Rating);
                    if (sink.Records)
                    {
                        sink.Note("upper-body-mass", $"Adds upper-body mass: {column.Rating} of 3", -perRating * column.Rating, Basis, Source, column.Rating, 3);
                    }
                }
            }
        }
    }
}
