using System.Net.Http.Headers;
using System.Text;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Recommendations;

/// <summary>Bodies that cannot be read.</summary>
[Collection(SharedApi.Name)]
public sealed class BodyProblemTests(ApiHost api)
{
    private const string Path = "/v1/recommendations";

    [Theory]
    [InlineData("", "", "not-json")]
    [InlineData("   ", "", "not-json")]
    [InlineData("not json", "", "not-json")]
    [InlineData("{\"phase\":", "/phase", "not-json")]
    [InlineData("{\"phase\":\"taper\",}", "", "not-json")]
    [InlineData("{} {}", "", "not-json")]
    [InlineData("null", "", "wrong-type")]
    [InlineData("[]", "", "wrong-type")]
    [InlineData("\"text\"", "", "wrong-type")]
    [InlineData("{\"weeksToCompetition\":NaN}", "/weeksToCompetition", "not-json")]
    [InlineData("{\"weeksToCompetition\":Infinity}", "/weeksToCompetition", "not-json")]
    [InlineData("{\"weeksToCompetition\":\"NaN\"}", "/weeksToCompetition", "wrong-type")]
    [InlineData("{\"weeksToCompetition\":1e400}", "/weeksToCompetition", "wrong-type")]
    [InlineData("{\"phase\":3}", "/phase", "wrong-type")]
    [InlineData("{\"athlete\":[]}", "/athlete", "wrong-type")]
    [InlineData("{\"complaints\":{}}", "/complaints", "wrong-type")]
    [InlineData("{\"complaints\":[{\"region\":\"knee\",\"pain\":3},{\"region\":\"knee\",\"pain\":\"3\"}]}", "/complaints/1/pain", "wrong-type")]
    [InlineData("{\"complaints\":[{\"region\":\"knee\",\"pain\":3.5}]}", "/complaints/0/pain", "wrong-type")]
    [InlineData("{\"complaints\":[{\"region\":\"knee\",\"pain\":99999999999}]}", "/complaints/0/pain", "wrong-type")]
    [InlineData("{\"count\":true}", "/count", "wrong-type")]
    [InlineData("{\"exclude\":[1]}", "/exclude/0", "wrong-type")]
    [InlineData("{\"tests\":{\"squatJumpCm\":\"47\"}}", "/tests/squatJumpCm", "wrong-type")]
    [InlineData("{\"tests\":{\"modifiedThomasPositive\":{\"left\":1}}}", "/tests/modifiedThomasPositive/left", "wrong-type")]
    [InlineData("{\"colour\":\"red\"}", "/colour", "unknown-property")]
    [InlineData("{\"Phase\":\"taper\"}", "/Phase", "unknown-property")]
    [InlineData("{\"athlete\":{\"eventGroup\":\"jumps\",\"name\":\"x\"}}", "/athlete/name", "unknown-property")]
    [InlineData("{\"complaints\":[{\"region\":\"knee\",\"pain\":1,\"colour\":\"red\"}]}", "/complaints/0/colour", "unknown-property")]
    [InlineData("{\"a/b~c\":1}", "/a~1b~0c", "unknown-property")]
    [InlineData("{\"a b.c\":1}", "/a b.c", "unknown-property")]
    [InlineData("{\"phase\":\"taper\",\"phase\":\"competition\"}", "/phase", "duplicate-property")]
    [InlineData("{\"athlete\":{\"event\":\"100m\",\"event\":\"200m\"}}", "/athlete/event", "duplicate-property")]
    [InlineData("{\"athlete\":{\"oneRepMaxKg\":{\"back-squat\":90,\"back-squat\":95}}}", "/athlete/oneRepMaxKg/back-squat", "duplicate-property")]
    public async Task A_body_that_cannot_be_read_is_told_by_pointer_and_code(string body, string pointer, string code)
    {
        using var response = await api.Post(Path, body);

        await ProblemAssert.Is(response, 400, "malformed-request", pointer, code);
    }

