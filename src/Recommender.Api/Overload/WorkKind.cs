namespace Recommender.Api.Overload;

/// <summary>How long the work of a call is by its nature. Each kind has places of its own, so that none takes those of another.</summary>
public enum WorkKind
{
    /// <summary>Answers at once whatever happens: health, metrics, the document, files of pages.</summary>
    Free,

    /// <summary>One question, milliseconds.</summary>
    Single,

    /// <summary>Many questions in one, up to seconds: batches, questions about a decision, drafts.</summary>
    Several,

    /// <summary>A walk over the whole record or a trial on thousands of decisions, up to minutes.</summary>
    Walk,
}

/// <summary>Which call is of which kind.</summary>
public static class WorkKinds
{
    private static readonly Dictionary<string, WorkKind> ByOperation = new(StringComparer.Ordinal)
    {
        ["live"] = WorkKind.Free,
        ["ready"] = WorkKind.Free,
        ["recommendBatch"] = WorkKind.Several,
        ["substituteBatch"] = WorkKind.Several,
        ["replayDecision"] = WorkKind.Several,
        ["compareExercises"] = WorkKind.Several,
        ["findCounterfactuals"] = WorkKind.Several,
        ["analyseSensitivity"] = WorkKind.Several,
        ["draftCatalogue"] = WorkKind.Several,
        ["draftRules"] = WorkKind.Several,
        ["compareCatalogueVersions"] = WorkKind.Several,
        ["compareRulesVersions"] = WorkKind.Several,
        ["publishCatalogue"] = WorkKind.Several,
        ["publishRules"] = WorkKind.Several,
        ["verifyDecisions"] = WorkKind.Walk,
        ["exportDecisions"] = WorkKind.Walk,
        ["tryCatalogueVersion"] = WorkKind.Walk,
        ["tryRulesVersion"] = WorkKind.Walk,
    };

    private static readonly Dictionary<string, WorkKind> ByPage = new(StringComparer.Ordinal)
    {
        ["/metrics"] = WorkKind.Free,
        ["/decisions/walk"] = WorkKind.Walk,
        ["/versions/{kind}/{version}/impact"] = WorkKind.Walk,
        ["/versions/{kind}/{version}/changes/{other}"] = WorkKind.Several,
        ["/versions/{kind}/{version}/publish"] = WorkKind.Several,
        ["/versions/upload"] = WorkKind.Several,
        ["/decisions/{id}"] = WorkKind.Several,
        ["/decisions/{id}/replay"] = WorkKind.Several,
        ["/squad/sheet"] = WorkKind.Several,
        ["/squad/import/save"] = WorkKind.Several,
        ["/season"] = WorkKind.Several,
    };

    /// <summary>Names of calls and routes of pages that are set apart.</summary>
    public static IEnumerable<string> Named => ByOperation.Keys.Concat(ByPage.Keys);

    /// <summary>The kind of an endpoint; what has none, such as the document, is free, and what is not set apart is single.</summary>
    public static WorkKind Of(Endpoint? endpoint)
    {
        if (endpoint is not RouteEndpoint route)
        {
            return WorkKind.Free;
        }

        var path = route.RoutePattern.RawText ?? "";
        return route.Metadata.GetMetadata<IEndpointNameMetadata>() is { } name ? ByOperation.GetValueOrDefault(name.EndpointName, WorkKind.Single)
            : path.StartsWith("/assets/", StringComparison.Ordinal) ? WorkKind.Free
            : ByPage.GetValueOrDefault(path, WorkKind.Single);
    }
}
