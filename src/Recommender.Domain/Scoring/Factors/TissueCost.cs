using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points taken for load on sore regions, and a little for load on regions that the event wears. Never lets in what a gate refused.</summary>
public sealed class TissueCost() : Factor("tissue-cost")
{
    /// <inheritdoc/>
    public override bool IsStanding(bool sore) => !sore;

    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private static readonly PerEdition<RowWords> Words = new(e => new RowWords(e.Catalogue.Vocabulary.Regions));

    /// <summary>Codes and labels by region, for what is sore and for what the event wears.</summary>
    private sealed class RowWords(Terms<RegionTerm> regions)
    {
        public (string Code, string Label)[] Sore { get; } = [.. regions.Select((r, i) => ("sore:" + r.Id, "Load on the sore " + regions.InSentence(i)))];

        public (string Code, string Label)[] AtRisk { get; } = [.. regions.Select((r, i) => ("at-risk:" + r.Id, "Load on a region the event wears: " + regions.InSentence(i)))];
    }

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
            foreach (var (region, pain) in Sore(context.Situation.Complaints))
            {
                var share = rule.SorePainFloor + ((1 - rule.SorePainFloor) * pain / 10m);
                Add(region, rule.SorePoints * share, true, Basis, Source);
            }

            foreach (var risk in context.Situation.Profile.RegionsAtRisk)
            {
                if (!rows.Exists(m => m.Region.Id == risk.Region))
                {
                    Add(risk.Region, rule.RiskPoints * risk.Weight, false, risk.Basis, risk.Source ?? risk.Support);
                }
            }

            regions = [.. rows.Select(r => vocabulary.Regions.IndexOf(r.Region.Id))];
            fullPoints = [.. full];

            void Add(string region, decimal points, bool sore, Basis basis, string? source)
            {
                var (words, at) = (Words.Of(context.Situation.Edition), vocabulary.Regions.IndexOf(region));
                var (code, label) = sore ? words.Sore[at] : words.AtRisk[at];
                rows.Add(new Row(vocabulary.Regions[at], code, label, basis, source));
                foreach (var rate in LoadingRates)
                {
                    full.Add(Points.Of(points * rule.RateFactor[rate]).Thousandths);
                }
            }
        }

        /// <summary>Each sore region once, at its worst pain, in the order of the complaints.</summary>
        private static List<(string Region, int Pain)> Sore(IReadOnlyList<ResolvedComplaint> complaints)
        {
            var sore = new List<(string Region, int Pain)>();
            foreach (var complaint in complaints)
            {
                foreach (var region in complaint.Stands.Select(s => s.Region.Id))
                {
                    var at = sore.FindIndex(s => s.Region == region);
                    if (at < 0)
                    {
                        sore.Add((region, complaint.EffectivePain));
                    }
                    else if (complaint.EffectivePain > sore[at].Pain)
                    {
                        sore[at] = (region, complaint.EffectivePain);
                    }
                }
            }

            return sore;
        }

        public override bool IsIdle => regions.Length == 0;

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
