using System.Reflection;
using System.Text.Json;
using Microsoft.OpenApi;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Api.CatalogueVersions;
using Recommender.Api.Decisions;
using Recommender.Api.Recommendations;
using Recommender.Api.Substitutions;
using Recommender.Domain.Audit;
using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>
/// Which properties must be there and which may be null. In what callers send, only a few must be there and null counts as absent;
/// in what we send, everything is there, and null only where the type says so.
/// </summary>
internal sealed class OpenApiShapes : ISchemaFilter
{
    private const JsonSchemaType Null = JsonSchemaType.Null;

    /// <summary>What may be left out, except these properties.</summary>
    private static readonly Dictionary<Type, string[]> Sparse = new()
    {
        [typeof(RecommendationBatch)] = ["requests"],
        [typeof(RecommendationRequest)] = ["athlete", "phase"],
        [typeof(AthleteFacts)] = [],
        [typeof(Restriction)] = ["region"],
        [typeof(Clearance)] = ["flag", "daysAgo"],
        [typeof(EarlierInjury)] = ["region", "monthsAgo"],
        [typeof(LayoffFacts)] = ["weeks"],
        [typeof(SettingFacts)] = [],
        [typeof(Complaint)] = ["region", "pain"],
        [typeof(CoachNeed)] = ["quality"],
        [typeof(RecentWork)] = ["exercise", "daysAgo"],
        [typeof(OnlyFilter)] = [],
        [typeof(Competition)] = ["daysToStart"],
        [typeof(TrainingDay)] = ["kind", "daysFromToday"],
        [typeof(KitFacts)] = [],
        [typeof(DumbbellKit)] = ["maxKg"],
        [typeof(BarbellKit)] = ["barKg", "platesKg"],
        [typeof(SubstitutionBatch)] = ["requests"],
        [typeof(SubstitutionRequest)] = ["context"],
        [typeof(DescribedExercise)] = ["pattern", "support", "qualities"],
        [typeof(SessionRating)] = ["daysAgo", "effort", "minutes"],
        [typeof(SessionRequest)] = ["context"],
        [typeof(SlotRange)] = [],
        [typeof(OutcomeReport)] = ["exercise", "verdict"],
        [typeof(WorkDone)] = ["sets", "amount"],
        [typeof(CurrentPreference)] = [],
        [typeof(TestResults)] = [],
        [typeof(Sides<decimal?>)] = [],
        [typeof(Sides<bool?>)] = [],
        [typeof(Sides<string>)] = [],
        [typeof(DropJumpResult)] = [],
        [typeof(LoadedJump)] = [],
        [typeof(SprintSplit)] = [],
        [typeof(LiftToFailure)] = [],
        [typeof(YBalanceResult)] = [],
        [typeof(YBalanceReach)] = [],
        [typeof(TrunkHolds)] = [],
        [typeof(AthleteProfile)] = ["name", "athlete"],
        [typeof(VerifyRequest)] = [],
        [typeof(CatalogueDraft)] = [],
        [typeof(RulesDraft)] = [],
        [typeof(RulesFile)] = ["file", "content"],
        [typeof(CurrentVersion)] = ["version"],
        [typeof(ImpactRequest)] = [],
        [typeof(ReplayRequest)] = [],
        [typeof(KeyRequest)] = ["scopes"],
        [typeof(RotationRequest)] = [],
    };

    /// <summary>Values that are of several JSON types.</summary>
    private static readonly Dictionary<(Type, string), JsonSchemaType> Unions = new()
    {
        [(typeof(Assumption), "value")] = JsonSchemaType.String | JsonSchemaType.Number | JsonSchemaType.Array,
        [(typeof(Refusal), "limit")] = JsonSchemaType.String | JsonSchemaType.Number | Null,
        [(typeof(Refusal), "value")] = JsonSchemaType.String | JsonSchemaType.Number | Null,
        [(typeof(RequestChange), "from")] = JsonSchemaType.String | JsonSchemaType.Number | JsonSchemaType.Object | Null,
        [(typeof(RequestChange), "to")] = JsonSchemaType.String | JsonSchemaType.Number | JsonSchemaType.Object | JsonSchemaType.Array | Null,
        [(typeof(NearMiss), "limit")] = JsonSchemaType.String | JsonSchemaType.Number | Null,
        [(typeof(NearMiss), "value")] = JsonSchemaType.String | JsonSchemaType.Number | Null,
    };

