using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points for the qualities it trains that are needed; the second and later ones count for less, so that many small tags do not outweigh one good reason.</summary>
public sealed class NeedMatch() : Factor("need-match")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private static readonly PerEdition<Fixed> Kept = new(e => new Fixed(e));

    /// <summary>What hangs on the edition alone.</summary>
    private sealed class Fixed
    {
        public Fixed(Edition edition)
        {
            var qualities = edition.Catalogue.Vocabulary.Qualities;
            Codes = [.. qualities.Select(q => "need:" + q.Id)];
            NthPerMille = [.. edition.Knowledge.Scoring.NeedMatch.NthShare.Select(s => (int)decimal.Round(s * 1000))];
            NthLabels = [.. NthPerMille.Select(n => n == 1000 ? "" : $", counted at {n / 10m:0.#} %")];
        }

        public string[] Codes { get; }

        public int[] NthPerMille { get; }

        public string[] NthLabels { get; }
    }

    private sealed class Prepared : Scorer
    {
        private const int Ratings = 4;
        private readonly NeedTable needs;
        private readonly ExerciseCatalogue catalogue;
        private readonly Need?[] needOf; // [quality]
        private readonly string[] codes; // [quality]
        private readonly Labels labels; // [quality, rating]
        private readonly Basis[] basisOf; // [quality] the weakest of the need's origins
        private readonly int[] nthPerMille;
        private readonly string[] nthLabels;
        private readonly int[] points; // scratch, highest first
        private readonly int[] order; // scratch, index of the rating that brings them

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.NeedMatch.Basis, context.Situation.Knowledge.Scoring.NeedMatch.Source)
        {
            needs = context.Needs;
            catalogue = context.Situation.Catalogue;
            needOf = new Need?[catalogue.Vocabulary.Qualities.Count];
            basisOf = new Basis[needOf.Length];
            points = new int[needOf.Length];
            order = new int[needOf.Length];
            foreach (var need in context.Profile.Needs)
            {
                needOf[need.Position] = need;
                foreach (var from in need.From)
                {
                    basisOf[need.Position] = from.Basis > basisOf[need.Position] ? from.Basis : basisOf[need.Position];
                }
            }

            var kept = Kept.Of(context.Situation.Edition);
            (codes, nthPerMille, nthLabels) = (kept.Codes, kept.NthPerMille, kept.NthLabels);
            labels = new Labels(needOf.Length * Ratings, i => $"{catalogue.Vocabulary.Qualities[i / Ratings].Label}: rated {i % Ratings} of 3, need {needOf[i / Ratings]!.Weight * 100:0.#} %");
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
                var share = Math.Min(nth, nthPerMille.Length - 1);
                var counted = (int)(((long)points[nth] * nthPerMille[share]) / 1000);
                sink.Add(counted);
                if (sink.Records)
                {
                    Note(position, columns[order[nth]], counted, share, ref sink);
                }
            }
        }

        private void Note(int position, ExerciseCatalogue.QualityColumn column, int counted, int share, ref PointSink sink)
        {
            var (quality, value) = column;
            var rating = catalogue.Exercises[position].Qualities[catalogue.Vocabulary.Qualities[quality].Id];
            var basis = rating.Basis > basisOf[quality] ? rating.Basis : basisOf[quality];
            sink.Note(codes[quality], labels[(quality * Ratings) + value] + nthLabels[share], counted, basis, rating.Source, value, 3);
        }
    }
}
