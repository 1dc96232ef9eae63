using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Recommender.Answers;
using Recommender.Api.Decisions;
using Recommender.Api.Hosting;
using Recommender.Domain.Decisions;

namespace Recommender.Api.CatalogueVersions;

/// <summary>A trial, written while it runs: a line of JSON for each stretch and each changed decision, and the sum at the end. Who stops reading stops it.</summary>
/// <param name="stretches">The trial.</param>
/// <param name="most">Most decisions that are tried.</param>
/// <param name="versions">The pair that is tried.</param>
internal sealed class ImpactStream(Func<CancellationToken, IAsyncEnumerable<ImpactStretch>> stretches, int most, VersionStamp versions) : IResult
{
    /// <inheritdoc/>
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        var (response, cancelled) = (httpContext.Response, httpContext.RequestAborted);
        response.ContentType = DecisionExport.NdjsonType;
        var (tried, refused, changed, moved) = (0, 0, 0, 0);
        await foreach (var stretch in stretches(cancelled))
        {
            foreach (var line in stretch.Lines)
            {
                changed++;
                moved += line.TopWas == line.TopIs ? 0 : 1;
                await Write("decision"u8, line, ApiJson.Default.ImpactLine);
            }

            (tried, refused) = (stretch.Done, stretch.Refused);
            await Write("progress"u8, new ImpactProgress(tried, most), ApiJson.Default.ImpactProgress);
            await response.Body.FlushAsync(cancelled);
        }

        await Write("summary"u8, new ImpactSummary(tried, refused, changed, moved, versions), ApiJson.Default.ImpactSummary);

        ValueTask Write<T>(ReadOnlySpan<byte> name, T value, JsonTypeInfo<T> type) =>
            response.Body.WriteAsync((byte[])[.. "{\""u8, .. name, .. "\":"u8, .. JsonSerializer.SerializeToUtf8Bytes(value, type), .. "}\n"u8], cancelled);
    }
}
