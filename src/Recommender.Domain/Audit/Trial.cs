using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Audit;

/// <summary>The stages of a question up to scores, for every exercise, refused ones too.</summary>
internal sealed class Trial
{
    private readonly Question question;
    private readonly int[] countByGate;
    private Alike? alike;

    private Trial(Question question, Situation situation, NeedProfile profile, NeedTable needs, TissueLimits limits, ScoringEngine engine, uint[] refusedBy, int[] countByGate, int[] scores, int[] needPoints)
    {
        this.question = question;
        this.countByGate = countByGate;
        Situation = situation;
        Profile = profile;
        Needs = needs;
        Limits = limits;
        Engine = engine;
        RefusedBy = refusedBy;
        Scores = scores;
        NeedPoints = needPoints;
    }

    /// <summary>The situation.</summary>
    public Situation Situation { get; }

    /// <summary>What is needed.</summary>
    public NeedProfile Profile { get; }

    /// <summary>Points of the needs.</summary>
    public NeedTable Needs { get; }

    /// <summary>Limits and referral.</summary>
    public TissueLimits Limits { get; }

    /// <summary>Takes scores apart.</summary>
    public ScoringEngine Engine { get; }

    /// <summary>[exercise] bit per gate.</summary>
    public uint[] RefusedBy { get; }

    /// <summary>[exercise] thousandths.</summary>
    public int[] Scores { get; }

    /// <summary>[exercise] thousandths that the need match alone brings.</summary>
    public int[] NeedPoints { get; }

    /// <summary>Likeness of every exercise in these needs; in a substitution only.</summary>
    public Alike Alike => alike ??= new Alike((SubstitutionAsked)question, this);

    /// <summary>Whether a referral of scope all ends the line: nothing is eligible, and no gate was asked.</summary>
    public bool Referred => Limits.Referral?.Scope == "all";

    /// <summary>Runs the stages.</summary>
    public static Trial Of(Question question, Edition edition)
    {
        var situation = Situation.Of(question.Staged(edition), edition);
        return Of(question, edition, situation, TissueLimits.Of(situation));
    }

    /// <summary>Runs the stages from what was read of the question.</summary>
    public static Trial Of(Question question, Edition edition, Situation situation, TissueLimits limits)
    {
        var profile = NeedAnalysis.Derive(situation);
        var needs = new NeedTable(profile, edition.Knowledge.Scoring.NeedMatch, edition.Catalogue.Vocabulary.Qualities.Count);
        var eligibility = EligibilityFilter.Apply(new GateContext(situation, limits));
        var engine = new ScoringEngine(new ScoringContext(situation, profile, needs));
        var (scores, needPoints) = (new int[edition.Catalogue.Count], new int[edition.Catalogue.Count]);
        for (var e = 0; e < scores.Length; e++)
        {
            scores[e] = engine.Score(e, out needPoints[e]);
        }

        return new Trial(question, situation, profile, needs, limits, engine, eligibility.RefusedBy, eligibility.CountByGate, scores, needPoints);
    }

    /// <summary>A trial that was not run but put together; see <see cref="PairAddedUp"/>.</summary>
    /// <param name="question">The question.</param>
    /// <param name="situation">The situation.</param>
    /// <param name="profile">What is needed.</param>
    /// <param name="needs">Points of the needs.</param>
    /// <param name="limitsOf">Gives limits and engine.</param>
    /// <param name="refusedBy">[exercise] bit per gate.</param>
    /// <param name="scores">[exercise] thousandths.</param>
    /// <param name="needPoints">[exercise] thousandths of the need match.</param>
    /// <param name="alikeOf">A trial of the same needs, whose likeness holds here too; or null.</param>
    public static Trial PutTogether(Question question, Situation situation, NeedProfile profile, NeedTable needs, Trial limitsOf, uint[] refusedBy, int[] scores, int[] needPoints, Trial? alikeOf) =>
        new(question, situation, profile, needs, limitsOf.Limits, limitsOf.Engine, refusedBy, [], scores, needPoints) { alike = question is SubstitutionAsked ? alikeOf?.Alike : null };

    /// <summary>Thousandths of what was learned from choices; null where nothing was.</summary>
    public int[]? Leans(IReadOnlyList<int> positions) => Situation.Preference is null ? null : [.. positions.Select(p => Engine.Explain(p)[^1].Points.Thousandths)];

    /// <summary>Catalogue positions of the picks in their order.</summary>
    public IReadOnlyList<int> Choose() => question.Choose(this);

    /// <summary>1 for the first pick; 0 when it is none.</summary>
    /// <param name="position">Catalogue position.</param>
    public int PlaceOf(int position) => Referred || RefusedBy[position] != 0 ? 0 : Choose().IndexOf(position) + 1;

    /// <summary>Catalogue position of the first pick; -1 where there is none.</summary>
    public int First()
    {
        if (Referred)
        {
            return -1;
        }

        // Without asks the first pick is the one with most points that serves a need; nothing has been seated or counted before it.
        return question switch
        {
            SubstitutionAsked => Alike.First(this),
            RecommendationAsked when Situation.Asks.Count == 0 => Best(),
            _ => Choose() is [var first, ..] ? first : -1,
        };
    }

    private int Best()
    {
        var least = Points.Of(Situation.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;
        var best = -1;
        for (var e = 0; e < Scores.Length; e++)
        {
            if (RefusedBy[e] == 0 && NeedPoints[e] >= least && (best < 0 || Scores[e] > Scores[best]))
            {
                best = e;
            }
        }

        return best;
    }

    /// <summary>Eligible exercises by score.</summary>
    public Ranking Ranking()
    {
        var eligible = Eligible();
        var (keys, needPoints) = (new long[eligible.Length], new int[eligible.Length]);
        for (var i = 0; i < eligible.Length; i++)
        {
            keys[i] = Scoring.Ranking.KeyOf(Scores[eligible[i]], i);
            needPoints[i] = NeedPoints[eligible[i]];
        }

        return Scoring.Ranking.Of(eligible, keys, needPoints);
    }

    /// <summary>What the gates said.</summary>
    public EligibilityOutcome Outcome() => new(Limits, Eligible(), RefusedBy, countByGate, new GateContext(Situation, Limits));

    private int[] Eligible()
    {
        if (Referred)
        {
            return [];
        }

        var eligible = new int[RefusedBy.AsSpan().Count(0U)];
        var n = 0;
        for (var e = 0; e < RefusedBy.Length; e++)
        {
            if (RefusedBy[e] == 0)
            {
                eligible[n++] = e;
            }
        }

        return eligible;
    }
}
