using Recommender.Answers.Learned;
using Recommender.Domain.Audit;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>Asks a decision on record again: two exercises beside each other, what would have changed it, how firm it is. Nothing goes on record.</summary>
/// <param name="log">Keeps decisions.</param>
/// <param name="editions">Gives the edition that a decision was made on.</param>
/// <param name="facts">Gives what was read from the store for it.</param>
public sealed class AuditDecision(IDecisionLog log, Editions editions, ReadFacts facts)
{
    private const string First = "first";
    private const string Second = "second";
    private const string Exercise = "exercise";

    /// <summary>Two exercises of a decision beside each other.</summary>
    /// <param name="organisation">Who asks.</param>
    /// <param name="decisionId">Decision.</param>
    /// <param name="first">Exercise id.</param>
    /// <param name="second">Another one.</param>
    /// <returns>The comparison, or what is wrong with the ids; null when the organisation has no such decision.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="EditionGoneException">The versions that the decision was made on cannot be had.</exception>
    public async Task<Audited<ComparisonAnswer>?> Compare(string organisation, string decisionId, string first, string second)
    {
        if (await Open(organisation, decisionId).ConfigureAwait(false) is not { } asked)
        {
            return null;
        }

        List<Fault> faults = [.. Unknown(First, first, asked.Edition), .. Unknown(Second, second, asked.Edition)];
        if (faults.Count == 0 && first == second)
        {
            faults.Add(new Fault("?second", "contradiction", "first and second are the same exercise; give two."));
        }

        return faults.Count > 0 ? new Audited<ComparisonAnswer>(null, faults) : new Audited<ComparisonAnswer>(Comparisons.Of(asked.Question, asked.Edition, first, second), []);
    }

    /// <summary>What would have brought an exercise in, or first.</summary>
    /// <param name="organisation">Who asks.</param>
    /// <param name="decisionId">Decision.</param>
    /// <param name="exercise">Exercise id.</param>
    /// <param name="mayLowerPain">Whether changes that lower pain are told: for staff alone.</param>
    /// <returns>The changes, or what is wrong with the id; null when the organisation has no such decision.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="EditionGoneException">The versions that the decision was made on cannot be had.</exception>
    public async Task<Audited<CounterfactualsAnswer>?> Change(string organisation, string decisionId, string exercise, bool mayLowerPain)
    {
        if (await Open(organisation, decisionId).ConfigureAwait(false) is not { } asked)
        {
            return null;
        }

        List<Fault> faults = [.. Unknown(Exercise, exercise, asked.Edition)];
        return faults.Count > 0 ? new Audited<CounterfactualsAnswer>(null, faults)
            : new Audited<CounterfactualsAnswer>(Counterfactuals.Of(asked.Question, asked.Edition, exercise, mayLowerPain), []);
    }

    /// <summary>How firm the first place is.</summary>
    /// <returns>The share and what moves it; null when the organisation has no such decision.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="EditionGoneException">The versions that the decision was made on cannot be had.</exception>
    public async Task<SensitivityAnswer?> Vary(string organisation, string decisionId) =>
        await Open(organisation, decisionId).ConfigureAwait(false) is { } asked ? Sensitivity.Of(asked.Question, asked.Edition) : null;

    private async Task<(Question Question, Edition Edition)?> Open(string organisation, string decisionId)
    {
        if (await log.Read(organisation, decisionId).ConfigureAwait(false) is not { } stored)
        {
            return null;
        }

        return (await QuestionOf(stored.Record).ConfigureAwait(false), await editions.Of(organisation, stored.Record.Versions).ConfigureAwait(false) ?? throw new EditionGoneException(stored.Record.Versions));
    }

    /// <summary>What a decision was asked, with what was read from the store for it; a session that named an earlier decision has its picks again.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="EditionGoneException">The preference that it was made on is not kept.</exception>
    public async Task<Question> QuestionOf(DecisionRecord record)
    {
        var (request, personal) = (record.Request, record.Personal);
        var read = await facts.OfRecord(record).ConfigureAwait(false) ?? throw new EditionGoneException(record.Versions);
        if (record.Kind == DecisionKind.Recommendation.Id)
        {
            return new RecommendationAsked(DecisionKind.Recommendation.Reading(DecisionKind.Recommendation.Join(request.Span, personal.Span), read));
        }

        if (record.Kind == DecisionKind.Substitution.Id)
        {
            return new SubstitutionAsked(DecisionKind.Substitution.Reading(DecisionKind.Substitution.Join(request.Span, personal.Span), read));
        }

        var session = DecisionKind.Session.Reading(DecisionKind.Session.Join(request.Span, personal.Span), read);
        return new SessionAsked(await AnswerSession.EarlierOf(record, log).ConfigureAwait(false) is { } earlier ? new SessionRequestKeeping(session, earlier) : session);
    }

    private static IEnumerable<Fault> Unknown(string parameter, string id, Edition edition)
    {
        if (edition.Catalogue.PositionOf(id) < 0)
        {
            yield return new Fault($"?{parameter}", "unknown-id", $"{parameter} is not an exercise of the catalogue; did you mean {NearestExercise.To(id, edition.Catalogue)}? GET /v1/exercises?q= finds others.");
        }
    }
}

/// <summary>The versions that a decision was made on are not kept, or this program cannot read them.</summary>
/// <param name="versions">Which.</param>
public sealed class EditionGoneException(VersionStamp versions)
    : Exception($"The decision was made on catalogue {versions.Catalogue} and rules {versions.Rules}{(versions.Preference is null ? "" : " and preference " + versions.Preference)}, which are not kept here or cannot be read by this program.");

/// <summary>What became of a question about a decision.</summary>
/// <typeparam name="T">Answer.</typeparam>
/// <param name="Answer">The answer; null when there are faults.</param>
/// <param name="Faults">What is wrong with what was asked about.</param>
public sealed record Audited<T>(T? Answer, IReadOnlyList<Fault> Faults) where T : class;
