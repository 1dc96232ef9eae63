using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Recommender.Pages.Layout;
using Recommender.Storage.Decisions;

namespace Recommender.Pages.Hosting;

/// <summary>A piece of a page that is sent while long work goes on.</summary>
/// <param name="Component">Component.</param>
/// <param name="Parameters">Its parameters.</param>
internal sealed record Piece(Type Component, IReadOnlyDictionary<string, object?> Parameters)
{
    /// <summary>A piece.</summary>
    public static Piece Of<T>(params (string Name, object? Value)[] parameters) where T : IComponent => new(typeof(T), parameters.ToDictionary(p => p.Name, p => p.Value, StringComparer.Ordinal));
}

/// <summary>
/// A page whose middle is sent piece by piece while long work goes on: readable at any moment, with and without script. The work stops when nobody reads any more: a browser that
/// leaves the page, or stops loading it, ends it.
/// </summary>
/// <typeparam name="T">Component of the whole page; it holds <see cref="StreamedPieces"/> where the pieces go.</typeparam>
/// <param name="pieces">The work.</param>
/// <param name="parameters">Parameters of the page.</param>
internal sealed class StreamedPage<T>(Func<CancellationToken, IAsyncEnumerable<Piece>> pieces, params (string Name, object? Value)[] parameters) : IResult where T : IComponent
{
    /// <inheritdoc/>
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        var (response, services, gone) = (httpContext.Response, httpContext.RequestServices, httpContext.RequestAborted);
        await using var renderer = new HtmlRenderer(services, services.GetRequiredService<ILoggerFactory>());
        var whole = await Html(renderer, Piece.Of<T>(parameters));
        var parts = whole.Split(StreamedPieces.Mark, 2);
        response.ContentType = "text/html; charset=utf-8";
        await Send(parts[0]);
        try
        {
            await foreach (var piece in pieces(gone).WithCancellation(gone))
            {
                await Send(await Html(renderer, piece));
            }
        }
        catch (StoreUnavailableException)
        {
            // The head of the page has gone out: what happened is said where the work stands.
            await Send(await Html(renderer, Piece.Of<BrokenOff>()));
        }
        catch (OperationCanceledException) when (gone.IsCancellationRequested)
        {
            return;
        }

        await Send(parts[1]);

        async Task Send(string html)
        {
            await response.WriteAsync(html, gone);
            await response.Body.FlushAsync(gone);
        }
    }

    private static Task<string> Html(HtmlRenderer renderer, Piece piece) => renderer.Dispatcher.InvokeAsync(async () =>
        (await renderer.RenderComponentAsync(piece.Component, ParameterView.FromDictionary(piece.Parameters.ToDictionary(p => p.Key, p => p.Value)))).ToHtmlString());
}