    /// <summary>Properties that are of one of several shapes, by the kind of decision.</summary>
    private static readonly Dictionary<(Type, string), Type[]> OneOf = new()
    {
        [(typeof(DecisionBody), "request")] = [typeof(RecommendationRequest), typeof(SubstitutionRequest), typeof(SessionRequest)],
        [(typeof(DecisionBody), "answer")] = [typeof(Answer), typeof(SubstitutionAnswer), typeof(SessionAnswer)],
    };

    /// <summary>What is not there, rather than null, where there is nothing.</summary>
    private static readonly (Type, string)[] Absent = [(typeof(HashedBody), "factsHash")];

    private static readonly Dictionary<Type, string> Names = new()
    {
        [typeof(Sides<decimal?>)] = "NumberBySide",
        [typeof(Sides<bool?>)] = "FindingBySide",
        [typeof(Sides<string>)] = "RatingBySide",
        [typeof(DecisionBody)] = "Decision",
    };

    /// <summary>Name of a type's schema.</summary>
    public static string NameOf(Type type) => Names.GetValueOrDefault(type, type.Name);

    /// <inheritdoc/>
    public void Apply(IOpenApiSchema schema, SchemaFilterContext context)
    {
        if (schema is not OpenApiSchema { Properties: { Count: > 0 } properties } shape)
        {
            return;
        }

        var nullability = new NullabilityInfoContext();
        var required = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var property in context.Type.GetProperties())
        {
            var name = JsonNamingPolicy.CamelCase.ConvertName(property.Name);
            if (!properties.TryGetValue(name, out var value))
            {
                continue;
            }

            var sparse = Sparse.TryGetValue(context.Type, out var always);
            var absent = Absent.Contains((context.Type, name));
            var must = !absent && (!sparse || always!.Contains(name));
            if (must)
            {
                required.Add(name);
            }

            if (OneOf.TryGetValue((context.Type, name), out var shapes))
            {
                properties[name] = new OpenApiSchema { Description = value.Description, AnyOf = [.. shapes.Select(s => context.SchemaGenerator.GenerateSchema(s, context.SchemaRepository))] };
                continue;
            }

            properties[name] = Unions.TryGetValue((context.Type, name), out var union)
                ? Union(value, union)
                : WithNull(value, !absent && (sparse ? !must : nullability.Create(property).ReadState == NullabilityState.Nullable));
        }

        shape.Required = required.Count == 0 ? null : required;
        shape.AdditionalPropertiesAllowed = false;
        if (context.Type == typeof(BatchPlace) || context.Type == typeof(SubstitutionPlace))
        {
            EitherOr(shape, "answer", "problem");
        }
        else if (context.Type == typeof(ImpactMessage))
        {
            EitherOr(shape, "progress", "decision", "summary");
        }
    }

    private static OpenApiSchema Union(IOpenApiSchema value, JsonSchemaType types) => new()
    {
        Description = value.Description,
        Type = types,
        Items = types.HasFlag(JsonSchemaType.Array) ? new OpenApiSchema { Type = types.HasFlag(JsonSchemaType.Object) ? JsonSchemaType.String | JsonSchemaType.Object : JsonSchemaType.String } : null,
    };

    private static IOpenApiSchema WithNull(IOpenApiSchema value, bool nullable)
    {
        switch (value)
        {
            case OpenApiSchemaReference reference when nullable:
                return new OpenApiSchema
                {
                    Description = reference.Description,
                    AnyOf = [new OpenApiSchemaReference(reference.Reference.Id!, reference.Reference.HostDocument), new OpenApiSchema { Type = Null }],
                };
            case OpenApiSchema { Type: { } types } plain:
                plain.Type = nullable ? types | Null : types & ~Null;
                return plain;
            default:
                return value;
        }
    }

    /// <summary>Exactly one of some properties stands.</summary>
    private static void EitherOr(OpenApiSchema shape, params string[] names)
    {
        foreach (var name in names)
        {
            shape.Properties![name] = shape.Properties[name] is OpenApiSchema { AnyOf: [OpenApiSchemaReference reference, _] } ? reference : shape.Properties[name];
        }

        shape.Required = null;
        shape.OneOf = [.. names.Select(name => new OpenApiSchema { Title = name, Required = new HashSet<string> { name } })];
    }
}
