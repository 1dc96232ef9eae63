using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>Requests to every operation of the document: four in ten as it allows them, four nearly so, two broken. The same seed and number give the same request.</summary>
/// <param name="document">The document.</param>
/// <param name="ids">Ids by the name of the list that holds them.</param>
/// <param name="examples">Bodies by operation that the document shows.</param>
public sealed class CaseMaker(ApiDocument document, IReadOnlyDictionary<string, string[]> ids, IReadOnlyDictionary<string, JsonNode[]> examples)
{
    private const int UsualWeight = 60;

    /// <summary>What takes long by its nature is asked less often: a walk along the chain, an export of everything, a check of a whole edition.</summary>
    private static readonly Dictionary<string, int> Weights = new(StringComparer.Ordinal)
    {
        ["recommend"] = 240,
        ["substitute"] = 160,
        ["composeSession"] = 120,
        ["analyseNeeds"] = 120,
        ["verifyDecisions"] = 1,
        ["exportDecisions"] = 2,
        ["draftCatalogue"] = 2,
        ["draftRules"] = 2,
        ["tryCatalogueVersion"] = 1,
        ["tryRulesVersion"] = 1,
        ["publishCatalogue"] = 1,
        ["publishRules"] = 1,
        ["findCounterfactuals"] = 4,
        ["analyseSensitivity"] = 4,
        ["replayDecision"] = 8,
        ["recommendBatch"] = 12,
        ["substituteBatch"] = 12,
        ["getCatalogueVersion"] = 3,
        ["getRulesVersion"] = 3,
        ["compareCatalogueVersions"] = 4,
        ["compareRulesVersions"] = 4,
        ["getVocabulary"] = 6,
        ["listAthletes"] = 6,
        ["listDecisions"] = 30,
        ["listExercises"] = 30,
    };

    private static readonly string[] ContentTypes =
        ["text/plain", "application/xml", "multipart/form-data; boundary=x", "application/x-www-form-urlencoded", "application/json; charset=utf-16", "application/json;charset=\"x\\\"", "APPLICATION/JSON", "application/ld+json", "json", ";", "*/*"];

    private static readonly string[] Methods = ["PATCH", "DELETE", "PUT", "POST", "GET", "HEAD", "OPTIONS", "TRACE", "PROPFIND", "QUERY"];

    private static readonly (string Name, string Value)[] OddHeaders =
    [
        ("Accept", "text/html"), ("Accept", "application/xml;q=1, */*;q=0"), ("Accept", ";;;"), ("If-None-Match", "*"), ("If-Modified-Since", "never"), ("Range", "bytes=0-1,5-3"), ("X-HTTP-Method-Override", "DELETE"),
        ("X-Forwarded-For", "127.0.0.1"), ("X-Forwarded-Host", "example.invalid"), ("Forwarded", "for=\"_gazonk\""), ("Cookie", "form-token=" + HostileText.Mark), ("Origin", "http://example.invalid"), ("Expect", "something"),
        ("Accept-Encoding", "gzip;q=0, br;q=9"), ("Accept-Language", "x-" + HostileText.Mark), ("Authorization", "Bearer null"), ("traceparent", "00-zz-zz-zz"), ("TE", "trailers"), ("Idempotency-Key", " "),
    ];

    private readonly ValueMaker values = new(document, ids);
    private readonly Operation[] drawn = [.. document.Operations.SelectMany(o => Enumerable.Repeat(o, Weights.GetValueOrDefault(o.Id, UsualWeight)))];

    /// <summary>The request of a number.</summary>
    /// <param name="seed">Seed of the run.</param>
    /// <param name="number">Number in the run; the first of a run go through the operations in order, so that each comes up in a small share too.</param>
    public FuzzCase Make(ulong seed, int number)
    {
        var random = new PCG((uint)number, seed);
        var operation = number < document.Operations.Count * 4 ? document.Operations[number % document.Operations.Count] : drawn[random.Next((uint)drawn.Length)];
        var making = random.Next(10) switch { < 4 => Making.Valid, < 8 => Making.Nearly, _ => Making.Broken };
        var body = operation.Body is null || (!operation.BodyRequired && random.Next(2) == 0) ? null : Body(random, operation);
        var made = new FuzzCase(operation, making, operation.Method, Target(random, operation, making), Headers(random, operation, making), body is null ? null : "application/json", null, body is null ? null : Bytes(body), false, false);
        return making switch
        {
            Making.Valid => made,
            Making.Nearly when body is not null && BodySpoiler.Nearly(random, body) is var (spoiled, mustRefuse) => made with { Body = spoiled, MustRefuse = mustRefuse },
            Making.Nearly => made,
            _ => Broken(random, made, body),
        };
    }

    private JsonNode? Body(PCG random, Operation operation)
    {
        if (examples.TryGetValue(operation.Id, out var shown) && shown.Length > 0 && random.Next(3) == 0)
        {
            return shown[random.Next((uint)shown.Length)].DeepClone();
        }

        var body = values.Value(random, operation.Body!, "");
        if (body?["last"] is not null)
        {
            // A trial of a version on thousands of decisions is slow by its nature, not a hostile request.
            body["last"] = 1 + random.Next(40);
        }

        if (operation.Id == "saveAthlete" && body is JsonObject profile)
        {
            profile.Remove("ref");
        }

        return body;
    }

