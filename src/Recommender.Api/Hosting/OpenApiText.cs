using Microsoft.OpenApi;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>What the document says about the service as a whole.</summary>
internal sealed class OpenApiText : IDocumentFilter
{
    private const string About = """
        Recommends accessory strength exercises for track-and-field athletes: ranked, dosed and explained for the event, the phase of the year,
        the weeks to the competition, the equipment at hand and what hurts.

        **Training guidance, not medical advice.** Pain, injury and illness belong before a licensed practitioner. A practitioner's word, the
        federation's rules and local rules come first. Red flags are answered with a referral instead of exercises. Para athletes, and pregnancy
        without a clinician's frame, are not served yet.

        **Ids.** Requests and answers use the ids that `GET /v1/vocabulary` and `GET /v1/exercises` list.
        Every number in an answer says its basis: published (with its source), modelled, common practice, or recalled.

        **Absent values.** An optional property that is left out, or null, is taken from the rules; the answer lists each under `assumed`.
        An unknown property is refused.

        **Problems.** What cannot be answered comes as `application/problem+json`. `errors` points into the body or names the query value.
        Any path answers 405, with `Allow`, to a method that it does not offer. A 503 carries `Retry-After`; nothing was stored then.

        **Keys.** A call needs a key, sent as `Authorization: Bearer`, with the scope that stands beside it; without one that holds it answers 401, without the scope
        403. Everything belongs to the organisation of the key; what is another's is not found. On a loopback address no key is asked for until the first is made.
        A key that asks too often gets 429 with `Retry-After`.

        **Repeats.** With an `Idempotency-Key` a POST can be sent again safely for 24 hours; calls whose answer holds a secret take none.

        **Sizes.** A body has at most 256 KB, a batch 4 MB.
        """;

    private static readonly (string Name, string Description)[] Tags =
    [
        ("Needs", "What an athlete needs, and from where: event and phase, the coach, complaints, tests."),
        ("Recommendations", "Ranked picks with dose and explanation."),
        ("Substitutions", "What may stand in for an exercise, with what is kept, lost and gained."),
        ("Sessions", "A set of exercises chosen together, ordered and dosed, inside time and tissue budgets."),
        ("Decisions", "The record: every answer as it was given, with the request and the versions behind it."),
        ("Versions", "Catalogue and rules as they were and as they may be: draft, compare, try, put in force, roll back."),
        ("Preferences", "What was learned from what coaches used, swapped and declined: numbers, what they gain and cost, which are in force."),
        ("Catalogue", "Exercises and the words that describe them."),
        ("Athletes", "Saved profiles, from which a form is filled. A request never reads them."),
        ("Keys", "Who may ask what: keys of your organisation are made, listed, changed and ended."),
        ("Operations", "Whether the service lives and can answer."),
    ];

    /// <summary>Title, version and description.</summary>
    public static OpenApiInfo Info => new() { Title = "Accessory exercise recommender for track and field", Version = "1", Description = About };

    /// <inheritdoc/>
    public void Apply(Microsoft.OpenApi.OpenApiDocument swaggerDoc, DocumentFilterContext context)
    {
        swaggerDoc.Tags = new HashSet<OpenApiTag>(Tags.Select(t => new OpenApiTag { Name = t.Name, Description = t.Description }));
    }
}
