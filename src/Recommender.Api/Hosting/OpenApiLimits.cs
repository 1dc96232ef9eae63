using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using Recommender.Answers;
using Recommender.Answers.Access;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Api.Access;
using Recommender.Api.CatalogueVersions;
using Recommender.Api.Decisions;
using Recommender.Api.Problems;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Explanations;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Ledger;
using Recommender.Domain.Needs;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>
/// What the types do not say: ranges, lengths, and texts that are one of a few words. RequestLimitTests holds those of requests against the checks,
/// so that neither can move alone.
/// </summary>
internal sealed class OpenApiLimits : ISchemaFilter
{
    private const string IdPattern = "^[a-z0-9]+(-[a-z0-9]+)*$";
    private static readonly string[] Sided = ["left", "right"];
    private static readonly string[] BothSided = ["left", "right", "both"];
    private static readonly string[] Starters = ["eventGroup", "event"];
    private static readonly string[] Urgencies = ["emergency", "same-day", "within-days"];
    private static readonly string[] Scopes = ["all", "regions"];

    private static readonly Dictionary<Type, (string Property, Action<OpenApiSchema> Say)[]> Limits = new()
    {
        [typeof(RecommendationBatch)] = [("requests", Items(1, 500))],
        [typeof(RecommendationRequest)] =
        [
            ("phase", WordsOf<Phase>()), ("weeksToCompetition", Range(0, 60)), ("competitions", Items(0, 20)), ("weekKind", Words("build", "hold", "unload")),
            ("training", Items(0, 60)), ("coach", Text(1, 100)), ("units", Words("metric", "us")), ("complaints", Items(0, 12)), ("redFlags", Ids(50)), ("needs", Items(0, 30)),
            ("recent", Items(0, 200)), ("sessionRatings", Items(0, 60)), ("exclude", Ids(1000)), ("count", Range(1, 30)), ("perFamily", Range(1, 10)),
        ],
        [typeof(AthleteFacts)] =
        [
            ("ref", Text(1, 100)), ("eventGroup", Id), ("event", Id), ("ageYears", Range(5, 100)), ("trainingAgeYears", Range(0, 80)), ("sex", Words("female", "male")),
            ("bodyMassKg", Range(20, 250)), ("statureCm", Range(100, 250)), ("oneRepMaxKg", Values(200, Range(1, 600))), ("competence", Ids(50)), ("takeOffLeg", Words(Sided)),
            ("leadLeg", Words(Sided)), ("throwingSide", Words(Sided)), ("startFrontFoot", Words(Sided)),
            ("restrictions", Items(0, 20)), ("clearances", Items(0, 10)), ("history", Items(0, 30)), ("limitations", Each(20, Text(1, 200))),
        ],
        [typeof(SettingFacts)] = [("place", Id), ("equipment", Ids(100)), ("minutes", Range(1, 600)), ("limits", Ids(10)), ("slot", Words("pre-track", "after-track", "gym", "recovery-day", "travel-day", "competition-day"))],
        [typeof(Competition)] = [("daysToStart", Range(-30, 420)), ("days", Range(1, 30)), ("priority", Words("main", "build-up", "training-through"))],
        [typeof(TrainingDay)] =
        [
            ("kind", Id), ("daysFromToday", Range(-14, 14)), ("minutes", Range(1, 600)), ("contacts", Range(0, 5000)), ("throws", Range(0, 1000)), ("effort", Range(0, 10)),
        ],
        [typeof(DumbbellKit)] = [("maxKg", Range(0.5m, 100)), ("stepKg", Range(0.25m, 20))],
        [typeof(BarbellKit)] = [("barKg", Range(1, 50)), ("platesKg", Each(12, Range(0.25m, 50)))],
        [typeof(Complaint)] =
        [
            ("region", Id), ("side", Words(BothSided)), ("pain", Range(0, 10)), ("nextMorning", Words("settled", "same", "worse")), ("redFlags", Ids(50)), ("note", Text(0, 500)),
            ("mornings", Each(7, Words("settled", "same", "worse"))), ("trend", Words("falling", "steady", "rising")), ("kind", Words("pain", "soreness", "stiffness")),
            ("tissue", Words("tendon", "muscle", "joint", "bone", "nerve", "growth-plate", "unknown")), ("onset", Words("sudden", "gradual")), ("daysSinceOnset", Range(0, 7300)),
            ("stage", WordsOf<LoadingStage>()), ("provokedBy", Ids(10)),
        ],
        [typeof(Restriction)] =
        [
            ("region", Id), ("side", Words(BothSided)), ("maxTissueLoad", Range(0, 10)), ("maxLoadingRate", WordsOf<LoadingRate>()), ("stage", WordsOf<LoadingStage>()),
            ("reviewInDays", Range(-3650, 3650)), ("by", Text(1, 100)),
        ],
        [typeof(Clearance)] = [("flag", Words("pregnancy", "recent-birth", "recent-surgery")), ("by", Text(1, 100)), ("daysAgo", Range(0, 3650))],
        [typeof(EarlierInjury)] = [("region", Id), ("side", Words(BothSided)), ("monthsAgo", Range(0, 1200))],
        [typeof(LayoffFacts)] = [("weeks", Range(0, 520)), ("reason", Words("break", "illness", "injury"))],
        [typeof(CoachNeed)] = [("quality", Id), ("importance", Words("low", "medium", "high")), ("weight", Range(0, 1))],
        [typeof(RecentWork)] = [("exercise", Id), ("daysAgo", Range(0, 365)), ("sets", Range(1, 50)), ("amount", Range(0.1m, 10000)), ("unit", WordsOf<DoseUnit>())],
        [typeof(OnlyFilter)] = [("support", Each(10, WordsOf<Support>())), ("pattern", Ids(50)), ("quality", Ids(50)), ("loadingRate", Each(10, WordsOf<LoadingRate>()))],
        [typeof(TestResults)] =
        [
            ("loadedJumps", Items(0, 20)), ("sprintSplits", Items(0, 40)), ("sprintStart", Words("first-movement", "gate", "gun")), ("testPain", Range(0, 10)),
            ("daysAgo", Range(0, 3650)), ("trials", Range(1, 50)),
        ],
        [typeof(Sides<string>)] = [("left", Words("good", "fair", "poor")), ("right", Words("good", "fair", "poor"))],
        [typeof(LoadedJump)] = [("loadKg", Range(0, 400)), ("heightCm", Range(1, 100))],
        [typeof(SprintSplit)] = [("distanceM", Range(1, 400)), ("seconds", Range(0.1m, 120))],
        [typeof(LiftToFailure)] = [("loadKg", Range(1, 600)), ("repetitions", Range(1, 30))],
        [typeof(YBalanceResult)] = [("legLengthCm", Range(40, 140))],
        [typeof(YBalanceReach)] = [("anteriorCm", Range(1, 160)), ("posteromedialCm", Range(1, 160)), ("posterolateralCm", Range(1, 160))],

        [typeof(SessionRating)] = [("daysAgo", Range(0, 28)), ("effort", Range(0, 10)), ("minutes", Range(1, 600))],
        [typeof(SessionRequest)] = [("budgets", Values(30, Above(0, 100_000))), ("locked", Ids(12)), ("avoid", Ids(1000)), ("previousDecision", Uuid)],
        [typeof(SlotRange)] = [("min", Range(1, 12)), ("max", Range(1, 12))],

        [typeof(SubstitutionRequest)] = [("exercise", Id), ("reason", Words([.. SubstitutionChecks.Reasons])), ("count", Range(1, 30))],
        [typeof(SubstitutionBatch)] = [("requests", Items(1, 500))],
        [typeof(DescribedExercise)] =
        [
            ("name", Text(1, 100)), ("pattern", Id), ("support", WordsOf<Support>()), ("qualities", Values(60, Range(1, 3))), ("direction", Id), ("contraction", Id),
            ("loadingRate", WordsOf<LoadingRate>()), ("loadBand", WordsOf<LoadBand>()),
        ],
        [typeof(SubstitutionAnswer)] = [("decisionId", Uuid), ("eligibleCount", AtLeast(0))],
        [typeof(Substitute)] = [("rank", AtLeast(1)), ("similarity", Range(0, 1))],
        [typeof(SessionAnswer)] = [("decisionId", Uuid), ("eligibleCount", AtLeast(0)), ("minutes", AtLeast(0)), ("minutesSaved", AtLeast(0))],
        [typeof(SessionPick)] = [("order", AtLeast(1)), ("block", Words("warm-up", "power", "strength", "accessory", "trunk", "mobility"))],
        [typeof(NeedCoverage)] = [("weight", Range(0, 1)), ("reached", Range(0, 1))],
        [typeof(Optimality)] = [("gap", Range(0, 1)), ("setsExamined", AtLeast(0))],
        [typeof(RatedWeek)] = [("deviationOf", Words("sample", "population"))],
        [typeof(Answer)] = [("decisionId", Uuid), ("eligibleCount", AtLeast(0))],
        [typeof(Pick)] = [("rank", AtLeast(1))],
        [typeof(EvidenceShare)] = [("published", Range(0, 1)), ("modelled", Range(0, 1)), ("commonPractice", Range(0, 1)), ("recalled", Range(0, 1))],
        [typeof(ThresholdMet)] = [("direction", Words("below", "above")), ("measurementError", AtLeast(0))],
        [typeof(NeedLine)] = [("weight", Range(0, 1))],
        [typeof(NeedFrom)] = [("source", Words("event-profile", "coach", "test", "complaint", "history")), ("share", Range(0, 1))],
        [typeof(Referral)] = [("scope", Words(Scopes)), ("urgency", Words(Urgencies)), ("reasons", Items(1, null))],
        [typeof(VersionStamp)] = [("engine", AtLeast(1))],
        [typeof(TissueLoad)] = [("value", Range(0, 10)), ("low", Range(0, 10)), ("high", Range(0, 10))],
        [typeof(QualityRating)] = [("value", Range(1, 3))],
        [typeof(Exercise)] = [("complexity", Range(1, 4)), ("sorenessRisk", Range(0, 3))],
        [typeof(ExerciseFacts)] =
        [
            ("footContact", Words("flat", "forefoot", "heel", "none")), ("contactTime", Words("none", "long", "medium", "short")),
            ("speed", Words("static", "slow", "moderate", "fast", "ballistic")), ("noise", Words("quiet", "moderate", "loud")),
        ],
        [typeof(RedFlagTerm)] = [("scope", Words(Scopes)), ("urgency", Words(Urgencies))],
        [typeof(DecisionBody)] = [("decisionId", Uuid), ("kind", Kinds), ("hash", Hash), ("previousHash", Hash)],
        [typeof(HashedBody)] =
        [
            ("answerHash", Hash), ("decisionId", Uuid), ("kind", Kinds), ("personalHash", Hash), ("previousHash", Hash), ("requestHash", Hash), ("sequence", AtLeast(1)),
        ],
        [typeof(DecisionLine)] = [("decisionId", Uuid), ("kind", Kinds), ("createdAt", s => s.Format = "date-time"), ("status", WordsOf<AnswerStatus>())],
        [typeof(OutcomeReport)] =
        [
            ("exercise", Id), ("verdict", Words(Verdicts.Used, Verdicts.Swapped, Verdicts.Declined)), ("replacedBy", Id), ("done", Items(0, 30)), ("painDuring", Range(0, 10)), ("painNextMorning", Range(0, 10)),
            ("effort", Range(0, 10)), ("note", Text(0, 500)),
        ],
        [typeof(WorkDone)] = [("sets", Range(1, 30)), ("amount", Range(0.1m, 3600)), ("loadKg", Range(0, 1000)), ("repsInReserve", Range(0, 20))],
        [typeof(OutcomeBody)] = [("decisionId", Uuid), ("entry", AtLeast(1)), ("verdict", Words(Verdicts.Used, Verdicts.Swapped, Verdicts.Declined))],
        [typeof(CurrentPreference)] = [("coach", Text(1, 100)), ("version", VersionHash)],
        [typeof(PreferenceInForce)] = [("version", VersionHash)],
        [typeof(PreferenceVersion)] = [("version", VersionHash), ("status", Words("current", "kept"))],
        [typeof(PreferenceNumbers)] = [("choices", AtLeast(0)), ("pairs", AtLeast(0))],
        [typeof(PreferenceReport)] = [("comparedWith", Words("none", "organisation")), ("top", AtLeast(1))],
        [typeof(VerifyRequest)] = [("head", Hash)],
        [typeof(ReplayRequest)] = [("on", Words("stored", "current"))],
        [typeof(Replay)] = [("on", Words("stored", "current")), ("differences", Items(0, 1000)), ("changes", Items(0, 200))],
        [typeof(KeyRequest)] = [("scopes", s => { Each(4, Words([.. ScopeWords.All]))(s); s.MinItems = 1; }), ("note", Text(1, AccessKeys.LongestNote)), ("expiresInDays", Range(1, AccessKeys.LongestLifeDays))],
        [typeof(RotationRequest)] = [("overlapMinutes", Range(0, AccessKeys.LongestOverlapMinutes))],
        [typeof(KeyLine)] =
        [
            ("id", s => s.Pattern = "^[0-9a-f]{16}$"), ("scopes", Each(4, Words([.. ScopeWords.All]))), ("state", Words("usable", "expired", "revoked")), ("createdAt", Moment), ("expiresAt", Moment), ("rotatedAt", Moment),
            ("revokedAt", Moment), ("formerUntil", Moment),
        ],
        [typeof(NewKey)] = [("key", s => s.Pattern = $"^{KeySecret.Prefix}[0-9a-f]{{16}}_[0-9a-f]{{64}}$")],
        [typeof(CatalogueDraft)] = [("basedOn", Text(1, 64)), ("upsert", Items(0, 5000)), ("remove", Items(0, 5000))],
        [typeof(RulesDraft)] = [("basedOn", Text(1, 64)), ("upsert", Items(0, 200)), ("remove", Items(0, 200))],
        [typeof(RulesFile)] = [("file", Text(1, 200))],
        [typeof(ImpactRequest)] = [("last", Range(1, 100_000))],
        [typeof(VersionLine)] = [("version", VersionHash), ("status", Words("current", "published", "shipped", "draft")), ("createdAt", s => s.Format = "date-time")],
        [typeof(VersionDraft)] = [("version", VersionHash), ("status", Words("current", "draft"))],
        [typeof(VersionInForce)] = [("version", VersionHash), ("status", Words("current"))],
        [typeof(ImpactLine)] = [("decisionId", Uuid), ("kind", Kinds), ("dosesChanged", AtLeast(0))],
        [typeof(Verification)] = [("checked", AtLeast(0)), ("head", Hash)],
        [typeof(BrokenRecord)] = [("position", AtLeast(0))],
        [typeof(AthleteProfile)] = [("ref", Text(1, 100)), ("name", Text(1, 100)), ("phase", WordsOf<Phase>()), ("weeksToCompetition", Range(0, 60)), ("complaints", Items(0, 12)), ("needs", Items(0, 30))],
        [typeof(ProblemBody)] = [("type", s => s.Format = "uri-reference"), ("status", Range(400, 599))],
        [typeof(Health)] = [("status", Words("ok"))],
    };

