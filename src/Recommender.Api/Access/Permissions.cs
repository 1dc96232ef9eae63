using System.Collections.Concurrent;
using Recommender.Answers.Access;

namespace Recommender.Api.Access;

/// <summary>What a call asks of who sends it.</summary>
/// <param name="Scopes">Scopes that must be there, all of them; none where the call is open.</param>
/// <param name="KeyNeeded">Whether somebody must be known; false where the call is open.</param>
public sealed record Demand(Scopes Scopes, bool KeyNeeded);

/// <summary>The one table that says which scope each call needs. Answers with 401 and 403, the OpenAPI document and the pages go by it.</summary>
public static class Permissions
{
    private const string Any = "*";

    // Before the table, which is made of it.
    private static readonly Demand Open = new(Scopes.None, KeyNeeded: false);

    /// <summary>The first row that fits decides. A pattern is that of a route; /** stands for anything below, the path itself included.</summary>
    private static readonly (string Method, string Pattern, Demand Demand)[] Table =
    [
        // What holds no data of anybody.
        (Any, "/health/**", Open), (Any, "/openapi/**", Open), (Any, "/docs/**", Open), (Any, "/assets/**", Open), (Any, "/sign-in", Open), (Any, "/sign-out", Open),
        (Any, "/metrics", For(Scopes.Audit)),

        ("GET", "/v1/vocabulary", For(Scopes.Recommend)), ("GET", "/v1/exercises/**", For(Scopes.Recommend)),
        ("POST", "/v1/needs", For(Scopes.Recommend)), ("POST", "/v1/recommendations/**", For(Scopes.Recommend)), ("POST", "/v1/substitutions/**", For(Scopes.Recommend)), ("POST", "/v1/sessions", For(Scopes.Recommend)),
        (Any, "/v1/athletes/**", For(Scopes.Recommend)),
        ("GET", "/v1/decisions/export", For(Scopes.Audit)), ("GET", "/v1/decisions/{id}", For(Scopes.Recommend)), (Any, "/v1/decisions/{id}/outcomes", For(Scopes.Recommend)),
        (Any, "/v1/decisions/**", For(Scopes.Audit)),
        (Any, "/v1/catalogue/**", For(Scopes.Curate)), (Any, "/v1/rules/**", For(Scopes.Curate)), (Any, "/v1/preferences/**", For(Scopes.Curate)),
        (Any, "/v1/keys/**", For(Scopes.Admin)),

        (Any, "/", For(Scopes.Recommend)), (Any, "/answers/**", For(Scopes.Recommend)), (Any, "/sessions/**", For(Scopes.Recommend)), (Any, "/squad/**", For(Scopes.Recommend)),
        (Any, "/athletes/**", For(Scopes.Recommend)), (Any, "/season", For(Scopes.Recommend)), (Any, "/exercises/**", For(Scopes.Recommend)), (Any, "/sources", For(Scopes.Recommend)),
        (Any, "/decisions/**", For(Scopes.Audit)), (Any, "/versions/**", For(Scopes.Curate)), (Any, "/preferences/**", For(Scopes.Curate)),
    ];

    private static readonly ConcurrentDictionary<Endpoint, Demand?> Found = new(ReferenceEqualityComparer.Instance);

    /// <summary>What a call asks; null when the table does not know it, which nobody may call.</summary>
    /// <param name="endpoint">Endpoint of a route.</param>
    public static Demand? Of(RouteEndpoint endpoint) => Found.GetOrAdd(endpoint, _ =>
        Of(endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods is [var method] ? method : Any, endpoint.RoutePattern.RawText ?? ""));

    /// <summary>What a call asks; null when the table does not know it.</summary>
    /// <param name="method">HTTP method.</param>
    /// <param name="pattern">Pattern of the route.</param>
    public static Demand? Of(string method, string pattern)
    {
        var path = "/" + pattern.Trim('/');
        return Table.Where(row => (row.Method == Any || row.Method == method) && Fits(row.Pattern, path)).Select(row => row.Demand).FirstOrDefault();
    }

    private static bool Fits(string row, string path) =>
        row.EndsWith("/**", StringComparison.Ordinal) ? path == row[..^3] || path.StartsWith(row[..^2], StringComparison.Ordinal) : path == row;

    private static Demand For(Scopes scopes) => new(scopes, KeyNeeded: true);
}
