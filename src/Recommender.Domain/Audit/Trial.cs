using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Scoring.Factors;

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
    public Alike Alike => alike ??= ((SubstitutionAsked)question).AlikeIn(this);

    /// <summary>Whether a referral of scope all ends the line: nothing is eligible, and no gate was asked.</summary>
    public bool Referred => Limits.Referral?.Scope == "all";

    /// <summary>Runs the stages.</summary>
    public static Trial Of(Question question, Edition edition)
    {
        var situation = Situation.Of(question.Staged(edition), edition);
        return Of(question, edition, situation, TissueLimits.Of(situation));
    }

    /// <summary>Runs the stages where they let an exercise in; null where they do not, which is found out before the others are asked about.</summary>
    public static Trial? OfOpen(Question question, Edition edition, int position)
    {
        var situation = Situation.Of(question.Staged(edition), edition);
        var limits = TissueLimits.Of(situation);
        var context = new GateContext(situation, limits);
        return limits.Referral?.Scope == "all" || EligibilityFilter.Gates.Any(g => g.Asks(context) && g.Refuses(context, position)) ? null : Of(question, edition, situation, limits);
    }

    private static Trial Of(Question question, Edition edition, Situation situation, TissueLimits limits)
    {
        var profile = NeedAnalysis.Derive(situation);
        var needs = new NeedTable(profile, edition.Knowledge.Scoring.NeedMatch, edition.Catalogue.Vocabulary.Qualities.Count);
        var eligibility = EligibilityFilter.Apply(new GateContext(situation, limits));
        var engine = new ScoringEngine(new ScoringContext(situation, profile, needs, limits));
        var (scores, needPoints) = (new int[edition.Catalogue.Count], new int[edition.Catalogue.Count]);
        for (var e = 0; e < scores.Length; e++)
        {
            scores[e] = engine.Score(e, out needPoints[e]);
        }

        return new Trial(question, situation, profile, needs, limits, engine, eligibility.RefusedBy, eligibility.CountByGate, scores, needPoints);
    }

    /// <summary>Two changes together, put together from each alone. Holds only where they touch different gates and factors.</summary>
    /// <param name="start">The question unchanged.</param>
    /// <param name="one">One change.</param>
    /// <param name="gatesOfOne">Bits of the gates that it can touch.</param>
    /// <param name="other">The other change; if only one changes needs, this one does.</param>
    /// <param name="gatesOfOther">Bits of the gates that it can touch.</param>
    /// <param name="both">The question with both changes where both change needs; their needs are then derived together. Else null.</param>
    public static Trial Together(Trial start, Trial one, uint gatesOfOne, Trial other, uint gatesOfOther, Question? both = null)
    {
        var n = start.Scores.Length;
        var (refused, scores) = (new uint[n], new int[n]);
        var untouched = ~(gatesOfOne | gatesOfOther);
        for (var e = 0; e < n; e++)
        {
            refused[e] = (start.RefusedBy[e] & untouched) | (one.RefusedBy[e] & gatesOfOne) | (other.RefusedBy[e] & gatesOfOther);
            scores[e] = one.Scores[e] + other.Scores[e] - start.Scores[e];
        }

        if (both is null)
        {
            // Likeness hangs on needs alone, so it is that of the change that may touch them.
            return new Trial(start.question, other.Situation, other.Profile, other.Needs, other.Limits, other.Engine, refused, [], scores, other.NeedPoints) { alike = other.alike ??= (start.question as SubstitutionAsked)?.AlikeIn(other) };
        }

        var situation = Situation.Of(both.Staged(start.Situation.Edition), start.Situation.Edition);
        var profile = NeedAnalysis.Derive(situation);
        var needs = new NeedTable(profile, situation.Knowledge.Scoring.NeedMatch, situation.Catalogue.Vocabulary.Qualities.Count);
        var match = new NeedMatch().Prepare(new ScoringContext(situation, profile, needs, other.Limits));
        var needPoints = new int[n];
        for (var e = 0; e < n; e++)
        {
            if (refused[e] == 0)
            {
                var sink = new PointSink(null);
                match.Score(e, ref sink);
                needPoints[e] = sink.Total;
                scores[e] += needPoints[e] - one.NeedPoints[e] - other.NeedPoints[e] + start.NeedPoints[e];
            }
        }

        return new Trial(start.question, situation, profile, needs, other.Limits, other.Engine, refused, [], scores, needPoints);
    }

    /// <summary>Catalogue positions of the picks in their order.</summary>
    public IReadOnlyList<int> Choose() => question.Choose(this);

    /// <summary>1 for the first pick; 0 when it is none.</summary>
    /// <param name="position">Catalogue position.</param>
    /// <param name="onlyFirst">Whether no more is asked than if it is first; any other place may then be given as 0.</param>
    public int PlaceOf(int position, bool onlyFirst = false)
    {
        if (Referred || (RefusedBy[position] != 0))
        {
            return 0;
        }

        if (onlyFirst && question is SubstitutionAsked)
        {
            return SubstitutionAsked.IsFirst(this, position) ? 1 : 0;
        }

        // Without asks the first pick is the one with most points that serves a need; nothing has been seated or counted before it.
        if (onlyFirst && question is RecommendationAsked && Situation.Asks.Count == 0)
        {
            return IsBest(position) ? 1 : 0;
        }

        var picks = Choose();
        for (var i = 0; i < picks.Count; i++)
        {
            if (picks[i] == position)
            {
                return i + 1;
            }
        }

        return 0;
    }

    private bool IsBest(int position)
    {
        var least = Points.Of(Situation.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;
        if (NeedPoints[position] < least)
        {
            return false;
        }

        for (var e = 0; e < Scores.Length; e++)
        {
            if (RefusedBy[e] == 0 && NeedPoints[e] >= least && (Scores[e] > Scores[position] || (Scores[e] == Scores[position] && e < position)))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Eligible exercises by score.</summary>
    public Ranking Ranking()
    {
        var eligible = Eligible();
        var keys = new long[eligible.Length];
        for (var i = 0; i < eligible.Length; i++)
        {
            keys[i] = ((long)-Scores[eligible[i]] << 32) | (uint)i;
        }

        Array.Sort(keys);
        var (positions, scores, needPoints) = (new int[keys.Length], new int[keys.Length], new int[keys.Length]);
        for (var rank = 0; rank < keys.Length; rank++)
        {
            positions[rank] = eligible[(int)(uint)keys[rank]];
            scores[rank] = Scores[positions[rank]];
            needPoints[rank] = NeedPoints[positions[rank]];
        }

        return new Ranking(positions, scores, needPoints);
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
