using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points taken for load on sore regions, and a little for load on regions that the event wears. Never lets in what a gate refused.</summary>
public sealed class TissueCost() : Factor("tissue-cost")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private readonly record struct Row(int Region, int[] PerHundredLoad, bool Sore, string Label, Basis Basis, string? Source);

    private sealed class Prepared : Scorer
    {
        /// <summary>Loads are hundredths of 0 to 10.</summary>
        private const int FullLoad = 1000;
        private readonly ExerciseCatalogue catalogue;
        private readonly Row[] rows;

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.TissueCost.Basis, context.Situation.Knowledge.Scoring.TissueCost.Source)
        {
            catalogue = context.Situation.Catalogue;
            var rule = context.Situation.Knowledge.Scoring.TissueCost;
            var vocabulary = catalogue.Vocabulary;
            var made = new List<Row>();
            foreach (var sore in context.Situation.Complaints
                .SelectMany(c => (c.Region.Covers.Count == 0 ? [c.Region.Id] : c.Region.Covers).Select(r => (Region: r, c.EffectivePain)))
                .GroupBy(x => x.Region, StringComparer.Ordinal)
                .Select(g => (Region: g.Key, Pain: g.Max(x => x.EffectivePain))))
            {
                var share = rule.SorePainFloor + ((1 - rule.SorePainFloor) * sore.Pain / 10m);
                made.Add(Make(sore.Region, rule.SorePoints * share, true, "Load on the sore", Basis, Source));
            }

            foreach (var risk in context.Situation.Profile.RegionsAtRisk.Where(r => made.TrueForAll(m => vocabulary.Regions[m.Region].Id != r.Region)))
            {
                made.Add(Make(risk.Region, rule.RiskPoints * risk.Weight, false, "Load on a region the event wears:", risk.Basis, risk.Source ?? risk.Support));
            }

            rows = [.. made];

            Row Make(string region, decimal points, bool sore, string label, Basis basis, string? source) => new(
                vocabulary.Regions.IndexOf(region),
                [.. Enum.GetValues<LoadingRate>().Select(rate => Points.Of(points * rule.RateFactor[rate]).Thousandths)],
                sore,
                $"{label} {vocabulary.Regions.Find(region)!.Label.ToLowerInvariant()}",
                basis,
                source);
        }

        public override void Score(int position, ref PointSink sink)
        {
            var rate = catalogue.Rates[position];
            foreach (var row in rows)
            {
                var load = catalogue.TissueValue[(position * catalogue.RegionCount) + row.Region];
                var points = -(int)((long)row.PerHundredLoad[rate] * load / FullLoad);
                sink.Add(points);
                if (sink.Records)
                {
                    var region = catalogue.Vocabulary.Regions[row.Region];
                    var own = ExerciseCatalogue.LoadOn(catalogue.Exercises[position], region);
                    var basis = own is { } o && o.Basis > row.Basis ? o.Basis : row.Basis;
                    sink.Note($"{(row.Sore ? "sore" : "at-risk")}:{region.Id}", row.Label, points, basis, own?.Source ?? row.Source, load / 100m, 10);
                }
            }
        }
    }
}
