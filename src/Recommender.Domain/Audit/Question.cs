using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Selection;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;

namespace Recommender.Domain.Audit;

/// <summary>What a decision was asked: its kind and request, so that it can be asked again, changed or not.</summary>
/// <param name="context">Athlete and situation.</param>
/// <param name="at">JSON Pointer to the context in the request as sent; empty where it is the request itself.</param>
public abstract class Question(RecommendationRequest context, string at)
{
    /// <summary>Athlete and situation.</summary>
    public RecommendationRequest Context { get; } = context;

    /// <summary>JSON Pointer to the context in the request as sent.</summary>
    public string At { get; } = at;

    /// <summary>Exercise ids of the picks in their order, by the pipeline itself.</summary>
    public abstract IReadOnlyList<string> Picks(Edition edition);

    /// <summary>The same question about another context.</summary>
    internal abstract Question With(RecommendationRequest context);

    /// <summary>The context as the stages are given it.</summary>
    internal virtual RecommendationRequest Staged(Edition edition) => Context;

    /// <summary>Catalogue positions of the picks in their order, from what the stages found; what the pipeline chooses, without wording it.</summary>
    internal abstract IReadOnlyList<int> Choose(Trial trial);
}

/// <summary>A recommendation.</summary>
/// <param name="request">A request without faults.</param>
public sealed class RecommendationAsked(RecommendationRequest request) : Question(request, "")
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Picks(Edition edition) => [.. RecommendationPipeline.Answer(Context, edition, "").Picks.Select(p => p.Exercise.Id)];

    /// <inheritdoc/>
    internal override Question With(RecommendationRequest context) => new RecommendationAsked(context);

    /// <inheritdoc/>
    internal override IReadOnlyList<int> Choose(Trial trial)
    {
        var ranking = trial.Ranking();
        return [.. RankingSelector.Pick(ranking, trial.Needs, trial.Situation).Select(rank => ranking.Positions[rank])];
    }
}

/// <summary>A substitution.</summary>
/// <param name="request">A request without faults.</param>
public sealed class SubstitutionAsked(SubstitutionRequest request) : Question(request.Context!, "/context")
{
    /// <summary>The request.</summary>
    public SubstitutionRequest Request { get; } = request;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Picks(Edition edition) => [.. SubstitutionPipeline.Answer(Request, edition, "").Picks.Select(p => p.Exercise.Id)];

    /// <summary>What is compared with: the replaced exercise or its description.</summary>
    internal Catalogue.Traits Replaced(Edition edition) => Request.Exercise is { } id
        ? edition.Catalogue.Traits[edition.Catalogue.PositionOf(id)]
        : DescribedTraits.Of(Request.Described!, edition.Catalogue.Vocabulary);

    /// <summary>Likeness in the needs of a situation.</summary>
    internal static Likeness LikenessIn(Situation situation, NeedProfile profile) =>
        new(situation.Knowledge.Substitution, situation.Knowledge.Scoring.NeedMatch.FitByRating, profile, situation.Catalogue.Vocabulary);

    /// <inheritdoc/>
    internal override Question With(RecommendationRequest context) => new SubstitutionAsked(Request with { Context = context });

    /// <inheritdoc/>
    internal override RecommendationRequest Staged(Edition edition) => Context with { Count = Request.Count ?? edition.Knowledge.Substitution.Count };

    /// <inheritdoc/>
    internal override IReadOnlyList<int> Choose(Trial trial) => [.. Candidates(trial, trial.Ranking()).Select(c => c.Position)];

    /// <summary>What is offered, with its likeness.</summary>
    internal IReadOnlyList<(int Position, Candidate Candidate)> Candidates(Trial trial, Scoring.Ranking ranking) =>
        [.. SubstituteChoice.Of(Request, trial.Situation, trial.Limits, ranking, LikenessIn(trial.Situation, trial.Profile), Replaced(trial.Situation.Edition)).Candidates.Select(c => (ranking.Positions[c.Rank], c))];
}

/// <summary>A session.</summary>
/// <param name="request">A request without faults; with the picks of the earlier decision where it names one.</param>
public sealed class SessionAsked(SessionRequest request) : Question(request.Context!, "/context")
{
    /// <summary>The request.</summary>
    public SessionRequest Request { get; } = request;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Picks(Edition edition) => [.. SessionPipeline.Answer(Request, edition, "").Picks.Select(p => p.Exercise.Id)];

    /// <inheritdoc/>
    internal override Question With(RecommendationRequest context) => new SessionAsked(Request with { Context = context });

    /// <inheritdoc/>
    internal override RecommendationRequest Staged(Edition edition) => Context with { Exclude = [.. Context.Exclude ?? [], .. Request.Avoid ?? []] };

    /// <inheritdoc/>
    internal override IReadOnlyList<int> Choose(Trial trial) =>
        Set(trial) is { Choice: { Items: not null } choice, Set: var set } ? [.. set.InOrder(choice, out _).Select(p => p.Candidate.Position)] : [];

    /// <summary>The set and its choice; null where locks are not safe or a referral ends the line.</summary>
    internal (SessionSet Set, SessionChoice Choice)? Set(Trial trial)
    {
        var eligibility = trial.Outcome();
        var set = new SessionSet(Request, trial.Situation, trial.Profile, trial.Needs, eligibility, trial.Engine);
        return trial.Referred || new SessionBlocks(trial.Situation, eligibility, set.Locked).OfLocks().Count > 0 ? null : (set, set.Choose());
    }
}
