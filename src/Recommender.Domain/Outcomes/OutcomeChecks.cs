using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Outcomes;

/// <summary>What is wrong with a report; all of it at once.</summary>
public sealed class OutcomeChecks
{
    private const int LongestNote = 500;
    private const int MostDone = 30;
    private readonly OutcomeReport report;
    private readonly List<Fault> faults = [];

    private OutcomeChecks(OutcomeReport report) => this.report = report;

    /// <summary>Faults of a report about a decision.</summary>
    /// <param name="report">The report.</param>
    /// <param name="picks">Exercise ids that the decision picked, in their order.</param>
    /// <param name="catalogue">The catalogue in force.</param>
    public static IReadOnlyList<Fault> Of(OutcomeReport report, IReadOnlyList<string> picks, ExerciseCatalogue catalogue)
    {
        var checks = new OutcomeChecks(report);
        checks.Exercise(picks);
        checks.Verdict(catalogue.Vocabulary);
        checks.Replacement(catalogue);
        checks.Work();
        return checks.faults;
    }

    private void Exercise(IReadOnlyList<string> picks)
    {
        var offered = picks.Count == 0 ? "the decision has no picks" : $"give one of {string.Join(", ", picks)}";
        if (report.Exercise is null)
        {
            Add("/exercise", "required", $"the exercise is missing; {offered}.");
        }
        else if (!picks.Contains(report.Exercise, StringComparer.Ordinal))
        {
            Add("/exercise", "not-picked", $"{FaultText.Quote(report.Exercise)} is no pick of the decision; {offered}.");
        }
    }

    private void Verdict(Vocabulary vocabulary)
    {
        var ids = string.Join(", ", vocabulary.Verdicts.Select(v => v.Id));
        if (report.Verdict is null)
        {
            Add("/verdict", "required", $"the verdict is missing; give one of {ids}.");
        }
        else if (!vocabulary.Verdicts.Has(report.Verdict))
        {
            Add("/verdict", "unknown-id", $"{FaultText.Quote(report.Verdict)} is no verdict; give one of {ids}.");
        }
    }

    private void Replacement(ExerciseCatalogue catalogue)
    {
        if (report.ReplacedBy is { } id)
        {
            if (report.Verdict is Verdicts.Used or Verdicts.Declined)
            {
                Add("/replacedBy", "contradiction", $"an exercise that was {report.Verdict} was not replaced; give verdict swapped, or leave replacedBy out.");
            }

            if (catalogue.PositionOf(id) < 0)
            {
                Add("/replacedBy", "unknown-id", $"{FaultText.Quote(id)} is not an exercise of the catalogue; did you mean {NearestExercise.To(id, catalogue)}? GET /v1/exercises?q= finds others.");
            }
            else if (id == report.Exercise)
            {
                Add("/replacedBy", "contradiction", "the exercise is replaced by itself; give another one, or verdict used.");
            }
        }
        else if (report.Verdict == Verdicts.Swapped)
        {
            Add("/replacedBy", "required", "it is not said what was done instead; give an exercise id, or verdict declined where nothing was.");
        }
    }

    private void Work()
    {
        var declined = report.Verdict == Verdicts.Declined;
        foreach (var (name, given) in new[] { ("done", report.Done is { Count: > 0 }), ("painDuring", report.PainDuring is not null), ("painNextMorning", report.PainNextMorning is not null), ("effort", report.Effort is not null) })
        {
            if (declined && given)
            {
                Add("/" + name, "contradiction", $"nothing was done of an exercise that was declined, so {name} has nothing to be about; leave it out, or give verdict used or swapped.");
            }
        }

        Range("/painDuring", report.PainDuring, 0, 10);
        Range("/painNextMorning", report.PainNextMorning, 0, 10);
        Range("/effort", report.Effort, 0, 10);
        if (report.Note is { Length: > LongestNote } note)
        {
            Add("/note", "out-of-range", $"the note has {note.Length} characters; give at most {LongestNote}.");
        }

        var done = report.Done ?? [];
        if (done.Count > MostDone)
        {
            Add("/done", "too-many", $"{done.Count} rows of sets; give at most {MostDone}.");
        }

        for (var i = 0; i < done.Count && i < MostDone; i++)
        {
            if (done[i] is not { } row)
            {
                Add($"/done/{i}", "required", "the row is null; give an object.");
                continue;
            }

            Required($"/done/{i}/sets", row.Sets);
            Required($"/done/{i}/amount", row.Amount);
            Range($"/done/{i}/sets", row.Sets, 1, 30);
            Range($"/done/{i}/amount", row.Amount, 0.1m, 3600);
            Range($"/done/{i}/loadKg", row.LoadKg, 0, 1000);
            Range($"/done/{i}/repsInReserve", row.RepsInReserve, 0, 20);
        }
    }

    private void Required(string pointer, decimal? value)
    {
        if (value is null)
        {
            Add(pointer, "required", $"{NameOf(pointer)} is missing; give what was done, or leave the row out.");
        }
    }

    private void Range(string pointer, decimal? value, decimal low, decimal high)
    {
        if (value is { } v && (v < low || v > high))
        {
            Add(pointer, "out-of-range", string.Create(CultureInfo.InvariantCulture, $"{NameOf(pointer)} is {v:0.####}; give {low:0.####} to {high:0.####}."));
        }
    }

    private static string NameOf(string pointer) => pointer[(pointer.LastIndexOf('/') + 1)..];

    private void Add(string pointer, string code, string message) => faults.Add(new Fault(pointer, code, message));
}
