using CsCheck;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.WebUtilities;
using Recommender.Answers.Wire;
using Recommender.Domain.Requests;
using Recommender.Pages.Decisions;
using Recommender.Storage.Decisions;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Decisions;

public sealed class DecisionSearchTests
{
    private const string Catalogue = "f201df0a1676dc8f3fcb4f47b5567dd4";
    private static readonly AthleteProfile[] Squad = [new AthleteProfile("NM-04", "Solveig Amadi", new AthleteFacts { Event = "long-jump" }, null, null, null, null, null)];

    [Fact]
    public void Names_stand_for_refs_and_ids_and_the_beginning_of_a_version_for_the_whole()
    {
        var search = Of("?athlete=solveig%20amadi&exercise=back%20squat&version=f201df&kind=session&status=referred&coach=HC-1");

        Assert.Equal(new DecisionFilter { Athlete = "NM-04", Exercise = "back-squat", Version = Catalogue, Kind = "session", Status = "referred", Coach = "HC-1" }, search.Filter);
        Assert.Empty(search.Faults);
        Assert.Equal("solveig amadi", search.Typed["athlete"]);
    }

    [Fact]
    public void The_last_day_counts_whole_and_in_utc()
    {
        var search = Of("?from=2026-03-01&to=2026-03-01");

        Assert.Equal(new DateTimeOffset(2026, 3, 1, 0, 0, 0, TimeSpan.Zero), search.Filter.From);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 0, 0, 0, TimeSpan.Zero), search.Filter.To);
        Assert.Empty(search.Faults);
    }

    [Theory]
    [InlineData("?from=yesterday", "from")]
    [InlineData("?to=2026-02-30", "to")]
    [InlineData("?from=2026-03-02&to=2026-03-01", "to")]
    [InlineData("?kind=plan", "kind")]
    [InlineData("?status=done", "status")]
    [InlineData("?after=nonsense", "after")]
    public void What_cannot_be_used_is_told_and_stays_typed(string query, string field)
    {
        var search = Of(query);

        Assert.Equal([field], search.Faults.Keys);
        Assert.True(field == "after" || search.Typed.ContainsKey(field));
    }

    [Fact]
    public void An_exercise_that_left_the_catalogue_may_be_searched_for() => Assert.Equal("gone-since", Of("?exercise=gone-since").Filter.Exercise);

    /// <summary>An address of the next page searches for the same and goes on at the place.</summary>
    [Fact]
    public void The_address_of_a_page_says_what_was_typed_and_where_it_goes_on() =>
        Gen.Select(Gen.String[0, 20].Array[8], Gen.Long[0, 253_402_300_799_999], Gen.Long[1, long.MaxValue]).Sample((texts, time, sequence) =>
        {
            var typed = Of("?" + string.Join('&', DecisionSearch.Fields.Zip(texts, (f, t) => $"{f}={Uri.EscapeDataString(t)}")));
            var place = new DecisionPlace(DateTimeOffset.FromUnixTimeMilliseconds(time), sequence);
            var next = Of(typed.Address(place)["/decisions".Length..]);

            Assert.Equal(typed.Filter, next.Filter);
            Assert.Equal(typed.Typed.OrderBy(t => t.Key), next.Typed.OrderBy(t => t.Key));
            Assert.Equal(place, next.After);
        });

    [Fact]
    public void An_export_asks_for_what_the_page_found()
    {
        var export = QueryHelpers.ParseQuery(Of("?athlete=Solveig%20Amadi&to=2026-03-01&from=nonsense&version=f201df").Export("csv").Split('?')[1]);

        Assert.Equal(["athlete=NM-04", "format=csv", "to=2026-03-01", $"version={Catalogue}"], export.Select(p => $"{p.Key}={p.Value}").Order(StringComparer.Ordinal));
    }

    private static DecisionSearch Of(string query) => DecisionSearch.Of(new QueryCollection(QueryHelpers.ParseQuery(query)), Squad, TestEdition.Current.Catalogue, [Catalogue, "13154901435d28aa038a8aba35baea66"]);
}
