using Bunit;
using Recommender.Answers;
using Recommender.Pages.Decisions;
using Recommender.Storage.Decisions;

namespace Recommender.Pages.Tests.Decisions;

public sealed class WalkStepTests
{
    [Fact]
    public void A_break_is_named_by_its_place_with_the_reason_and_the_way_to_it()
    {
        var text = Shown(new ChainCheck(299, new byte[32], new ChainBreak("d-300", 300, "The record does not fit its hash."), false));

        Assert.Contains("The record does not hold.", text.Find(".step").TextContent, StringComparison.Ordinal);
        Assert.Contains("Broken at record 300: The record does not fit its hash. The 299 records before it fit.", text.Find(".line").TextContent, StringComparison.Ordinal);
        Assert.Equal("/decisions/d-300", text.FindAll("a")[0].GetAttribute("href"));
        Assert.Contains("No record carries the hash you noted", text.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_whole_record_says_so_and_gives_the_hash_to_note()
    {
        var head = new byte[32];
        head[0] = 0xab;
        var text = Shown(new ChainCheck(2, head, null, null));

        Assert.Equal("The record is whole.", text.Find(".step").TextContent);
        Assert.Equal("ab" + new string('0', 62), text.Find("code").TextContent);
        Assert.DoesNotContain("noted.", text.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_walk_on_its_way_is_drawn_and_said()
    {
        using var context = new BunitContext();
        var step = context.Render<WalkStep>(p => p.Add(s => s.Step, new ChainStep(400, null)).Add(s => s.Most, 1000));

        Assert.Equal(("400", "1000"), (step.Find("progress").GetAttribute("value"), step.Find("progress").GetAttribute("max")));
        Assert.StartsWith("400 of 1000 decisions fit so far.", step.Find(".step").TextContent, StringComparison.Ordinal);
    }

    private static IRenderedComponent<WalkStep> Shown(ChainCheck check)
    {
        var context = new BunitContext();
        return context.Render<WalkStep>(p => p.Add(s => s.Step, new ChainStep(check.Checked, check)).Add(s => s.Most, check.Checked));
    }
}
