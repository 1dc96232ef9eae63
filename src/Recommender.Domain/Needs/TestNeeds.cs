using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>
/// What tests show and what they raise. They are shown first and used second: each raises a need by a capped share, nothing inside measurement error or from a single trial, less
/// when they are old, nothing when testing hurt.
/// </summary>
internal sealed class TestNeeds
{
    private static readonly TestResults Untested = new();
    private readonly Situation situation;
    private readonly MeasureSheet sheet;
    private readonly List<string> cautions = [];
    private readonly List<WeakerSide> weakerSides = [];
    private readonly List<Judgement> judgements;
    private readonly IReadOnlyList<SideJudgement> sides;
    private readonly decimal share;

    private TestNeeds(Situation situation, TestResults tests)
    {
        this.situation = situation;
        sheet = TestMeasures.Of(situation);
        judgements = [.. ThresholdJudge.All(situation, sheet)];
        sides = SideJudge.All(situation, sheet, weakerSides);
        share = ShareOf(tests);
        Raises = TestRaises.Capped([.. Levels(), .. Differences()], Use, situation.Knowledge.Needs.TestsShareCap.Value);
        Say(tests);
        Derived = DerivedMeasures.Of(situation.Knowledge.Measures, sheet, judgements, sides, Raises);
    }

    /// <summary>What is added to the needs.</summary>
    public IReadOnlyList<TestRaise> Raises { get; }

    /// <summary>Every derived measure, and every test that a threshold reads.</summary>
    public IReadOnlyList<DerivedMeasure> Derived { get; }

    /// <summary>Sides that several tests show as weaker.</summary>
    public IReadOnlyList<WeakerSide> WeakerSides => weakerSides;

    /// <summary>What should be read with it, in plain words.</summary>
    public IReadOnlyList<string> Cautions => cautions;

    private TestUse Use => situation.Knowledge.Tests.Use;

    /// <summary>What the tests of a situation show; null when nothing was tested and no stated maximum tells anything.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="shown">Whether measures are wanted that raise nothing; without them a request without tests costs next to nothing.</param>
    public static TestNeeds? Of(Situation situation, bool shown)
    {
        var request = situation.Request;
        return request.Tests is { } tests ? new TestNeeds(situation, tests)
            : request.Athlete is { OneRepMaxKg.Count: > 0, BodyMassKg: not null } && (shown || MaximaRaise(situation)) ? new TestNeeds(situation, Untested)
            : null;
    }

    private static bool MaximaRaise(Situation situation)
    {
        var athlete = situation.Request.Athlete!;
        foreach (var (exercise, threshold) in situation.Knowledge.Measures.OfExercises)
        {
            if (athlete.OneRepMaxKg!.TryGetValue(exercise, out var kg) && ThresholdJudge.BoundFor(threshold, situation) is { } bound
                && ThresholdJudge.Beyond(threshold, bound, situation.Knowledge.Measures.Derived(threshold.Measure).Round(Measures.RelativeStrength.PerKilogram(kg, athlete.BodyMassKg!.Value))) > threshold.MeasurementError)
            {
                return true;
            }
        }

        return false;
    }

    private decimal ShareOf(TestResults tests)
    {
        var trials = tests.Trials is not { } count ? Use.UnknownTrialsShare.Value : count < Use.LeastTrials.Value ? 0 : 1;
        return tests.TestPain > Use.TestPainAbove.Value ? 0 : tests.DaysAgo > Use.StaleAfterDays.Value ? trials * Use.StaleShare.Value : trials;
    }

    /// <summary>A stated maximum is no test of this battery: nothing is known of its trials, and neither age nor pain of the battery is its own.</summary>
    private decimal ShareOf(MeasureReading reading) => reading.From is ["oneRepMaxKg"] ? Use.UnknownTrialsShare.Value : share;

