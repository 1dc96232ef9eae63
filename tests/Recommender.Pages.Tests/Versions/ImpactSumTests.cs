using Bunit;
using CsCheck;
using Recommender.Answers;
using Recommender.Pages.Versions;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Versions;

public sealed class ImpactSumTests
{
    private static readonly string?[] Tops = ["back-squat", "pull-up", null];

    private static readonly Gen<ImpactLine> Line = Gen.Select(Gen.Int[0, 2], Gen.Int[0, 2],
        (was, now) => new ImpactLine("id", "recommendation", null, Tops[was], Tops[now], [], [], 0, "The order of the picks differs."));

    /// <summary>Counted piece by piece as counted at once.</summary>
    [Fact]
    public void Stretches_add_up() => Line.Array[0, 8].Array[0, 6].Sample(stretches =>
    {
        var sum = stretches.Select((lines, i) => new ImpactStretch((i + 1) * 10, i, lines)).Aggregate(ImpactSum.Nothing, (s, stretch) => s.With(stretch));
        var all = stretches.SelectMany(l => l).ToList();

        Assert.Equal(new ImpactSum(stretches.Length * 10, Math.Max(0, stretches.Length - 1), all.Count, all.Count(l => l.TopWas != l.TopIs)), sum);
    });

    [Fact]
    public void Progress_is_said_as_it_is_drawn_and_a_long_list_ends_with_a_count()
    {
        using var context = new BunitContext();
        List<ImpactLine> lines = [.. Enumerable.Repeat(new ImpactLine("id", "recommendation", "NM-1", "back-squat", "pull-up", ["back-squat"], ["pull-up"], 2, "Why."), 30)];
        var sum = new ImpactSum(490, 0, 520, 520);
        var view = context.Render<ImpactStretchView>(p => p.Add(v => v.Stretch, new ImpactStretch(490, 0, lines)).Add(v => v.Sum, sum).Add(v => v.Last, 1000).Add(v => v.Shown, 490).Add(v => v.Names, new Dictionary<string, string> { ["NM-1"] = "<b>Name</b>" }).Add(v => v.Edition, TestEdition.Current));

        Assert.Equal(("490", "1000"), (view.Find("progress").GetAttribute("value"), view.Find("progress").GetAttribute("max")));
        Assert.StartsWith("490 of 1000 tried, 520 come out otherwise", view.Find(".step").TextContent, StringComparison.Ordinal);
        Assert.Equal(10, view.FindAll(".line a").Count);
        Assert.Contains("they are counted", view.FindAll(".line")[^1].TextContent, StringComparison.Ordinal);
        Assert.Equal("<b>Name</b>, recommendation: first was Back squat and is Pull-up; goes: Back squat; comes: Pull-up; 2 doses change.", view.FindAll(".line p")[0].TextContent);
    }
}
