using Recommender.Domain.Decisions;
using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Audit;

/// <summary>What changed from one recommendation to the next, each change with why: what the gates refuse, which points moved, what stands in the dose. Pure; asks the stages again.</summary>
public static class PickChanges
{
    /// <summary>Factors told for an exercise that rose or fell.</summary>
    private const int MostFactors = 2;

    /// <summary>The changes: what went, in the order it stood; what came, by rank; then doses that differ, by rank.</summary>
    /// <param name="before">The earlier recommendation.</param>
    /// <param name="after">The later one.</param>
    public static IReadOnlyList<PickChange> Of(Decided before, Decided after)
    {
        var (was, now) = (new Asked(before), new Asked(after));
        var gone = before.Answer.Picks.Where(p => after.Answer.Picks.All(n => n.Exercise.Id != p.Exercise.Id)).ToList();
        var come = after.Answer.Picks.Where(p => before.Answer.Picks.All(n => n.Exercise.Id != p.Exercise.Id)).ToList();
        return
        [
            .. gone.Select(p => new PickChange(PickChangeKind.Gone, p.Exercise.Id, p.Exercise.Name, p.Dose, null, Gone(p, now, come))),
            .. come.Select(p => new PickChange(PickChangeKind.Come, p.Exercise.Id, p.Exercise.Name, null, p.Dose, Come(p, was, gone))),
            .. after.Answer.Picks
                .Select(n => (Now: n, Was: before.Answer.Picks.FirstOrDefault(p => p.Exercise.Id == n.Exercise.Id)))
                .Where(x => x.Was is not null && !Same(x.Was.Dose, x.Now.Dose))
                .Select(x => new PickChange(PickChangeKind.Dosed, x.Now.Exercise.Id, x.Now.Exercise.Name, x.Was!.Dose, x.Now.Dose, Dosed(x.Was, x.Now, before, after))),
        ];
    }

    /// <summary>Whether an athlete would do the same.</summary>
    private static bool Same(Dose? was, Dose? now) => was is null || now is null ? was is null && now is null : Done(was) == Done(now) && Side(was.Sides?.Left) == Side(now.Sides?.Left) && Side(was.Sides?.Right) == Side(now.Sides?.Right);

    private static (int, decimal, Intensity, decimal?, int, string?)? Side(Dose? dose) => dose is null ? null : Done(dose);

    private static (int, decimal, Intensity, decimal?, int, string?) Done(Dose dose) => (dose.Sets, dose.Amount, dose.Intensity, dose.LoadKg, dose.RestSeconds, dose.Tempo);

    private static IReadOnlyList<string> Gone(Pick pick, Asked now, List<Pick> come)
    {
        if (now.Closed(pick.Exercise.Id) is { Count: > 0 } closed)
        {
            return closed;
        }

        var moved = Moved(pick.Contributions, now.Explain(pick.Exercise.Id), rises: false);
        return moved is not null ? [moved]
            : come.Count > 0 ? [$"Still possible; {string.Join(", ", come.Select(c => c.Exercise.Name))} {(come.Count == 1 ? "comes" : "come")} first now"]
            : [];
    }

    private static IReadOnlyList<string> Come(Pick pick, Asked was, List<Pick> gone)
    {
        if (was.Closed(pick.Exercise.Id) is { Count: > 0 } closed)
        {
            return [.. closed.Select(c => "Held back before: " + c)];
        }

        var moved = Moved(was.Explain(pick.Exercise.Id), pick.Contributions, rises: true);
        return moved is not null ? [moved]
            : gone.Count > 0 ? [$"Moves up in place of {string.Join(", ", gone.Select(g => g.Exercise.Name))}"]
            : [];
    }

    /// <summary>How the score moved, by the factors that moved it most; null where it did not move that way.</summary>
    private static string? Moved(IReadOnlyList<Contribution> was, IReadOnlyList<Contribution> now, bool rises)
    {
        var byFactor = was.Join(now, w => w.Factor, n => n.Factor, (w, n) => (n.Label, By: (n.Points - w.Points).Thousandths, Parts: Parts(w, n))).ToList();
        var all = byFactor.Sum(f => f.By);
        if (all == 0 || all > 0 != rises)
        {
            return null;
        }

        var most = byFactor.Where(f => f.By != 0 && f.By > 0 == rises).OrderByDescending(f => Math.Abs(f.By)).Take(MostFactors)
            .Select(f => $"{f.Label.ToLowerInvariant()} {Signed(f.By)}{(f.Parts is { } part ? $" ({part})" : "")}");
        return $"Scores {Number(Math.Abs(all))} {(rises ? "more" : "less")}: {string.Join(", ", most)}";
    }

