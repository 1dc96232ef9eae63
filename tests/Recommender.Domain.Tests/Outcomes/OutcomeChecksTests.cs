using Recommender.Domain.Outcomes;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Outcomes;

public sealed class OutcomeChecksTests
{
    private static readonly string[] Picks = ["front-squat", "spanish-squat-hold"];

    private static OutcomeReport Used => new() { Exercise = "front-squat", Verdict = "used" };

    [Fact]
    public void A_whole_report_has_no_faults() => Assert.Empty(Faults(Used with
    {
        Done = [new WorkDone { Sets = 3, Amount = 5, LoadKg = 80, RepsInReserve = 2 }],
        PainDuring = 2,
        PainNextMorning = 0,
        Effort = 6.5m,
        Note = "<b>fine</b>",
    }));

    [Fact]
    public void Everything_that_is_wrong_is_told_at_once() =>
        Assert.Equal(["/done/0/amount out-of-range", "/done/0/sets required", "/effort out-of-range", "/exercise not-picked", "/note out-of-range", "/painDuring out-of-range", "/painNextMorning out-of-range", "/verdict unknown-id"],
            Faults(new OutcomeReport { Exercise = "depth-jump", Verdict = "liked", PainDuring = 11, PainNextMorning = -1, Effort = 10.5m, Note = new string('x', 501), Done = [new WorkDone { Amount = 0 }] }));

    [Theory]
    [InlineData("swapped", null, "/replacedBy required")]
    [InlineData("swapped", "no-such", "/replacedBy unknown-id")]
    [InlineData("swapped", "front-squat", "/replacedBy contradiction")]
    [InlineData("used", "depth-jump", "/replacedBy contradiction")]
    [InlineData("declined", "depth-jump", "/replacedBy contradiction")]
    public void What_was_done_instead_fits_the_verdict(string verdict, string? replacedBy, string fault) =>
        Assert.Equal([fault], Faults(new OutcomeReport { Exercise = "front-squat", Verdict = verdict, ReplacedBy = replacedBy }));

    [Fact]
    public void What_was_declined_cannot_have_hurt() =>
        Assert.Equal(["/painDuring contradiction"], Faults(new OutcomeReport { Exercise = "front-squat", Verdict = "declined", PainDuring = 3 }));

    [Fact]
    public void A_pick_that_was_asked_for_is_named() =>
        Assert.Contains("front-squat, spanish-squat-hold", OutcomeChecks.Of(new OutcomeReport { Verdict = "used" }, Picks, TestEdition.Current.Catalogue).Single().Message, StringComparison.Ordinal);

    private static string[] Faults(OutcomeReport report) => [.. OutcomeChecks.Of(report, Picks, TestEdition.Current.Catalogue).Select(f => $"{f.Pointer} {f.Code}").Order(StringComparer.Ordinal)];
}
