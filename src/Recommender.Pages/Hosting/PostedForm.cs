using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace Recommender.Pages.Hosting;

/// <summary>Reads a posted form within limits.</summary>
internal static class PostedForm
{
    private const int MostFields = 4000;

    /// <summary>The form; null when it is larger, or no form.</summary>
    /// <param name="context">The call.</param>
    /// <param name="limit">Most bytes.</param>
    /// <exception cref="OverloadedException">It was read, and there is no place for the work.</exception>
    public static async Task<IFormCollection?> Read(HttpContext context, int limit)
    {
        if (!context.Request.HasFormContentType || context.Request.ContentLength > limit)
        {
            return null;
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = limit;
        }

        context.Features.Set<IFormFeature>(new FormFeature(context.Request, new FormOptions { ValueCountLimit = MostFields, MultipartBodyLengthLimit = limit, BufferBodyLengthLimit = limit }));
        try
        {
            var form = await context.Request.ReadFormAsync(context.RequestAborted).ConfigureAwait(false);
            return context.Features.Get<IWorkGate>() is { } gate && !await gate.Enter().ConfigureAwait(false) ? throw new OverloadedException() : form;
        }
        catch (Exception e) when (e is InvalidDataException or BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge })
        {
            return null;
        }
    }
}
