using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Audit;

/// <summary>
/// The smallest changes of a request that would have brought an exercise first, or in. Exact over the list of changes in the rules: every single change is
/// tried, pairs where no single one does, cheapest first. What is offered was run through the pipeline. Pure.
/// </summary>
/// <remarks>
/// Two changes that touch no gate and no factor in common add up, so their pair is put together from each alone; where both change needs, these are derived together;
/// other pairs run the stages. Whether a pair brings the exercise first is asked of the
/// exercises that were above it before all others are asked about. In a session only coming into the set is asked, and by single changes: each solves the set anew.
/// </remarks>
public sealed class Counterfactuals
{
    private readonly Question question;
    private readonly Edition edition;
    private readonly int position;
    private readonly Trial start;
    private readonly int startPlace;
    private readonly IReadOnlyList<RequestEdit> edits;
    private readonly Trial?[] singles;
    private readonly Rivals rivals;
    private readonly int offered;
    private int pairs;

    private Counterfactuals(Question question, Edition edition, int position, bool mayLowerPain)
    {
        (this.question, this.edition, this.position) = (question, edition, position);
        start = Trial.Of(question, edition);
        startPlace = start.PlaceOf(position);
        edits = RequestEdits.Of(question, start.Situation, edition.Catalogue.Exercises[position], mayLowerPain);
        singles = new Trial?[edits.Count];
        rivals = new Rivals(edition, position);
        offered = edition.Knowledge.Audit.Counterfactuals.Offered;
    }

    private bool IsSession => question is SessionAsked;

    /// <summary>Nothing stands in for itself.</summary>
    private bool IsReplaced => question is SubstitutionAsked { Request.Exercise: { } replaced } && replaced == edition.Catalogue.Exercises[position].Id;

    /// <summary>The changes.</summary>
    /// <param name="question">What was asked.</param>
    /// <param name="edition">The edition it was answered on.</param>
    /// <param name="exercise">An exercise id of the catalogue.</param>
    /// <param name="mayLowerPain">Whether changes that lower pain are told: for staff alone.</param>
    /// <exception cref="ArgumentException">The id is not in the catalogue.</exception>
    public static CounterfactualsAnswer Of(Question question, Edition edition, string exercise, bool mayLowerPain)
    {
        var position = edition.Catalogue.PositionOf(exercise);
        if (position < 0)
        {
            throw new ArgumentException($"{exercise} is not an exercise of the catalogue.", nameof(exercise));
        }

        return new Counterfactuals(question, edition, position, mayLowerPain).Answer(exercise);
    }

    private CounterfactualsAnswer Answer(string exercise)
    {
        var first = new Offers(1, 1, offered);
        var within = new Offers(1, int.MaxValue, offered);
        var wanted = new List<Offers>();
        if (!IsSession && startPlace != 1)
        {
            wanted.Add(first);
        }

        if (startPlace == 0)
        {
            wanted.Add(within);
        }

        if (wanted.Count > 0 && !IsReplaced)
        {
            Singles(wanted);
            Pairs([.. wanted.Where(w => w.Count == 0)]);
        }

        List<Counterfactual> told = [.. first.Found.Select(Told), .. within.Found.Where(f => !first.Found.Contains(f)).Select(Told)];
        var tellsFirst = told.Exists(t => t.ResultingRank == 1);
        return new CounterfactualsAnswer(exercise, startPlace > 0 ? startPlace : null, told, IsSession ? (told.Count > 0 ? null : None()) : tellsFirst ? null : None(), new TriedChanges(edits.Count, pairs));
    }

    private void Singles(List<Offers> wanted)
    {
        var onlyFirst = wanted.TrueForAll(w => w.Most == 1);
        for (var i = 0; i < edits.Count; i++)
        {
            // A session stops at the cheapest that do: every further one solves a set.
            if (IsSession && wanted.TrueForAll(w => w.IsFull))
            {
                return;
            }

            if (CannotOpen(edits[i].Kind.GateBits))
            {
                continue;
            }

            singles[i] = Trial.Of(question.With(edits[i].Apply(question.Context)), edition);
            int[] found = [i];
            var place = onlyFirst ? (singles[i]!.First() == position ? 1 : 0) : singles[i]!.PlaceOf(position);
            wanted.ForEach(w => w.Offer(place, found, edits));
        }
    }

    private void Pairs(List<Offers> wanted)
    {
        if (IsSession || wanted.Count == 0)
        {
            return;
        }

        for (var i = 0; i < edits.Count; i++)
        {
            singles[i] ??= Trial.Of(question.With(edits[i].Apply(question.Context)), edition);
        }

        var all = new List<(int Cost, int One, int Other)>();
        for (var i = 0; i < edits.Count; i++)
        {
            for (var j = i + 1; j < edits.Count; j++)
            {
                if (edits[i].Place != edits[j].Place)
                {
                    all.Add((edits[i].Cost + edits[j].Cost, i, j));
                }
            }
        }

        all.Sort();
        var onlyFirst = wanted.TrueForAll(w => w.Most == 1);
        rivals.Add(start.First());
        foreach (var (_, i, j) in all)
        {
            if (wanted.TrueForAll(w => w.IsFull))
            {
                return;
            }

            pairs++;
            int[] found = [i, j];
            var place = PlaceWith(i, j, onlyFirst);
            wanted.ForEach(w => w.Offer(place, found, edits));
        }
    }