    /// <inheritdoc/>
    public void Apply(IOpenApiSchema schema, SchemaFilterContext context)
    {
        if (schema is not OpenApiSchema { Properties: { Count: > 0 } properties } shape || !Limits.TryGetValue(context.Type, out var limits))
        {
            return;
        }

        foreach (var (property, say) in limits)
        {
            say((OpenApiSchema)properties[property]);
        }

        if (context.Type == typeof(AthleteFacts))
        {
            shape.AnyOf = [.. Starters.Select(name => new OpenApiSchema { Required = new HashSet<string> { name } })];
        }
    }

    private static void Kinds(OpenApiSchema schema) => Words([.. DecisionKind.All.Select(k => k.Id)])(schema);

    private static void Id(OpenApiSchema schema) => schema.Pattern = IdPattern;

    private static void Moment(OpenApiSchema schema) => schema.Format = "date-time";

    private static void Uuid(OpenApiSchema schema) => schema.Format = "uuid";

    private static void VersionHash(OpenApiSchema schema) => schema.Pattern = "^[0-9a-f]{32}$";

    private static void Hash(OpenApiSchema schema) => schema.Pattern = "^[0-9a-f]{64}$";

    private static Action<OpenApiSchema> Range(decimal low, decimal high) => schema =>
    {
        schema.Minimum = low.ToString(CultureInfo.InvariantCulture);
        schema.Maximum = high.ToString(CultureInfo.InvariantCulture);
    };

