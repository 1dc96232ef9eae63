using System.Text;
using Recommender.Answers.Wire;
using Recommender.Domain.Requests;

namespace Recommender.Answers.Tests.Wire;

public sealed class RequestReaderTests
{
    [Fact]
    public void Reads_every_field_of_a_request()
    {
        var request = RequestReader.Read<RecommendationRequest>(FullRequest.Utf8, out var fault);

        Assert.Null(fault);
        Assert.All(typeof(RecommendationRequest).GetProperties().Where(p => p.Name is not ("EqualityContract" or "WeeksToCompetition" or "Read")), p => Assert.NotNull(p.GetValue(request)));
        Assert.Equal(5.5m, RequestReader.Read<RecommendationRequest>("""{ "weeksToCompetition": 5.5 }"""u8, out _)!.WeeksToCompetition); // competitions stand instead of weeks
        Assert.All(typeof(AthleteFacts).GetProperties().Where(p => p.Name != "EqualityContract"), p => Assert.NotNull(p.GetValue(request!.Athlete)));
        Assert.Equal(62.5m, request!.Athlete!.OneRepMaxKg!["power-clean"]);
        Assert.Equal("after the long run", request.Complaints![0].Note);
        Assert.Equal(12.5m, request.Tests!.KneeToWallCm!.Right);
    }

