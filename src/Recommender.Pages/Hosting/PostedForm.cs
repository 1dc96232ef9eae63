using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace Recommender.Pages.Hosting;

/// <summary>Reads a posted form within limits.</summary>
internal static class PostedForm
{
    private const int MostFields = 4000;

    /// <summary>What the reader of forms says of a body that ends too early; a full disk has a number of its own, and is no fault of who posts.</summary>
    private const int BrokeOff = unchecked((int)0x80131620);

    /// <summary>How long a form may take to come: a file of 4 MB on a slow line.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    /// <summary>The form; null when it is larger.</summary>
    /// <param name="context">The call.</param>
    /// <param name="limit">Most bytes.</param>
    /// <exception cref="UnreadableFormException">It is no form, breaks off, or is in a character set that is not read.</exception>
    /// <exception cref="OverloadedException">It was read, and there is no place for the work.</exception>
    public static async Task<IFormCollection?> Read(HttpContext context, int limit)
    {
        if (context.Request.ContentLength > limit)
        {
            return null;
        }

        if (!context.Request.HasFormContentType)
        {
            throw new UnreadableFormException();
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = limit;
        }

        context.Features.Set<IFormFeature>(new FormFeature(context.Request, new FormOptions { ValueCountLimit = MostFields, MultipartBodyLengthLimit = limit, BufferBodyLengthLimit = limit }));
        try
        {
            using var patience = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted);
            patience.CancelAfter(Patience);
            var form = await context.Request.ReadFormAsync(patience.Token).ConfigureAwait(false);
            return context.Features.Get<IWorkGate>() is { } gate && !await gate.Enter().ConfigureAwait(false) ? throw new OverloadedException() : form;
        }
        catch (OperationCanceledException) when (!context.RequestAborted.IsCancellationRequested)
        {
            throw new BadHttpRequestException("The form did not come within the time.", StatusCodes.Status408RequestTimeout);
        }
        catch (Exception e) when (e is BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge } || (e is InvalidDataException && IsOfSize(e)))
        {
            return null;
        }
        catch (Exception e) when (e is InvalidDataException or NotSupportedException || (e is IOException { HResult: BrokeOff } and not BadHttpRequestException))
        {
            throw new UnreadableFormException(e);
        }
    }

    /// <summary>The reader of forms tells one that is too large from one that is broken by its words alone.</summary>
    private static bool IsOfSize(Exception e) => e.Message.Contains(" limit ", StringComparison.Ordinal);
}
