using System.Globalization;
using System.Text;
using CsvHelper;
using Recommender.Answers;
using Recommender.Answers.ExerciseFiles;
using Recommender.Answers.Learned;
using Recommender.Api.Overload;
using Recommender.Domain.Decisions;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Decisions;

/// <summary>Decisions as a file, written while they are read: whole records a line (NDJSON), or a table of what a list shows with the picks and the hashes (RFC 4180).</summary>
/// <param name="records">Records, oldest first, with the reports about each; the table holds no reports.</param>
/// <param name="csv">Whether the table is wanted.</param>
public sealed class DecisionExport(IAsyncEnumerable<(StoredDecision Decision, IReadOnlyList<OutcomeBody> Reports)> records, bool csv) : IResult
{
    /// <summary>Media type of whole records.</summary>
    public const string NdjsonType = "application/x-ndjson";

    /// <summary>Columns of the table.</summary>
    public static IReadOnlyList<string> Columns { get; } =
    [
        "decisionId", "kind", "createdAt", "athleteRef", "coach", "status", "top", "exercises", "engine", "catalogue", "rules", "preference", "sequence", "hash", "previousHash", "personalDataErased",
    ];

    /// <inheritdoc/>
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        var (response, cancelled) = (httpContext.Response, httpContext.RequestAborted);
        // The first stretch is read before anything is sent, so that a store that cannot be read is still told as a problem.
        await using var reading = records.GetAsyncEnumerator(cancelled);
        var any = await reading.MoveNextAsync();
        response.ContentType = csv ? ExerciseCsv.MediaType + "; charset=utf-8; header=present" : NdjsonType;
        response.Headers.ContentDisposition = $"attachment; filename=\"decisions.{(csv ? "csv" : "ndjson")}\"";
        var pace = new ReaderPace(httpContext, httpContext.RequestServices.GetRequiredService<WorkLimits>(), httpContext.RequestServices.GetRequiredService<TimeProvider>());
        for (var keepsUp = !csv || await pace.Write(Line(Columns)); any && keepsUp; any = await reading.MoveNextAsync())
        {
            cancelled.ThrowIfCancellationRequested();
            var (decision, reports) = reading.Current;
            keepsUp = await pace.Write(csv ? Line(Cells(decision)) : (byte[])[.. DecisionBody.Bytes(decision, ReadDecision.RequestOf(decision), reports), (byte)'\n']);
        }
    }

    private static string[] Cells(StoredDecision stored)
    {
        var record = stored.Record;
        return
        [
            record.DecisionId, record.Kind, RecordHash.Moment(record.CreatedAt), record.AthleteRef ?? "", record.Coach ?? "", record.Status, record.Top ?? "",
            string.Join(" | ", AnsweredExercises.Of(record.Answer)), record.Versions.Engine.ToString(CultureInfo.InvariantCulture), record.Versions.Catalogue, record.Versions.Rules,
            record.Versions.Preference ?? "", stored.Sequence.ToString(CultureInfo.InvariantCulture), RecordHash.Hex(stored.Hash.Span), RecordHash.Hex(stored.PreviousHash.Span),
            stored.PersonalDataErased ? "true" : "false",
        ];
    }

    private static byte[] Line(IReadOnlyList<string> cells)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var writer = CsvWriter.Create(text))
        {
            writer.WriteRecord([.. cells.Select(ExerciseCsv.Guarded)]);
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }
}
