using Recommender.Domain.Catalogue;
using Recommender.Domain.Needs;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points for the qualities it trains that are needed; the second and later ones count for less, so that many small tags do not outweigh one good reason.</summary>
public sealed class NeedMatch() : Factor("need-match")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed class Prepared : Scorer
    {
        private readonly NeedTable needs;
        private readonly ExerciseCatalogue catalogue;
        private readonly Need?[] needOf; // [quality]
        private readonly int[] nthPerMille;
        private readonly int[] points; // scratch, highest first
        private readonly int[] order; // scratch, index of the rating that brings them

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.NeedMatch.Basis, context.Situation.Knowledge.Scoring.NeedMatch.Source)
        {
            needs = context.Needs;
            catalogue = context.Situation.Catalogue;
            needOf = new Need?[catalogue.Vocabulary.Qualities.Count];
            points = new int[needOf.Length];
            order = new int[needOf.Length];
            foreach (var need in context.Profile.Needs)
            {
                needOf[need.Position] = need;
            }

            nthPerMille = [.. context.Situation.Knowledge.Scoring.NeedMatch.NthShare.Select(s => (int)decimal.Round(s * 1000))];
        }

        public override void Score(int position, ref PointSink sink)
        {
            var columns = catalogue.RatingsOf(position);
            var n = 0;
            for (var i = 0; i < columns.Length; i++)
            {
                var p = needs.At(columns[i].Quality, columns[i].Rating);
                if (p == 0)
                {
                    continue;
                }

                // Insertion, highest first; equal points keep the vocabulary's order.
                var at = n++;
                while (at > 0 && points[at - 1] < p)
                {
                    points[at] = points[at - 1];
                    order[at] = order[at - 1];
                    at--;
                }

                points[at] = p;
                order[at] = i;
            }

            for (var nth = 0; nth < n; nth++)
            {
                var share = nthPerMille[Math.Min(nth, nthPerMille.Length - 1)];
                var counted = (int)(((long)points[nth] * share) / 1000);
                sink.Add(counted);
                if (sink.Records)
                {
                    Note(position, columns[order[nth]], counted, share, ref sink);
                }
            }
        }

        private void Note(int position, ExerciseCatalogue.QualityColumn column, int counted, int share, ref PointSink sink)
        {
            var term = catalogue.Vocabulary.Qualities[column.Quality];
            var rating = catalogue.Exercises[position].Qualities[term.Id];
            var need = needOf[column.Quality]!;
            var basis = (Basis)Math.Max((int)rating.Basis, (int)need.From.Max(f => f.Basis));
            var nth = share == 1000 ? "" : $", counted at {share / 10m:0.#} %";
            sink.Note($"need:{term.Id}", $"{term.Label}: rated {column.Rating} of 3, need {need.Weight * 100:0.#} %{nth}", counted, basis, rating.Source, column.Rating, 3);
        }
    }
}
