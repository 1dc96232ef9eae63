using Recommender.Domain.Eligibility;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Sessions;

/// <summary>A session's exercises on their way from what the stages found to picks in their order. Whoever writes a session and whoever asks about one goes this way, so both see the same picks.</summary>
internal sealed class SessionSet
{
    private readonly SessionRequest request;
    private readonly Situation situation;
    private readonly NeedProfile profile;
    private readonly NeedTable needs;

    /// <param name="request">A request without faults; with the picks of the earlier decision where it names one.</param>
    /// <param name="situation">The situation.</param>
    /// <param name="profile">What is needed.</param>
    /// <param name="needs">Points of the needs.</param>
    /// <param name="eligibility">What the gates said.</param>
    /// <param name="engine">Gives scores.</param>
    public SessionSet(SessionRequest request, Situation situation, NeedProfile profile, NeedTable needs, EligibilityOutcome eligibility, ScoringEngine engine)
    {
        (this.request, this.situation, this.profile, this.needs) = (request, situation, profile, needs);
        Locked = (request.Locked ?? []).Select(situation.Catalogue.PositionOf).ToHashSet();
        Size = SessionSize.Of(request, situation);
        Budgets = TissueBudget.Of(request, situation);
        Problem = new SessionProblem(situation, needs, SessionCandidates.Of(situation, profile, needs, eligibility, engine, Locked), Budgets, Locked);
        Solver = new SessionSolver(Problem, Size.Tenths, Size.Least, Size.Most, situation.Knowledge.Session.Search.Nodes);
    }

    /// <summary>Catalogue positions that stay.</summary>
    public IReadOnlySet<int> Locked { get; }

    /// <summary>Minutes and number of exercises.</summary>
    public SessionSize Size { get; }

    /// <summary>Budgets of regions.</summary>
    public IReadOnlyList<TissueBudget> Budgets { get; }

    /// <summary>Candidates and limits.</summary>
    public SessionProblem Problem { get; }

    /// <summary>Solves the problem.</summary>
    public SessionSolver Solver { get; }

    /// <summary>The choice; near the best, one that keeps earlier picks.</summary>
    public SessionChoice Choose()
    {
        var kept = ((request as SessionRequestKeeping)?.Earlier.Exercises ?? []).Select(situation.Catalogue.PositionOf).Where(p => Problem.Candidates.Any(c => c.Position == p)).ToHashSet();
        return Solver.Choose(kept, situation.Knowledge.Session.Keep.LossShare);
    }

    /// <summary>The picks of a choice in their order, with the extra sets of a weaker side: these take minutes, so they have a say in what is done in turn.</summary>
    /// <param name="choice">A choice with items.</param>
    /// <param name="savedTenths">Tenths of a minute that doing in turn saves.</param>
    public IReadOnlyList<PlacedPick> InOrder(SessionChoice choice, out int savedTenths) =>
        SessionOrder.Of(situation, WeakerSideSets.Of(situation, profile, needs, Problem, choice.Items!, Size.Tenths), out savedTenths);
}
