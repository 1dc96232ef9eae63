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
            return await context.Request.ReadFormAsync(context.RequestAborted).ConfigureAwait(false);
        }
        catch (Exception e) when (e is InvalidDataException or BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge })
        {
            return null;
        }
    }
}
