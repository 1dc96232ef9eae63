using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Scoring.Factors;
using Recommender.Domain.Substitutions;

namespace Recommender.Domain.Audit;

/// <summary>
/// Two changes of a question made together, asked about one exercise at a time: most pairs are settled by one rival that is still above, long before every
/// exercise was asked about.
/// </summary>
/// <param name="question">The question with both changes.</param>
/// <param name="edition">The edition.</param>
internal abstract class Pair(Question question, Edition edition)
{
    private Likeness? likeness;
    private SwapReason? reason;
    private Catalogue.Traits? replaced;

    /// <summary>The question with both changes.</summary>
    public Question Question => question;

    /// <summary>The edition.</summary>
    public Edition Edition => edition;

    /// <summary>The situation.</summary>
    public abstract Situation Situation { get; }

    /// <summary>What is needed.</summary>
    public abstract NeedProfile Profile { get; }

    /// <summary>Limits and referral.</summary>
    public abstract TissueLimits Limits { get; }

    /// <summary>Whether no gate refuses an exercise, and no referral leaves nothing open.</summary>
    public abstract bool IsOpen(int position);

    /// <summary>Thousandths, and those of them that the need match brings.</summary>
    public abstract int Score(int position, out int needPoints);

    /// <summary>Every exercise asked about.</summary>
    public abstract Trial Whole();

    /// <summary>In a substitution: likeness to the replaced exercise, share of its purpose kept, and likeness less what the reason takes; thousandths.</summary>
    public (int Likeness, int Kept, int Order) Alike(int position)
    {
        var asked = (SubstitutionAsked)question;
        replaced ??= asked.Replaced(edition);
        likeness ??= SubstitutionAsked.LikenessIn(Situation, Profile);
        reason ??= new SwapReason(asked.Request.Reason, Situation, Limits, replaced);
        var alike = likeness.Of(replaced, edition.Catalogue.Traits[position], out var kept);
        return (alike, kept, alike - reason.Takes(position));
    }
}

/// <summary>Two changes that touch the same gates or factors: the stages are run.</summary>
internal sealed class PairRun : Pair
{
    private readonly GateContext context;
    private NeedProfile? profile;
    private NeedTable? needs;
    private ScoringEngine? engine;

    /// <param name="question">The question with both changes.</param>
    /// <param name="edition">The edition.</param>
    public PairRun(Question question, Edition edition)
        : base(question, edition)
    {
        Situation = Situation.Of(question.Staged(edition), edition);
        Limits = TissueLimits.Of(Situation);
        context = new GateContext(Situation, Limits);
    }

    /// <inheritdoc/>
    public override Situation Situation { get; }

    /// <inheritdoc/>
    public override NeedProfile Profile => profile ??= NeedAnalysis.Derive(Situation);

    /// <inheritdoc/>
    public override TissueLimits Limits { get; }

    /// <inheritdoc/>
    public override bool IsOpen(int position)
    {
        if (Limits.Referral?.Scope == "all")
        {
            return false;
        }

        foreach (var gate in EligibilityFilter.Gates)
        {
            if (gate.Asks(context) && gate.Refuses(context, position))
            {
                return false;
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public override int Score(int position, out int needPoints)
    {
        needs ??= new NeedTable(Profile, Edition.Knowledge.Scoring.NeedMatch, Edition.Catalogue.Vocabulary.Qualities.Count);
        engine ??= new ScoringEngine(new ScoringContext(Situation, Profile, needs));
        return engine.Score(position, out needPoints);
    }

    /// <inheritdoc/>
    public override Trial Whole() => Trial.Of(Question, Edition, Situation, Limits);
}

/// <summary>
/// Two changes that touch no gate and no factor in common, put together from each alone: what one does is added to what the other does. Where both change
/// needs, these are derived together.
/// </summary>
internal sealed class PairAddedUp : Pair
{
    private readonly Trial start;
    private readonly (Trial Trial, EditKind Kind) one;
    private readonly (Trial Trial, EditKind Kind) other;
    private readonly bool together;
    private Situation? situation;
    private NeedProfile? profile;
    private NeedTable? needs;
    private Scorer? match;

    /// <param name="question">The question with both changes.</param>
    /// <param name="start">The question unchanged.</param>
    /// <param name="one">One change alone.</param>
    /// <param name="other">The other alone.</param>
    public PairAddedUp(Question question, Trial start, (Trial Trial, EditKind Kind) one, (Trial Trial, EditKind Kind) other)
        : base(question, start.Situation.Edition)
    {
        together = one.Kind.TouchesNeeds && other.Kind.TouchesNeeds;
        this.start = start;

        // What hangs on needs is the other's, if only one of them changes needs.
        (this.one, this.other) = one.Kind.TouchesNeeds && !together ? (other, one) : (one, other);
    }

    /// <inheritdoc/>
    public override Situation Situation => situation ??= together ? Situation.Of(Question.Staged(Edition), Edition) : other.Trial.Situation;

    /// <inheritdoc/>
    public override NeedProfile Profile => profile ??= together ? NeedAnalysis.Derive(Situation) : other.Trial.Profile;

    /// <inheritdoc/>
    public override TissueLimits Limits => other.Trial.Limits;

    private NeedTable Needs => needs ??= together ? new NeedTable(Profile, Edition.Knowledge.Scoring.NeedMatch, Edition.Catalogue.Vocabulary.Qualities.Count) : other.Trial.Needs;

    /// <inheritdoc/>
    public override bool IsOpen(int position) => Refused(position) == 0;

    /// <inheritdoc/>
    public override int Score(int position, out int needPoints)
    {
        var score = one.Trial.Scores[position] + other.Trial.Scores[position] - start.Scores[position];
        if (!together)
        {
            needPoints = other.Trial.NeedPoints[position];
            return score;
        }

        match ??= new NeedMatch().Prepare(new ScoringContext(Situation, Profile, Needs));
        var sink = new PointSink(null);
        match.Score(position, ref sink);
        needPoints = sink.Total;
        return score + needPoints - one.Trial.NeedPoints[position] - other.Trial.NeedPoints[position] + start.NeedPoints[position];
    }

    /// <inheritdoc/>
    public override Trial Whole()
    {
        var n = start.Scores.Length;
        var (refused, scores, needPoints) = (new uint[n], new int[n], new int[n]);
        for (var e = 0; e < n; e++)
        {
            refused[e] = Refused(e);
            scores[e] = Score(e, out needPoints[e]);
        }

        // Likeness hangs on needs alone.
        return Trial.PutTogether(Question, Situation, Profile, Needs, other.Trial, refused, scores, needPoints, together ? null : other.Trial);
    }

    private uint Refused(int e) =>
        (start.RefusedBy[e] & ~(one.Kind.GateBits | other.Kind.GateBits)) | (one.Trial.RefusedBy[e] & one.Kind.GateBits) | (other.Trial.RefusedBy[e] & other.Kind.GateBits);
}