    private string Target(PCG random, Operation operation, Making making)
    {
        var path = operation.Path;
        var query = new List<string>();
        foreach (var (name, place, schema, required) in operation.Parameters)
        {
            if (place == "path")
            {
                path = path.Replace($"{{{name}}}", Escaped(random, making, PathId(random, operation, name)), StringComparison.Ordinal);
            }
            else if (place == "query" && (required || random.Next(4) == 0) && !(making != Making.Valid && random.Next(8) == 0))
            {
                var value = making != Making.Valid && random.Next(3) == 0 ? Hostile(random) : values.Value(random, schema, name)?.ToString() ?? "";
                query.Add($"{name}={Uri.EscapeDataString(Whole(value))}");
                if (making != Making.Valid && random.Next(12) == 0)
                {
                    query.Add(query[^1]);
                }
            }
        }

        if (making != Making.Valid && random.Next(10) == 0)
        {
            query.Add(random.Next(4) switch { 0 => "colour=red", 1 => "&&==&", 2 => "%", _ => "x=" + Uri.EscapeDataString(Whole(Hostile(random))) });
        }

        return query.Count == 0 ? path : $"{path}?{string.Join('&', query)}";
    }

    private string PathId(PCG random, Operation operation, string name) =>
        name == "ref" && operation.Method != "GET" ? $"fuzz-{random.Next(50)}" : values.IdFor(random, name == "id" ? operation.Path.StartsWith("/v1/exercises", StringComparison.Ordinal) ? "exercise" : "decisionId" : name) ?? "x";

    private static string Escaped(PCG random, Making making, string id) => Uri.EscapeDataString(making != Making.Valid && random.Next(4) == 0 && Whole(Hostile(random)) is { Length: > 0 } hostile ? hostile : id);

    private static List<(string Name, string Value)> Headers(PCG random, Operation operation, Making making)
    {
        var headers = new List<(string Name, string Value)>();
        if (operation.Parameters.Any(p => p is { In: "header", Name: "Idempotency-Key" }) && random.Next(8) == 0)
        {
            var key = making == Making.Valid ? $"key-{random.Next(200)}" : Hostile(random);
            headers.Add(("Idempotency-Key", string.Concat(key.Where(c => c is not ('\r' or '\n' or '\0') && !char.IsSurrogate(c)))));
        }

        if (operation.Id == "listExercises" && random.Next(3) == 0)
        {
            headers.Add(("Accept", "text/csv"));
        }

        if (making != Making.Valid && random.Next(5) == 0)
        {
            headers.Add(OddHeaders[random.Next((uint)OddHeaders.Length)]);
        }

        return headers;
    }

    private static FuzzCase Broken(PCG random, FuzzCase made, JsonNode? body)
    {
        switch (random.Next(made.Body is null ? 3u : 9u))
        {
            case 0:
                var method = Methods[random.Next((uint)Methods.Length)];
                return made with { Method = method, Elsewhere = true, Body = method is "GET" or "HEAD" or "TRACE" ? null : made.Body };
            case 1:
                return made with { Elsewhere = true, Target = Odd(random, made.Target) };
            case 2 when made.Body is null:
                return made with { Target = made.Target + (made.Target.Contains('?', StringComparison.Ordinal) ? "&" : "?") + "x=" + new string('a', (int)random.Next(6000)) };
            case 3:
                return made with { ContentType = ContentTypes[random.Next((uint)ContentTypes.Length)] };
            case 4:
                var (coding, bytes) = Packed(random, made.Body!);
                return made with { ContentEncoding = coding, Body = bytes, MustRefuse = true };
            default:
                var (broken, mustRefuse) = BodySpoiler.Broken(random, body);
                return made with { Body = broken, MustRefuse = mustRefuse };
        }
    }

    /// <summary>A body in a coding that the service does not offer; at times ten megabytes that travel as ten kilobytes.</summary>
    private static (string Coding, byte[] Body) Packed(PCG random, byte[] body)
    {
        using var packed = new MemoryStream();
        var coding = random.Next(3) switch { 0 => "gzip", 1 => "br", _ => "deflate" };
        using (Stream stream = coding switch { "gzip" => new GZipStream(packed, CompressionLevel.Fastest), "br" => new BrotliStream(packed, CompressionLevel.Fastest), _ => new ZLibStream(packed, CompressionLevel.Fastest) })
        {
            stream.Write(random.Next(4) == 0 ? new byte[10 * 1024 * 1024] : body);
        }

        return (coding, packed.ToArray());
    }

    private static string Odd(PCG random, string target) => random.Next(9) switch
    {
        0 => target + "/",
        1 => "/" + target,
        2 => target + "%00",
        3 => target + "/..%2f..%2fetc%2fpasswd",
        4 => target + "%c0%ae%c0%ae",
        5 => target.Replace("/v1/", "/v1/%2e%2e/v1/", StringComparison.Ordinal),
        6 => target.Replace("/v1/", "/V1/", StringComparison.Ordinal),
        7 => target + "/" + new string('a', (int)random.Next(7000)),
        _ => target + "%e2%80%ae%f0%9f%98%80;jsessionid=1",
    };

    private static string Hostile(PCG random) => random.Next(12) == 0 ? "" : HostileText.All[random.Next((uint)HostileText.All.Length)];

    /// <summary>A lone surrogate cannot travel in a target.</summary>
    private static string Whole(string text) => Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text));

    private static byte[] Bytes(JsonNode body) => Encoding.UTF8.GetBytes(body.ToJsonString());
}
