using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points taken for load on sore regions, and a little for load on regions that the event wears. Never lets in what a gate refused.</summary>
public sealed class TissueCost() : Factor("tissue-cost")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed record Row(RegionTerm Region, string Code, string Label, Basis Basis, string? Source);

    private sealed class Prepared : Scorer
    {
        /// <summary>Loads are hundredths of 0 to 10.</summary>
        private const int FullLoad = 1000;
        private static readonly LoadingRate[] LoadingRates = Enum.GetValues<LoadingRate>();
        private readonly ExerciseCatalogue catalogue;
        private readonly List<Row> rows = [];
        private readonly int[] regions; // [row]
        private readonly int[] fullPoints; // [row, rate] thousandths at full load

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.TissueCost.Basis, context.Situation.Knowledge.Scoring.TissueCost.Source)
        {
            catalogue = context.Situation.Catalogue;
            var rule = context.Situation.Knowledge.Scoring.TissueCost;
            var vocabulary = catalogue.Vocabulary;
            var full = new List<int>();
            foreach (var sore in context.Situation.Complaints
                .SelectMany(c => (c.Region.Covers.Count == 0 ? [c.Region.Id] : c.Region.Covers).Select(r => (Region: r, c.EffectivePain)))
                .GroupBy(x => x.Region, StringComparer.Ordinal)
                .Select(g => (Region: g.Key, Pain: g.Max(x => x.EffectivePain))))
            {
                var share = rule.SorePainFloor + ((1 - rule.SorePainFloor) * sore.Pain / 10m);
                Add(sore.Region, rule.SorePoints * share, true, "Load on the sore", Basis, Source);
            }

            foreach (var risk in context.Situation.Profile.RegionsAtRisk.Where(r => rows.TrueForAll(m => m.Region.Id != r.Region)))
            {
                Add(risk.Region, rule.RiskPoints * risk.Weight, false, "Load on a region the event wears:", risk.Basis, risk.Source ?? risk.Support);
            }

            regions = [.. rows.Select(r => vocabulary.Regions.IndexOf(r.Region.Id))];
            fullPoints = [.. full];

            void Add(string region, decimal points, bool sore, string label, Basis basis, string? source)
            {
                rows.Add(new Row(vocabulary.Regions.Find(region)!, $"{(sore ? "sore" : "at-risk")}:{region}", $"{label} {vocabulary.Regions.InSentence(region)}", basis, source));
                foreach (var rate in LoadingRates)
                {
                    full.Add(Points.Of(points * rule.RateFactor[rate]).Thousandths);
                }
            }
        }

        public override void Score(int position, ref PointSink sink)
        {
            var rate = catalogue.Rates[position];
            var loads = catalogue.TissueValue.AsSpan(position * catalogue.RegionCount, catalogue.RegionCount);
            for (var i = 0; i < regions.Length; i++)
            {
                var load = loads[regions[i]];
                var points = -(fullPoints[(i * LoadingRates.Length) + rate] * load / FullLoad);
                sink.Add(points);
                if (sink.Records)
                {
                    var row = rows[i];
                    var own = ExerciseCatalogue.LoadOn(catalogue.Exercises[position], row.Region);
                    var basis = own is { } o && o.Basis > row.Basis ? o.Basis : row.Basis;
                    sink.Note(row.Code, row.Label, points, basis, own?.Source ?? row.Source, load / 100m, 10);
                }
            }
        }
    }
}