    private static Action<OpenApiSchema> Above(decimal low, decimal high) => schema =>
    {
        schema.ExclusiveMinimum = low.ToString(CultureInfo.InvariantCulture);
        schema.Maximum = high.ToString(CultureInfo.InvariantCulture);
    };

    private static Action<OpenApiSchema> AtLeast(decimal low) => schema => schema.Minimum = low.ToString(CultureInfo.InvariantCulture);

    private static Action<OpenApiSchema> Text(int shortest, int longest) => schema =>
    {
        schema.MinLength = shortest == 0 ? null : shortest;
        schema.MaxLength = longest;
    };

    private static Action<OpenApiSchema> Items(int fewest, int? most) => schema =>
    {
        schema.MinItems = fewest == 0 ? null : fewest;
        schema.MaxItems = most;
    };

    private static Action<OpenApiSchema> Ids(int most) => Each(most, Id);

    private static Action<OpenApiSchema> Each(int most, Action<OpenApiSchema> say) => schema =>
    {
        schema.MaxItems = most;
        say((OpenApiSchema)schema.Items!);
    };

    private static Action<OpenApiSchema> Values(int most, Action<OpenApiSchema> say) => schema =>
    {
        schema.MaxProperties = most;
        say((OpenApiSchema)schema.AdditionalProperties!);
    };

    private static Action<OpenApiSchema> WordsOf<T>() where T : struct, Enum => Words([.. Enum.GetNames<T>().Select(JsonNamingPolicy.KebabCaseLower.ConvertName)]);

    private static Action<OpenApiSchema> Words(params string[] words) => schema =>
        schema.Enum = [.. words.Select(w => (JsonNode)w), .. schema.Type!.Value.HasFlag(JsonSchemaType.Null) ? [JsonNullSentinel.JsonNull] : Array.Empty<JsonNode>()];
}
