using Microsoft.AspNetCore.Diagnostics;
using Recommender.Answers;
using Recommender.Api.Hosting;
using Recommender.Api.Overload;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Problems;

/// <summary>Turns what went wrong outside a slice into a problem: exceptions, and answers that the framework left empty.</summary>
public static partial class ProblemMapping
{
    /// <summary>Puts the mapping before everything else.</summary>
    public static void UseProblems(this WebApplication app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandler = context =>
            {
                var error = context.Features.Get<IExceptionHandlerFeature>()?.Error;
                var problem = Of(error, context, app.Logger);
                return error is UnreadableEditionException unread && PageResults.Wanted(context.Request) ? WriteWayBack(context, problem, unread) : Write(context, problem);
            },
            // Each is logged once, by the mapping; what is turned away is counted, since a line for each would make an overload worse.
            SuppressDiagnosticsCallback = _ => true,
        });
        app.UseStatusCodePages(status =>
        {
            var context = status.HttpContext;
            var type = ProblemTypes.All.FirstOrDefault(t => t.Status == context.Response.StatusCode) ?? ProblemTypes.Malformed;
            var problem = Problem.Of(type, DetailOf(context));
            return PageResults.Wanted(context.Request) ? PageResults.Write(context, type.Status, type.Title, PageDetailOf(context)) : problem.ExecuteAsync(context);
        });
    }

    /// <summary>Writes a problem, as a page where a browser asks for one.</summary>
    public static Task Write(HttpContext context, Problem problem)
    {
        if (!PageResults.Wanted(context.Request))
        {
            return problem.ExecuteAsync(context);
        }

        problem.SetRetryAfter(context.Response);
        return PageResults.Write(context, problem.Body.Status, problem.Body.Title, problem.Body.Detail);
    }

    /// <summary>What is in force cannot be read: the page says so, and leads to where another version is put in force.</summary>
    private static Task WriteWayBack(HttpContext context, Problem problem, UnreadableEditionException unread)
    {
        problem.SetRetryAfter(context.Response);
        return PageResults.WriteWayBack(context, problem.Body.Status, unread);
    }

    private static string DetailOf(HttpContext context) => context.Response.StatusCode switch
    {
        StatusCodes.Status404NotFound => $"Nothing answers {context.Request.Path}; /openapi/v1.json lists what does.",
        StatusCodes.Status405MethodNotAllowed => $"{context.Request.Method} is not offered here; {context.Response.Headers.Allow} is.",
        StatusCodes.Status415UnsupportedMediaType => $"The content type is \"{context.Request.ContentType}\"; send application/json.",
        _ => "The request cannot be answered as it was sent; /openapi/v1.json says how to ask.",
    };

    private static string PageDetailOf(HttpContext context) => context.Response.StatusCode == StatusCodes.Status404NotFound
        ? "Nothing is under this address. The link may be old or cut short; start from one of the pages above." : "The service cannot answer this as it was sent; start from one of the pages above.";

    private static Problem Of(Exception? exception, HttpContext context, ILogger logger)
    {
        switch (exception)
        {
            case UnreadableEditionException unread:
                StoreFailed(logger, context.TraceIdentifier, unread);
                return Problem.Of(ProblemTypes.StoreUnavailable,
                    $"Catalogue {unread.Catalogue} and rules {unread.Rules} are in force for your organisation and this program cannot read them, so it gets no answers. With scope curate, put a version that GET /v1/catalogue/versions or /v1/rules/versions lists in force: PUT /v1/catalogue/current or /v1/rules/current. Or start the program that published them.");
            case StoreUnavailableException store:
                StoreFailed(logger, context.TraceIdentifier, store);
                return Problem.Of(ProblemTypes.StoreUnavailable, store.MayBeStored
                    ? "The store went away while it stored this, so it may be stored or not. Send the same request again later; with the same Idempotency-Key it is answered once."
                    : "Nothing was stored. Send the same request again later; an Idempotency-Key makes that safe.");
            case OverloadedException:
                return Admission.Refusal;
            case UnreadableFormException:
                return Problem.Of(ProblemTypes.Malformed, "The form cannot be read: it breaks off, is no form, or is not in UTF-8. Nothing was recorded; load the page again and send it from there.");
            case EditionGoneException gone:
                return Problem.Of(ProblemTypes.NotFound, gone.Message);
            case BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge }:
                return Problem.Of(ProblemTypes.TooLarge, "The body is larger than this service reads.");
            case BadHttpRequestException { StatusCode: StatusCodes.Status408RequestTimeout }:
                // What may still come of the body is no request (RFC 9110, 15.5.9).
                context.Response.Headers.Connection = "close";
                return Problem.Of(ProblemTypes.TooSlow, $"The body came too slowly, or not to its end within {BodyReader.Patience.TotalSeconds} seconds; send it again, faster.");
            case BadHttpRequestException:
                return Problem.Of(ProblemTypes.Malformed, "The request broke off or breaks HTTP.");
            default:
                Failed(logger, context.TraceIdentifier, exception);
                return Problem.Of(ProblemTypes.Internal, $"This is our fault, not the request's. It is logged as {context.TraceIdentifier}.");
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "Request {TraceId} could not use the store")]
    private static partial void StoreFailed(ILogger logger, string traceId, Exception exception);

    [LoggerMessage(Level = LogLevel.Error, Message = "Request {TraceId} failed")]
    private static partial void Failed(ILogger logger, string traceId, Exception? exception);
}
