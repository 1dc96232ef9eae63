using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Substitutions;

/// <summary>Every fault of a request for a substitution.</summary>
public static class SubstitutionChecks
{
    /// <summary>Reasons that may be given.</summary>
    public static IReadOnlyList<string> Reasons { get; } = ["equipment", "pain", "space", "variety", "competence"];

    /// <summary>All faults, in the order of the body; empty when it can be answered.</summary>
    public static IReadOnlyList<Fault> Of(SubstitutionRequest request, ExerciseCatalogue catalogue, KnowledgeBase knowledge)
    {
        var faults = new List<Fault>();
        if (request.Exercise is null == request.Described is null)
        {
            faults.Add(new Fault(request.Exercise is null ? "/exercise" : "/described", request.Exercise is null ? "required" : "contradiction",
                "give exercise, an id of the catalogue, or described, its tags; one of them."));
        }

        if (request.Exercise is { } id && catalogue.PositionOf(id) < 0)
        {
            faults.Add(new Fault("/exercise", "unknown-id", $"{FaultText.Quote(id)} is not an exercise of the catalogue; GET /v1/exercises?q= finds one, or describe it by its tags."));
        }

        if (request.Described is { } described)
        {
            Described(described, catalogue.Vocabulary, faults);
        }

        if (request.Reason is { } reason && !Reasons.Contains(reason, StringComparer.Ordinal))
        {
            faults.Add(new Fault("/reason", "unknown-id", $"{FaultText.Quote(reason)} is not a reason; give {string.Join(", ", Reasons)}."));
        }

        if (request.Context is not { } context)
        {
            faults.Add(new Fault("/context", "required", "the context is missing; give the athlete and the situation as in a recommendation."));
        }
        else
        {
            faults.AddRange(RequestChecks.Of(context, catalogue, knowledge).Select(f => f with { Pointer = "/context" + f.Pointer }));
            if (context.Count is not null)
            {
                faults.Add(new Fault("/context/count", "contradiction", "how many is said beside the context; give count there."));
            }

            if (request.Reason == "pain" && context.Complaints is not { Count: > 0 })
            {
                faults.Add(new Fault("/context/complaints", "contradiction", "the reason is pain, but nothing hurts; give the complaint with region and pain."));
            }
        }

        if (request.Count is < 1 or > 30)
        {
            faults.Add(new Fault("/count", "out-of-range", $"count is {request.Count}; give 1 to 30."));
        }

        return faults;
    }

    private static void Described(DescribedExercise described, Vocabulary vocabulary, List<Fault> faults)
    {
        if (described.Name?.Length is 0 or > 100)
        {
            faults.Add(new Fault("/described/name", "out-of-range", "the name is empty or longer than 100 characters; give 1 to 100."));
        }

        Known("/described/pattern", described.Pattern, vocabulary.Patterns, required: true);
        Known("/described/support", described.Support, vocabulary.Supports, required: true);
        if (described.Qualities is not { Count: > 0 })
        {
            faults.Add(new Fault("/described/qualities", "required", "the qualities are missing; give at least one with its rating, 1 to 3."));
        }
        else if (described.Qualities.Count > 60)
        {
            faults.Add(new Fault("/described/qualities", "too-many", $"{described.Qualities.Count} qualities; give at most 60."));
        }

        foreach (var (quality, rating) in (described.Qualities ?? new Dictionary<string, int>()).Take(60))
        {
            var at = $"/described/qualities/{FaultText.Escape(quality)}";
            Known(at, quality, vocabulary.Qualities, required: true);
            if (rating is < 1 or > 3)
            {
                faults.Add(new Fault(at, "out-of-range", $"the rating is {rating}; give 1 to 3."));
            }
        }

        Known("/described/direction", described.Direction, vocabulary.Directions, required: false);
        Known("/described/contraction", described.Contraction, vocabulary.Contractions, required: false);
        Known("/described/loadingRate", described.LoadingRate, vocabulary.LoadingRates, required: false);
        Known("/described/loadBand", described.LoadBand, vocabulary.LoadBands, required: false);

        void Known<T>(string at, string? id, Terms<T> terms, bool required) where T : Term
        {
            var wanted = terms.Count <= 20 ? string.Join(", ", terms.Select(t => t.Id)) : $"the {terms.Count} ids that GET /v1/vocabulary lists";
            if (id is null)
            {
                if (required)
                {
                    faults.Add(new Fault(at, "required", $"{at[(at.LastIndexOf('/') + 1)..]} is missing; give one of {wanted}."));
                }
            }
            else if (!terms.Has(id))
            {
                faults.Add(new Fault(at, "unknown-id", $"{FaultText.Quote(id)} is not known; give one of {wanted}."));
            }
        }
    }
}