    private IEnumerable<TestRaise> Levels()
    {
        foreach (var group in judgements.GroupBy(j => j.Threshold))
        {
            if (ThresholdJudge.Together(group) != ThresholdVerdict.Need)
            {
                continue;
            }

            var (threshold, worst) = (group.Key, group.Where(j => j.Verdict == ThresholdVerdict.Need).MaxBy(j => Math.Abs(j.Reading.Value - j.Bound))!);
            var part = group.Where(j => j.Reading.Side == worst.Reading.Side).Min(j => ShareOf(j.Reading));
            var note = Note(threshold.Note, worst.Reading, worst.Bound, threshold.MeasurementError, threshold.Basis, threshold.Source);
            foreach (var (quality, weight) in threshold.Raises.Where(_ => part > 0))
            {
                yield return new TestRaise(threshold.Id, threshold.Measure, quality, weight * part, note, Weakest(threshold.Basis, threshold.ErrorBasis), threshold.Source);
            }
        }
    }

    private IEnumerable<TestRaise> Differences()
    {
        foreach (var (rule, shown, _) in sides.Where(s => s.Verdict == ThresholdVerdict.Need && share > 0))
        {
            var bound = rule.Kind == "percent" ? 100 - rule.Bound : rule.Bound;
            foreach (var (quality, weight) in rule.Raises)
            {
                yield return new TestRaise(rule.Id, rule.Measure, quality, weight * share, Note(rule.Note, shown, bound, rule.MeasurementError, rule.Basis, rule.Source),
                    Weakest(rule.Basis, rule.ErrorBasis), rule.Source);
            }
        }
    }

    /// <summary>A bound may be published; what it adds to a need never is.</summary>
    private static Basis Weakest(Basis bound, Basis error) => (Basis)Math.Max((int)Basis.CommonPractice, Math.Max((int)bound, (int)error));

    private string Note(string note, MeasureReading reading, decimal bound, decimal error, Basis basis, string? source)
    {
        // A ratio or a finding reads better without its word.
        var unit = situation.Knowledge.Measures.UnitOf(reading.Measure) is var word and not ("ratio" or "finding") ? " " + word : "";
        var side = reading.Side is { } s ? $"{(s == Side.Left ? "left" : "right")} " : "";
        var from = source is null ? situation.Catalogue.Vocabulary.Bases.InSentence((int)basis) : source;
        return string.Create(CultureInfo.InvariantCulture, $"{note} ({side}{reading.Value:0.###}{unit} against {bound:0.###}, error {error:0.###}; {from})");
    }

    private void Say(TestResults tests)
    {
        cautions.AddRange(sheet.Cautions);
        if (share > 0)
        {
            cautions.AddRange(weakerSides.Select(w => w.Note));
        }
        else
        {
            weakerSides.Clear();
        }

        var needed = judgements.Exists(j => j.Verdict == ThresholdVerdict.Need && j.Reading.From is not ["oneRepMaxKg"]) || sides.Any(s => s.Verdict == ThresholdVerdict.Need);
        if (tests.TestPain > Use.TestPainAbove.Value)
        {
            cautions.Add($"Testing hurt ({tests.TestPain} of 10): the results are shown and not used. Send what hurts as a complaint, and test again when it is at most {MeasureSheet.Text(Use.TestPainAbove.Value)}.");
        }
        else if (needed && tests.Trials is null)
        {
            cautions.Add($"How many trials the tests had was not said (tests.trials), so what they raise counts {MeasureSheet.Text(100 * Use.UnknownTrialsShare.Value)} %.");
        }
        else if (needed && tests.Trials < Use.LeastTrials.Value)
        {
            cautions.Add("A single trial raises nothing: repeat the tests.");
        }

        if (needed && share > 0 && tests.DaysAgo > Use.StaleAfterDays.Value)
        {
            cautions.Add($"The tests are {tests.DaysAgo} days old, more than {MeasureSheet.Text(Use.StaleAfterDays.Value)}: they count {MeasureSheet.Text(100 * Use.StaleShare.Value)} % of what they would. Test again.");
        }

        var used = judgements.SelectMany(j => j.Reading.From).Concat(sides.SelectMany(s => s.Shown.From)).ToHashSet(StringComparer.Ordinal);
        var unused = sheet.Sent.Where(t => !used.Contains(t)).ToList();
        if (unused.Count > 0)
        {
            cautions.Add($"Read but not used for needs: {string.Join(", ", unused)}.");
        }
    }
}