    [Fact]
    public void Null_is_as_good_as_left_out()
    {
        var request = RequestReader.Read<RecommendationRequest>("""{ "phase": null, "athlete": { "ref": null, "ageYears": null }, "complaints": null }"""u8, out var fault);

        Assert.Null(fault);
        Assert.Equal(new RecommendationRequest { Athlete = new AthleteFacts() }, request);
    }

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("{")]
    [InlineData("{]")]
    [InlineData("{,}")]
    [InlineData("{} x")]
    [InlineData("{}{}")]
    [InlineData("{'phase':1}")]
    [InlineData("{/* why */}")]
    [InlineData("{\"phase\":\"a\",}")]
    [InlineData("\uFEFF{}")]
    public void What_is_not_JSON_is_told_for_the_whole_body(string body) => Refuses(body, "", "not-json");

    [Theory]
    [InlineData("{\"count\":NaN}", "/count")]
    [InlineData("{\"weeksToCompetition\":-Infinity}", "/weeksToCompetition")]
    [InlineData("{\"count\":01}", "/count")]
    [InlineData("{\"phase\":tru}", "/phase")]
    [InlineData("{\"phase\":tuplicate}", "/phase")]
    [InlineData("{\"phase\":}", "/phase")]
    [InlineData("{\"phase\":\"open", "/phase")]
    [InlineData("{\"phase\":\"tab\there\"}", "/phase")]
    [InlineData("{\"complaints\":[{\"pain\":3}, {\"pain\":}]}", "/complaints/1/pain")]
    public void What_is_not_JSON_is_told_where_it_is(string body, string pointer) => Refuses(body, pointer, "not-json");

    [Fact]
    public void The_place_of_a_slip_is_told_by_line_and_byte_from_one() =>
        Assert.Contains("line 3, byte 12", Refuses("{\n  \"phase\": \"taper\",\n  \"count\": ?\n}", "/count", "not-json").Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("{\"phase\":\"\\ud800\"}", "/phase")]
    [InlineData("{\"\\ud800\":1}", "")]
    [InlineData("{\"athlete\":{\"oneRepMaxKg\":{\"\\udc00\":1}}}", "/athlete/oneRepMaxKg")]
    public void Half_a_character_is_told_as_such(string body, string pointer) => Assert.Contains("not Unicode", Refuses(body, pointer, "not-json").Message, StringComparison.Ordinal);

    [Fact]
    public void Bytes_that_are_no_text_are_told_as_such() =>
        Assert.Contains("not Unicode", Refuses([.. "{\"phase\":\""u8, 0xC3, 0x28, .. "\"}"u8], "/phase", "not-json").Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("null", "")]
    [InlineData("[]", "")]
    [InlineData("7", "")]
    [InlineData("\"text\"", "")]
    [InlineData("{\"athlete\":[]}", "/athlete")]
    [InlineData("{\"athlete\":\"NM-04\"}", "/athlete")]
    [InlineData("{\"phase\":7}", "/phase")]
    [InlineData("{\"phase\":{}}", "/phase")]
    [InlineData("{\"count\":\"6\"}", "/count")]
    [InlineData("{\"count\":true}", "/count")]
    [InlineData("{\"complaints\":{}}", "/complaints")]
    [InlineData("{\"complaints\":[7]}", "/complaints/0")]
    [InlineData("{\"complaints\":[{},{\"redFlags\":[\"a\",1]}]}", "/complaints/1/redFlags/1")]
    [InlineData("{\"tests\":{\"dropJump\":5}}", "/tests/dropJump")]
    [InlineData("{\"tests\":{\"modifiedThomasPositive\":{\"left\":\"yes\"}}}", "/tests/modifiedThomasPositive/left")]
    [InlineData("{\"tests\":{\"loadedJumps\":[{\"loadKg\":\"x\"}]}}", "/tests/loadedJumps/0/loadKg")]
    [InlineData("{\"athlete\":{\"oneRepMaxKg\":{\"back-squat\":null}}}", "/athlete/oneRepMaxKg/back-squat")]
    public void A_wrong_JSON_type_is_told_by_pointer(string body, string pointer) => Refuses(body, pointer, "wrong-type");

    [Theory]
    [InlineData("{\"count\":6.5}", "/count")]
    [InlineData("{\"count\":1e2}", "/count")]
    [InlineData("{\"count\":99999999999}", "/count")]
    [InlineData("{\"weeksToCompetition\":1e60}", "/weeksToCompetition")]
    [InlineData("{\"complaints\":[{\"pain\":3.5}]}", "/complaints/0/pain")]
    public void A_number_that_does_not_fit_is_told_as_such(string body, string pointer) => Assert.Contains("number", Refuses(body, pointer, "wrong-type").Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("{\"colour\":1}", "/colour", "colour")]
    [InlineData("{\"Phase\":\"a\"}", "/Phase", "Phase")]
    [InlineData("{\"\":1}", "/", "")]
    [InlineData("{\"athlete\":{\"colour\":1}}", "/athlete/colour", "colour")]
    [InlineData("{\"complaints\":[{},{\"colour\":1}]}", "/complaints/1/colour", "colour")]
    [InlineData("{\"tests\":{\"kneeToWallCm\":{\"middle\":1}}}", "/tests/kneeToWallCm/middle", "middle")]
    [InlineData("{\"a.b\":1}", "/a.b", "a.b")]
    [InlineData("{\"a b\":1}", "/a b", "a b")]
    [InlineData("{\"a[0]\":1}", "/a[0]", "a[0]")]
    [InlineData("{\"it's\":1}", "/it's", "it's")]
    [InlineData("{\"a']b\":1}", "/a']b", "a']b")]
    [InlineData("{\"']\":1}", "/']", "']")]
    [InlineData("{\"'\":1}", "/'", "'")]
    [InlineData("{\"a/b~c~1\":1}", "/a~1b~0c~01", "a/b~c~1")]
    [InlineData("{\"say \\\"hi\\\"\":1}", "/say \"hi\"", "say \"hi\"")]
    [InlineData("{\"duplicate\":1}", "/duplicate", "duplicate")]
    [InlineData("{\"colour\":[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]}", "/colour", "colour")]
    public void An_unknown_property_is_told_by_pointer_and_name(string body, string pointer, string name) =>
        Assert.StartsWith($"\"{name}\" is not a property here", Refuses(body, pointer, "unknown-property").Message, StringComparison.Ordinal);

    [Fact]
    public void A_name_without_end_is_pointed_to_and_shown_in_short()
    {
        var name = new string('x', 5000);

        Assert.InRange(Refuses($"{{\"{name}\":1}}", "/" + name, "unknown-property").Message.Length, 1, 200);
    }

    [Theory]
    [InlineData("{\"phase\":\"a\",\"phase\":\"b\"}", "/phase", "phase")]
    [InlineData("{\"athlete\":{\"ref\":\"a\",\"ref\":\"b\"}}", "/athlete/ref", "ref")]
    [InlineData("{\"complaints\":[{\"pain\":1,\"pain\":1}]}", "/complaints/0/pain", "pain")]
    [InlineData("{\"tests\":{\"dropJump\":{\"dropCm\":1,\"dropCm\":2}}}", "/tests/dropJump/dropCm", "dropCm")]
    [InlineData("{\"athlete\":{\"oneRepMaxKg\":{\"back-squat\":1,\"back-squat\":2}}}", "/athlete/oneRepMaxKg/back-squat", "back-squat")]
    [InlineData("{\"athlete\":{\"oneRepMaxKg\":{\"it's\":1,\"it's\":2}}}", "/athlete/oneRepMaxKg/it's", "it's")]
    public void A_property_that_stands_twice_is_told_by_pointer_and_name(string body, string pointer, string name) =>
        Assert.StartsWith($"\"{name}\" stands twice", Refuses(body, pointer, "duplicate-property").Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("{\"upsert\":[{\"id\":\"a\",\"id\":\"b\"}]}")]
    [InlineData("{\"upsert\":[{\"x\":{\"y\":[{\"z\":1,\"z\":2}]}}]}")]
    public void So_is_one_inside_what_is_read_as_it_stands(string body)
    {
        Assert.Null(RequestReader.Read<CatalogueDraft>(Encoding.UTF8.GetBytes(body), out var fault));

        Assert.Equal("duplicate-property", fault!.Code);
    }

    [Fact]
    public void Pointers_of_a_batch_run_through_the_list()
    {
        Assert.Null(RequestReader.Read<RecommendationBatch>("""{ "requests": [{}, { "complaints": [{ "pain": "3" }] }] }"""u8, out var fault));

        Assert.Equal("/requests/1/complaints/0/pain", fault!.Pointer);
    }

    private static Fault Refuses(string body, string pointer, string code) => Refuses(Encoding.UTF8.GetBytes(body), pointer, code);

    /// <summary>Requires this pointer and code, and a message without a word about our types.</summary>
    private static Fault Refuses(byte[] body, string pointer, string code)
    {
        Assert.Null(RequestReader.Read<RecommendationRequest>(body, out var fault));
        Assert.Equal((pointer, code), (fault!.Pointer, fault.Code));
        Assert.DoesNotContain("Recommender", fault.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("System", fault.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", fault.Message, StringComparison.Ordinal);
        return fault;
    }
}