    [Theory]
    [InlineData("{\"phase\":\"\\ud800\"}")]
    [InlineData("{\"\\ud800\":1}")]
    [InlineData("{\"athlete\":{\"eventGroup\":\"jumps\",\"oneRepMaxKg\":{\"\\ud800\":1}},\"phase\":\"taper\"}")]
    [InlineData("{\"athlete\":{\"eventGroup\":\"jumps\",\"ref\":\"\\udc00\"},\"phase\":\"taper\"}")]
    public async Task Half_a_character_is_refused_not_a_failure(string body)
    {
        using var response = await api.Post(Path, body);

        await ProblemAssert.Is(response, 400, "malformed-request");
    }

    [Fact]
    public async Task Bytes_that_are_not_text_are_refused()
    {
        using var response = await api.Post(Path, [.. "{\"phase\":\""u8, 0xC3, 0x28, .. "\"}"u8]);

        await ProblemAssert.Is(response, 400, "malformed-request");
    }

    [Theory]
    [InlineData("[", "]")]
    [InlineData("{\"athlete\":", "}")]
    public async Task A_body_nested_a_thousand_deep_is_refused(string open, string close)
    {
        using var response = await api.Post(Path, string.Concat(Enumerable.Repeat(open, 1000)) + "1" + string.Concat(Enumerable.Repeat(close, 1000)));

        await ProblemAssert.Is(response, 400, "malformed-request");
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/xml")]
    [InlineData("application/x-www-form-urlencoded")]
    [InlineData("multipart/form-data; boundary=x")]
    public async Task Another_content_type_is_refused_and_told_the_right_one(string contentType)
    {
        var content = new ByteArrayContent(Encoding.UTF8.GetBytes(Examples.Minimal()));
        content.Headers.ContentType = MediaTypeHeaderValue.Parse(contentType);

        using var response = await api.Send(Path, content);

        var problem = await ProblemAssert.Is(response, 415, "unsupported-media-type");
        Assert.Contains("application/json", (string)problem["detail"]!);
    }

    [Fact]
    public async Task No_content_type_is_refused()
    {
        using var response = await api.Send(Path, new ByteArrayContent(Encoding.UTF8.GetBytes(Examples.Minimal())));

        await ProblemAssert.Is(response, 415, "unsupported-media-type");
    }

    [Fact]
    public async Task A_charset_beside_the_content_type_is_welcome()
    {
        using var response = await api.Send(Path, new StringContent(Examples.Minimal(), Encoding.UTF8, "application/json"));

        Assert.Equal(200, (int)response.StatusCode);
    }

    [Theory]
    [InlineData(Path, 256, true)]
    [InlineData(Path, 256, false)]
    [InlineData("/v1/recommendations/batch", 4096, true)]
    [InlineData("/v1/recommendations/batch", 4096, false)]
    public async Task A_body_over_the_limit_is_refused_with_and_without_a_length(string path, int limitKb, bool withLength)
    {
        using var atLimit = await Sized(path, limitKb * 1024, withLength);
        using var above = await Sized(path, (limitKb * 1024) + 1, withLength);

        await ProblemAssert.Is(atLimit, 422, "invalid-request");
        await ProblemAssert.Is(above, 413, "body-too-large");
    }

    [Theory]
    [InlineData("{\"athlete\":{\"eventGroup\":\"jumps\",\"ref\":null},\"phase\":\"taper\",\"complaints\":null,\"setting\":null,\"tests\":null,\"only\":null,\"count\":null}")]
    [InlineData("\t\r\n {\"athlete\":{\"eventGroup\":\"jumps\"},\"phase\":\"taper\"} \r\n")]
    public async Task An_explicit_null_counts_as_absent_and_white_space_does_not_matter(string body)
    {
        var answer = await api.Answer(Path, body);

        Assert.Equal("answered", (string)answer["status"]!);
        Assert.Contains(answer["assumed"]!.AsArray(), a => (string)a!["pointer"]! == "/count");
    }

    private Task<HttpResponseMessage> Sized(string path, int bytes, bool withLength)
    {
        var body = "{}"u8.ToArray().Concat(Enumerable.Repeat((byte)' ', bytes - 2)).ToArray();
        HttpContent content = withLength ? new ByteArrayContent(body) : new StreamContent(new Unsized(body));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return api.Send(path, content);
    }

    /// <summary>A stream whose length nobody can ask.</summary>
    private sealed class Unsized(byte[] body) : MemoryStream(body)
    {
        public override bool CanSeek => false;
    }
}
