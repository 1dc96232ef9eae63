using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Sessions;

public sealed class SessionChecksTests
{
    private static readonly SessionRequest Good = new() { Context = RequestBuilder.For() };

    private static void Told(SessionRequest request, string pointer, string code)
    {
        var fault = Assert.Single(SessionChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge));
        Assert.Equal((pointer, code), (fault.Pointer, fault.Code));
    }

    [Fact]
    public void A_plain_request_has_no_fault() => Assert.Empty(SessionChecks.Of(Good, TestEdition.Current.Catalogue, TestEdition.Knowledge));

    [Fact]
    public void The_context_is_needed() => Told(new SessionRequest(), "/context", "required");

    [Fact]
    public void Faults_of_the_context_point_into_it() => Told(Good with { Context = Good.Context! with { Phase = "spring" } }, "/context/phase", "unknown-id");

    [Theory]
    [InlineData(5, 4, "/slots/min", "contradiction")]
    [InlineData(0, 4, "/slots/min", "out-of-range")]
    [InlineData(1, 13, "/slots/max", "out-of-range")]
    public void Slots_must_make_sense(int min, int max, string pointer, string code) => Told(Good with { Slots = new SlotRange { Min = min, Max = max } }, pointer, code);

    [Theory]
    [InlineData("tail", 100, "unknown-id")]
    [InlineData("hip", 0, "out-of-range")]
    [InlineData("hip", 100_001, "out-of-range")]
    public void Budgets_must_make_sense(string region, decimal budget, string code) => Told(Good with { Budgets = new Dictionary<string, decimal> { [region] = budget } }, $"/budgets/{region}", code);

    [Fact]
    public void An_unknown_exercise_is_told_wherever_it_stands()
    {
        Told(Good with { Locked = ["sit-around"] }, "/locked/0", "unknown-id");
        Told(Good with { Avoid = ["goblet-squat", "sit-around"] }, "/avoid/1", "unknown-id");
    }

    [Fact]
    public void Locks_that_cannot_all_hold_are_told()
    {
        Told(Good with { Locked = ["goblet-squat"], Avoid = ["goblet-squat"] }, "/locked/0", "contradiction");
        Told(Good with { Locked = ["goblet-squat"], Context = Good.Context! with { Exclude = ["goblet-squat"] } }, "/locked/0", "contradiction");
        Told(Good with { Locked = ["goblet-squat", "goblet-squat"] }, "/locked/1", "contradiction");
        Told(Good with { Locked = ["back-squat", "front-squat"] }, "/locked/1", "contradiction");
        Told(Good with { Locked = ["goblet-squat", "power-clean"], Slots = new SlotRange { Max = 1 } }, "/locked", "contradiction");
    }

    [Fact]
    public void An_earlier_decision_is_named_by_its_id() => Told(Good with { PreviousDecision = "yesterday" }, "/previousDecision", "unknown-id");

    [Theory]
    [InlineData(null, 5, 60, "daysAgo", "required")]
    [InlineData(1, 11, 60, "effort", "out-of-range")]
    [InlineData(1, 5, 0, "minutes", "out-of-range")]
    public void Session_ratings_must_make_sense(int? daysAgo, int effort, int minutes, string field, string code) =>
        Told(Good with { Context = Good.Context! with { SessionRatings = [new SessionRating { DaysAgo = daysAgo, Effort = effort, Minutes = minutes }] } }, $"/context/sessionRatings/0/{field}", code);
}
