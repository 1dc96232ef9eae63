using System.Text.Json;
using Recommender.Answers;
using Recommender.Api.Hosting;
using Recommender.Pages.Hosting;
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
    /// <param name="context">Says who asks.</param>
    /// <param name="editions">Gives the vocabulary.</param>
    /// <response code="200">The vocabulary.</response>
    private static async Task<JsonBytes> Get(HttpContext context, EditionInForce editions) =>
        new(JsonSerializer.SerializeToUtf8Bytes((await editions.Of(context.Caller().Organisation)).Catalogue.Vocabulary, KnowledgeJson.Default.Vocabulary));
}
