using System.Globalization;
using System.Text.Json.Nodes;

namespace Recommender.Api.Tests.Hosting;

/// <summary>What the document says about a request, held against what the service does at and beyond each limit.</summary>
[Collection(SharedApi.Name)]
public sealed class RequestLimitTests(ApiHost api)
{
    // Where a schema stands in a body, and what must stand around it so that nothing else is wrong.
    private static readonly (string Schema, string Pointer, string Around)[] Places =
    [
        ("RecommendationRequest", "", "{}"),
        ("AthleteFacts", "/athlete", "{\"eventGroup\":\"jumps\"}"),
        ("Restriction", "/athlete/restrictions/0", "{\"region\":\"hip\",\"maxTissueLoad\":3,\"maxLoadingRate\":\"slow\"}"),
        ("Clearance", "/athlete/clearances/0", "{\"flag\":\"recent-surgery\",\"daysAgo\":3}"),
        ("EarlierInjury", "/athlete/history/0", "{\"region\":\"hip\",\"monthsAgo\":3}"),
        ("LayoffFacts", "/athlete/layoff", "{\"weeks\":3}"),
        ("SettingFacts", "/setting", "{}"),
        ("Complaint", "/complaints/0", "{\"region\":\"knee\",\"pain\":1}"),
        ("CoachNeed", "/needs/0", "{\"quality\":\"grip\"}"),
        ("RecentWork", "/recent/0", "{\"exercise\":\"back-squat\",\"daysAgo\":9}"),
        ("SessionRating", "/sessionRatings/0", "{\"daysAgo\":1,\"effort\":5,\"minutes\":60}"),
        ("OnlyFilter", "/only", "{}"),
        ("TestResults", "/tests", "{}"),
        ("LoadedJump", "/tests/loadedJumps/0", "{}"),
        ("SprintSplit", "/tests/sprintSplits/0", "{}"),
        ("LiftToFailure", "/tests/repetitionsToFailure/back-squat", "{}"),
        ("YBalanceResult", "/tests/yBalance", "{}"),
        ("YBalanceReach", "/tests/yBalance/left", "{}"),
        ("RatingBySide", "/tests/singleLegSquatRating", "{}"),
    ];

    [Fact]
    public async Task Every_limit_in_the_document_is_the_limit_that_is_enforced()
    {
        var document = await ServedDocument.Of(api);
        var tried = 0;
        foreach (var (schema, pointer, around) in Places)
        {
            foreach (var (name, property) in document.Root["components"]!["schemas"]![schema]!["properties"]!.AsObject())
            {
                foreach (var (value, allowed) in Edges(property!.AsObject()))
                {
                    var at = $"{pointer}/{name}";
                    using var response = await api.Post("/v1/recommendations", Body(pointer, around, name, value));

                    var text = await response.Content.ReadAsStringAsync();
                    var refused = (int)response.StatusCode is 422 or 400 && text.Contains($"\"pointer\":\"{at}", StringComparison.Ordinal);
                    Assert.True(allowed != refused, $"{at} = {Short(value)} is {(allowed ? "allowed" : "refused")} by the document, but {text[..Math.Min(text.Length, 400)]}");
                    Assert.True(allowed == document.Faults("RecommendationRequest", Body(pointer, around, name, value)).Count is 0, $"{at} = {Short(value)}: the validator disagrees");
                    tried++;
                }
            }
        }

        Assert.True(tried > 120, $"only {tried} values were tried");
    }

    [Fact]
    public async Task Every_property_that_the_document_calls_optional_may_be_null()
    {
        var document = await ServedDocument.Of(api);
        foreach (var (schema, pointer, around) in Places)
        {
            var shape = document.Root["components"]!["schemas"]![schema]!.AsObject();
            var required = shape["required"]?.AsArray().Select(r => (string)r!).ToHashSet() ?? [];
            foreach (var (name, _) in shape["properties"]!.AsObject())
            {
                if (schema == "AthleteFacts" && name == "eventGroup")
                {
                    continue;
                }

                using var response = await api.Post("/v1/recommendations", Body(pointer, around, name, null));

                Assert.Equal(required.Contains(name) ? 422 : 200, (int)response.StatusCode);
            }
        }
    }

    /// <summary>Values at and just beyond what a schema allows.</summary>
    private static IEnumerable<(JsonNode Value, bool Allowed)> Edges(JsonObject schema)
    {
        var whole = schema["type"] is { } type && type.ToJsonString().Contains("integer", StringComparison.Ordinal);
        var step = whole ? 1m : 0.01m;
        if (schema["minimum"] is { } minimum)
        {
            var low = decimal.Parse(minimum.ToJsonString(), CultureInfo.InvariantCulture);
            yield return (low, true);
            yield return (low - step, false);
        }

        if (schema["maximum"] is { } maximum)
        {
            var high = decimal.Parse(maximum.ToJsonString(), CultureInfo.InvariantCulture);
            yield return (high, true);
            yield return (high + step, false);
        }

        if (schema["maxLength"] is { } longest)
        {
            yield return (new string('x', (int)longest), true);
            yield return (new string('x', (int)longest + 1), false);
        }

        if (schema["minLength"] is not null)
        {
            yield return ("", false);
        }

        if (schema["enum"] is JsonArray words)
        {
            foreach (var word in words.Where(w => w is not null))
            {
                yield return (word!.DeepClone(), true);
            }

            yield return ("no-such-word", false);
        }

        if (schema["items"]?["enum"] is JsonArray itemWords)
        {
            yield return (itemWords.DeepClone(), true);
            yield return (new JsonArray("no-such-word"), false);
        }

        if (schema["maxItems"] is { } most && schema["items"]?["$ref"] is not null)
        {
            yield return (new JsonArray([.. Enumerable.Range(0, (int)most + 1).Select(_ => new JsonObject())]), false);
        }

        if (schema["items"]?["pattern"] is not null)
        {
            yield return (new JsonArray([.. Enumerable.Range(0, (int)schema["maxItems"]! + 1).Select(_ => JsonValue.Create("quiet"))]), false);
        }
    }

    private static string Body(string pointer, string around, string name, JsonNode? value)
    {
        var inner = JsonNode.Parse(around)!.AsObject();
        inner[name] = value?.DeepClone();
        JsonNode part = inner;
        var path = pointer.Split('/', StringSplitOptions.RemoveEmptyEntries);
        foreach (var step in path.Reverse().SkipLast(1))
        {
            part = step == "0" ? new JsonArray(part) : new JsonObject { [step] = part };
        }

        return Examples.Minimal(b =>
        {
            if (path is ["athlete", _, ..])
            {
                part["eventGroup"] = "jumps";
            }

            if (path.Length > 0)
            {
                b[path[0]] = part;
                return;
            }

            b[name] = value?.DeepClone();
        });
    }

    private static string Short(JsonNode value) => value.ToJsonString() is { Length: > 60 } text ? text[..60] + "..." : value.ToJsonString();
}
