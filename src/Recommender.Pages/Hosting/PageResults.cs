using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.DependencyInjection;
using Recommender.Answers;
using Recommender.Answers.Access;
using Recommender.Pages.Layout;
using Recommender.Pages.Versions;

namespace Recommender.Pages.Hosting;

/// <summary>Results of pages.</summary>
public static class PageResults
{
    /// <summary>A component as a page.</summary>
    /// <typeparam name="T">Component.</typeparam>
    /// <param name="status">HTTP status.</param>
    /// <param name="parameters">Its parameters.</param>
    internal static RazorComponentResult<T> Page<T>(int status, params (string Name, object? Value)[] parameters) where T : IComponent =>
        new(parameters.ToDictionary(p => p.Name, p => p.Value, StringComparer.Ordinal)) { StatusCode = status };

    /// <summary>A readable page for what cannot be shown, with the way back.</summary>
    /// <param name="status">HTTP status.</param>
    /// <param name="title">What happened, in a few words.</param>
    /// <param name="text">What to do.</param>
    /// <param name="next">Where to go from there, and what the link says; asking for exercises where null.</param>
    public static IResult Message(int status, string title, string text, (string Address, string Label)? next = null) =>
        Page<MessagePage>(status, (nameof(MessagePage.Title), title), (nameof(MessagePage.Text), text), (nameof(MessagePage.Next), next ?? MessagePage.Ask));

    /// <summary>What is data under these, whoever asks.</summary>
    private static readonly string[] Data = ["/v1", "/openapi", "/health", "/metrics"];

    /// <summary>Whether what is asked for is data for programs and no page.</summary>
    public static bool IsData(HttpRequest request) => Data.Any(path => request.Path.StartsWithSegments(path));

    /// <summary>Whether a browser asks for a page rather than a program for data.</summary>
    public static bool Wanted(HttpRequest request) =>
        !IsData(request) && request.GetTypedHeaders().Accept.Any(a => a.MediaType == "text/html");

    /// <summary>Writes a readable page in place of an error that arose outside a page, with the headers of a page.</summary>
    public static Task Write(HttpContext context, int status, string title, string text, (string Address, string Label)? next = null)
    {
        PageHeaders.Set(context.Response.Headers);
        context.RequestServices.GetRequiredService<PageHost>().Greet(context.CallerOrNull());
        return Message(status, title, text, next).ExecuteAsync(context);
    }

    /// <summary>Writes a page in place of one that cannot be shown since what is in force cannot be read.</summary>
    public static Task WriteWayBack(HttpContext context, int status, UnreadableEditionException unread)
    {
        var may = context.CallerOrNull()?.May(Scopes.Curate) == true;
        return Write(context, status, "What is in force cannot be read",
            $"{VersionWords.Unread(unread)} {(may ? "You can put another version in force on the page of versions." : "Tell whoever looks after the versions in your club (a key with scope curate): the page Versions leads out of this.")}", may ? ("/versions", "Versions") : null);
    }

    /// <summary>The page for an address that leads nowhere.</summary>
    /// <param name="what">What was looked for.</param>
    internal static IResult NotFound(string what) =>
        Message(StatusCodes.Status404NotFound, "Not found", $"{what} The link may be old, cut short, or from another club. Start from one of the pages above.");
}