    /// <summary>Place with two changes; if only the first is asked for, any other may be given as 0.</summary>
    private int PlaceWith(int i, int j, bool onlyFirst)
    {
        var (one, other) = (edits[i].Kind, edits[j].Kind);
        if (CannotOpen(one.GateBits | other.GateBits) || StaysReferred(i, j))
        {
            return 0;
        }

        var (a, b) = (singles[i]!, singles[j]!);
        // What was learned hangs on all factors, so what two changes do cannot be added up.
        Pair pair = !one.IsApartFrom(other) || start.Situation.Preference is not null || start.Referred || a.Referred || b.Referred ? new PairRun(Both(i, j), edition) : new PairAddedUp(Both(i, j), start, (a, one), (b, other));
        if (!pair.IsOpen(position))
        {
            return 0;
        }

        if (rivals.Bar(pair, onlyFirst))
        {
            return 0;
        }

        if (onlyFirst)
        {
            var first = pair.Whole().First();
            rivals.Add(first);
            return first == position ? 1 : 0;
        }

        var picks = pair.Whole().Choose();
        for (var p = picks.Count - 1; p >= 0; p--)
        {
            rivals.Add(picks[p]);
        }

        return picks.IndexOf(position) + 1;
    }

    /// <summary>Whether a referral stays: a change that cannot touch it leaves it as the other alone does.</summary>
    private bool StaysReferred(int i, int j) => (edits[i].Kind.TouchesReferral, edits[j].Kind.TouchesReferral) switch
    {
        (false, false) => start.Referred,
        (true, false) => singles[i]!.Referred,
        (false, true) => singles[j]!.Referred,
        _ => false,
    };

    private Question Both(int i, int j) => question.With(edits[j].Apply(edits[i].Apply(question.Context)));

    /// <summary>Whether a gate refuses the exercise that changes of these gates cannot touch.</summary>
    private bool CannotOpen(uint gates) => !start.Referred && (start.RefusedBy[position] & ~gates) != 0;

    private Counterfactual Told(int[] found)
    {
        var changed = found.Aggregate(question.Context, (context, i) => edits[i].Apply(context));
        var rank = question.With(changed).Picks(edition).ToList().IndexOf(edition.Catalogue.Exercises[position].Id) + 1;
        if (rank == 0)
        {
            throw new System.Diagnostics.UnreachableException("A change was found that the pipeline does not bear out.");
        }

        return new Counterfactual(Merged(found), rank, found.Sum(i => edits[i].Cost), Sentence(found, rank));
    }

    /// <summary>The changes as told; two that set the same absent list become one.</summary>
    private List<RequestChange> Merged(int[] found)
    {
        // What is taken out of a list comes last, from its end, so that the places of the request as sent hold while the changes are made in turn.
        var changes = found.Select(i => edits[i].Change).OrderBy(c => c.To is null).ThenByDescending(c => c.Pointer.Length).ThenByDescending(c => c.Pointer, StringComparer.Ordinal).ToList();
        if (changes is [var one, var other] && one.Pointer == other.Pointer)
        {
            object? to = (one.To, other.To) switch
            {
                (string[] a, string[] b) => a.Union(b, StringComparer.Ordinal).ToArray(),
                (Dictionary<string, string>[] a, Dictionary<string, string>[] b) => a.Concat(b).ToArray(),
                _ => null,
            };
            return to is null ? changes : [one with { To = to }];
        }

        return changes;
    }

    private string Sentence(int[] found, int rank)
    {
        var name = edition.Catalogue.Exercises[position].Name;
        var ifs = string.Join(" and ", found.Select(i => edits[i].Phrase));
        var then = IsSession ? "would be in the set" : rank == 1 ? "would come first" : $"would be pick {rank}";
        var pain = found.Any(i => edits[i].Kind.Id == "pain") ? " That is how the rule works, and no reason to report less: pain is told as it is felt." : "";
        return $"If {ifs}, {name} {then}.{pain}";
    }

    private string None()
    {
        var name = edition.Catalogue.Exercises[position].Name;
        if (startPlace == 1 || (IsSession && startPlace > 0))
        {
            return IsSession ? $"{name} is in the set already." : $"{name} is first already.";
        }

        if (IsReplaced)
        {
            return $"{name} is what is replaced; nothing stands in for itself.";
        }

        if (start.Referred)
        {
            return "A referral leaves nothing open; no change of this list takes it away.";
        }

        var words = edition.Catalogue.Vocabulary.Reasons;
        var closed = EligibilityFilter.Gates.Where((g, i) => (start.RefusedBy[position] & (1U << i)) != 0 && !edits.Any(e => (e.Kind.GateBits & (1U << i)) != 0)).Select(g => words.InSentence(g.Reason)).ToList();
        var why = closed.Count > 0 ? $" No change of the list takes away what keeps it out: {string.Join(", ", closed)}." : "";
        return IsSession ? $"No single change of the list brings {name} into the set.{why}" : $"No single change and no two changes of the list bring {name} first.{why}";
    }
}

/// <summary>What was found for one aim, cheapest first; of the changes of one slot only the smallest.</summary>
/// <param name="least">First place that will do.</param>
/// <param name="most">Last place that will do.</param>
/// <param name="offered">At most so many.</param>
internal sealed class Offers(int least, int most, int offered)
{
    private readonly HashSet<string> slots = new(StringComparer.Ordinal);

    /// <summary>Last place that will do.</summary>
    public int Most => most;

    /// <summary>Indices of the changes.</summary>
    public List<int[]> Found { get; } = [];

    /// <summary>How many there are.</summary>
    public int Count => Found.Count;

    /// <summary>Whether there are as many as are offered.</summary>
    public bool IsFull => Found.Count >= offered;

    /// <summary>Takes changes that reach the aim; called cheapest first.</summary>
    public void Offer(int place, int[] indices, IReadOnlyList<RequestEdit> edits)
    {
        if (place >= least && place <= most && !IsFull && slots.Add(string.Join('|', indices.Select(i => edits[i].Slot).Order(StringComparer.Ordinal))))
        {
            Found.Add(indices);
        }
    }
}