    /// <summary>The part of a factor that moved most, or null.</summary>
    private static string? Parts(Contribution was, Contribution now)
    {
        var codes = was.Details.Select(d => d.Code).Union(now.Details.Select(d => d.Code), StringComparer.Ordinal);
        var parts = codes.Select(c => (Was: was.Details.FirstOrDefault(d => d.Code == c), Now: now.Details.FirstOrDefault(d => d.Code == c)))
            .Select(x => ((x.Now ?? x.Was)!.Label, By: (x.Now?.Points.Thousandths ?? 0) - (x.Was?.Points.Thousandths ?? 0)))
            .Where(x => x.By != 0).ToList();
        return parts.Count == 0 ? null : parts.MaxBy(p => Math.Abs(p.By)).Label;
    }

    private static List<string> Dosed(Pick was, Pick now, Decided before, Decided after)
    {
        var reasons = new List<string>();
        var (codes, codesNow) = (Codes(was.Dose), Codes(now.Dose));
        reasons.AddRange((now.Dose?.Adjustments ?? []).Where(a => !codes.Contains(a.Code)).Select(a => a.Note.TrimEnd('.')));
        reasons.AddRange((was.Dose?.Adjustments ?? []).Where(a => !codesNow.Contains(a.Code)).Select(a => $"No longer: {a.Note.TrimEnd('.')}"));
        if (Purpose(was, before.Edition) is var purpose && Purpose(now, after.Edition) is var purposeNow && purpose != purposeNow)
        {
            reasons.Add($"There for {purposeNow} now, before for {purpose}");
        }

        if (before.Request.Phase != after.Request.Phase)
        {
            reasons.Add($"The dose of {after.Edition.Catalogue.Vocabulary.Phases.InSentence(after.Request.Phase!)} in place of that of {before.Edition.Catalogue.Vocabulary.Phases.InSentence(before.Request.Phase!)}");
        }

        return reasons;
    }

    private static HashSet<string> Codes(Dose? dose) => (dose?.Adjustments ?? []).Select(a => a.Code).ToHashSet(StringComparer.Ordinal);

    /// <summary>The quality that a pick is there for, as it stands in a sentence: what its first detail, need:QUALITY, is about.</summary>
    private static string Purpose(Pick pick, Edition edition) =>
        pick.Contributions is [{ Details: [var first, ..] }, ..] && first.Code[(first.Code.IndexOf(':', StringComparison.Ordinal) + 1)..] is var id && edition.Catalogue.Vocabulary.Qualities.Has(id) ? edition.Catalogue.Vocabulary.Qualities.InSentence(id) : "";

    private static string Signed(int thousandths) => (thousandths > 0 ? "+" : "−") + Number(Math.Abs(thousandths));

    private static string Number(int thousandths) => (thousandths / 1000m).ToString("0.##", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>The stages of one recommendation, at hand for any exercise.</summary>
    private sealed class Asked
    {
        private readonly Edition edition;
        private readonly WhyClosed closed;
        private readonly ScoringEngine engine;

        public Asked(Decided decided)
        {
            edition = decided.Edition;
            var situation = Situation.Of(decided.Request, edition);
            var profile = NeedAnalysis.Derive(situation);
            var limits = TissueLimits.Of(situation);
            closed = new WhyClosed(new GateContext(situation, limits));
            engine = new ScoringEngine(new ScoringContext(situation, profile, new NeedTable(profile, edition.Knowledge.Scoring.NeedMatch, edition.Catalogue.Vocabulary.Qualities.Count)));
        }

        /// <summary>Why it is not open, each as a sentence begins; empty when it is.</summary>
        public IReadOnlyList<string> Closed(string exercise) => [.. closed.Of(exercise).Select(why => char.ToUpperInvariant(why[0]) + why[1..])];

        public IReadOnlyList<Contribution> Explain(string exercise) => engine.Explain(edition.Catalogue.PositionOf(exercise));
    }
}

/// <summary>A recommendation with what it was made on.</summary>
/// <param name="Request">The request, without faults on its edition.</param>
/// <param name="Answer">The answer on record.</param>
/// <param name="Edition">Its edition.</param>
public sealed record Decided(RecommendationRequest Request, Answer Answer, Edition Edition);

/// <summary>What became of a pick.</summary>
public enum PickChangeKind
{
    /// <summary>It is no longer there.</summary>
    Gone,

    /// <summary>It is new.</summary>
    Come,

    /// <summary>It stays with another dose.</summary>
    Dosed,
}

/// <summary>A pick that changed.</summary>
/// <param name="Kind">How.</param>
/// <param name="Exercise">Exercise id.</param>
/// <param name="Name">Its name.</param>
/// <param name="Was">Dose before; null where it is new or a clinician dosed.</param>
/// <param name="Now">Dose now; null where it went or a clinician doses.</param>
/// <param name="Reasons">Why, in plain words without a full stop; empty where nothing of the picks themselves says it.</param>
public sealed record PickChange(PickChangeKind Kind, string Exercise, string Name, Dose? Was, Dose? Now, IReadOnlyList<string> Reasons);
