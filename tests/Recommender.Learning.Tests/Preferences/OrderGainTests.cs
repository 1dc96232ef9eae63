using CsCheck;
using Microsoft.ML;
using Microsoft.ML.Data;
using Recommender.Learning.Preferences;

namespace Recommender.Learning.Tests.Preferences;

public sealed class OrderGainTests
{
    [Fact]
    public void A_worked_example()
    {
        // By hand: taken at places 1 and 4 of 4. Gain 1 / log2(2) + 1 / log2(5) = 1.4307; best 1 / log2(2) + 1 / log2(3) = 1.6309; 0.8772.
        Assert.Equal(0.8772, OrderGain.Ndcg([(true, 40), (false, 30), (false, 20), (true, 10)], 5)!.Value, 4);

        // Over the first two places alone: 1 of 1.6309.
        Assert.Equal(0.6131, OrderGain.Ndcg([(true, 40), (false, 30), (false, 20), (true, 10)], 2)!.Value, 4);
        Assert.Null(OrderGain.Ndcg([(true, 40), (true, 30)], 5));
    }

    /// <summary>Microsoft.ML's own ranking evaluator, on the same lists. With two grades its gains differ by a factor only, which the ratio takes out.</summary>
    [Fact]
    public void It_is_that_of_the_librarys_evaluator() =>
        Gen.Select(Gen.Bool, Gen.Int[0, 1000]).List[3, 9].List[2, 12].Where(lists => lists.All(l => l.Select(x => x.Item2).Distinct().Count() == l.Count && l.Exists(x => x.Item1) && l.Exists(x => !x.Item1))).Sample(lists =>
        {
            var context = new MLContext(1);
            var rows = lists.SelectMany((list, g) => list.Select(x => new Row { Label = x.Item1 ? 1 : 0, Score = x.Item2, Group = (uint)g + 1 })).ToList();
            var schema = SchemaDefinition.Create(typeof(Row));
            schema[nameof(Row.Group)].ColumnType = new KeyDataViewType(typeof(uint), lists.Count);
            var evaluated = context.Ranking.Evaluate(context.Data.LoadFromEnumerable(rows, schema), new RankingEvaluatorOptions { DcgTruncationLevel = 5 }, nameof(Row.Label), nameof(Row.Group), nameof(Row.Score));

            var own = lists.Average(list => OrderGain.Ndcg([.. list.Select(x => (x.Item1, x.Item2))], 5)!.Value);
            Assert.Equal(evaluated.NormalizedDiscountedCumulativeGains[4], own, 5);
        }, iter: 30);

    private sealed class Row
    {
        public float Label { get; set; }

        public float Score { get; set; }

        public uint Group { get; set; }
    }
}
