using System.Collections.Concurrent;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.Net.Http.Headers;
using Recommender.Answers.ExerciseFiles;
using Recommender.Api.Overload;
using Recommender.Api.Problems;

namespace Recommender.Api.Hosting;

/// <summary>Answers 406 where a call gives nothing that the caller takes (RFC 9110, section 12.5.1). Pages are always HTML and are not asked.</summary>
public static class Acceptable
{
    // What these give as a table is said by Accept or the query, not by the endpoint.
    private static readonly string[] Tables = ["listExercises", "exportDecisions"];
    private static readonly ConcurrentDictionary<Endpoint, string[]> Given = new(ReferenceEqualityComparer.Instance);

    /// <summary>Asks before the call does anything.</summary>
    public static void UseAcceptable(this IApplicationBuilder app) => app.Use(static (context, next) =>
    {
        var accept = context.Request.Headers.Accept;
        if (accept.Count == 0 || (accept.Count == 1 && accept[0] is "*/*" or "application/json") || context.GetEndpoint() is not RouteEndpoint endpoint || WorkKinds.Of(endpoint) == WorkKind.Free)
        {
            return next(context);
        }

        var given = Given.GetOrAdd(endpoint, TypesOf);
        return given.Length == 0 || !MediaTypeHeaderValue.TryParseList(accept, out var ranges) || given.Any(type => Takes(ranges, type)) ? next(context)
            : Problem.Of(ProblemTypes.NotAcceptable, $"Accept takes nothing that this call gives; it gives {string.Join(", ", given)}.").ExecuteAsync(context);
    });

    /// <summary>Whether a type is taken: the most exact range that covers it decides.</summary>
    /// <param name="ranges">What Accept lists.</param>
    /// <param name="type">A media type without parameters.</param>
    public static bool Takes(IEnumerable<MediaTypeHeaderValue> ranges, string type) => ranges
        .Where(r => r.MatchesAllTypes || string.Equals(r.MediaType.Value, type, StringComparison.OrdinalIgnoreCase) || (r.MatchesAllSubTypes && type.StartsWith(r.Type.Value + "/", StringComparison.OrdinalIgnoreCase)))
        .OrderBy(r => r.MatchesAllTypes ? 2 : r.MatchesAllSubTypes ? 1 : 0)
        .FirstOrDefault() is { } best && best.Quality != 0;

    private static string[] TypesOf(Endpoint endpoint) =>
    [
        .. endpoint.Metadata.GetOrderedMetadata<IProducesResponseTypeMetadata>().Where(p => p.StatusCode is >= 200 and < 300).SelectMany(p => p.ContentTypes).Distinct(),
        .. Tables.Contains(endpoint.Metadata.GetMetadata<IEndpointNameMetadata>()?.EndpointName) ? [ExerciseCsv.MediaType] : Array.Empty<string>(),
    ];
}
