using System.Text.Json;
using Recommender.Answers;
using Recommender.Api.Hosting;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Api.Vocabulary;

/// <summary>GET /v1/vocabulary.</summary>
public static class VocabularyEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapVocabulary(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/v1/vocabulary", Get).WithTags("Catalogue").WithName("getVocabulary")
            .Produces<Domain.Catalogue.Vocabulary>(contentType: "application/json");

    /// <summary>Every id with label and definition.</summary>
    /// <remarks>Requests and answers use these ids only. Events name their group, places what is usually there, red flags their scope, urgency and question.</remarks>
    /// <response code="200">The vocabulary.</response>
    private static JsonBytes Get(EditionInForce editions) =>
        new(JsonSerializer.SerializeToUtf8Bytes(editions.Current.Catalogue.Vocabulary, KnowledgeJson.Default.Vocabulary));
}
