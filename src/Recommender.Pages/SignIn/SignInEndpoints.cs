using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers.Access;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.SignIn;

/// <summary>/sign-in and /sign-out: a key opens the pages until the sign-in ends.</summary>
public static class SignInEndpoints
{
    private const string Path = "/sign-in";
    private const int LargestForm = 8 * 1024;

    /// <summary>Where to sign in, with the way back to what was asked for.</summary>
    public static string AddressFor(HttpRequest request) =>
        request.Path == "/" && !request.QueryString.HasValue ? Path : $"{Path}?to={Uri.EscapeDataString(request.Path.ToUriComponent() + request.QueryString.ToUriComponent())}";

    /// <summary>Maps the pages.</summary>
    internal static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet(Path, (HttpContext context, string? to, FormToken token) => SignInPageOf(StatusCodes.Status200OK, context, to, null, token));
        routes.MapPost(Path, SignIn);
        routes.MapGet("/sign-out", (HttpContext context, FormToken token) => PageResults.Page<SignOutPage>(StatusCodes.Status200OK, (nameof(SignOutPage.Token), token.For(context))));
        routes.MapPost("/sign-out", SignOut);
    }

    private static async Task<IResult> SignIn(HttpContext context, AccessKeys keys, FormToken token)
    {
        var form = await PostedForm.Read(context, LargestForm);
        var to = form?["to"].FirstOrDefault();
        if (form is null || !await token.Fits(context))
        {
            return SignInPageOf(StatusCodes.Status400BadRequest, context, to, FormToken.Expired, token);
        }

        if (KeySecret.Read(form["key"].ToString().Trim()) is not { } sent || await keys.Check(sent) is not { KeyId: { } id })
        {
            return SignInPageOf(StatusCodes.Status422UnprocessableEntity, context, to, "This key does not hold: it is misspelt, was ended or changed, or is at its end. Copy it whole, or ask whoever looks after keys for another.", token);
        }

        await SignInCookie.Set(context, keys, id);
        return new SeeOther(Local(to));
    }

    private static async Task<IResult> SignOut(HttpContext context, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is null || !await token.Fits(context))
        {
            return PageResults.Page<SignOutPage>(StatusCodes.Status400BadRequest, (nameof(SignOutPage.Token), token.For(context)), (nameof(SignOutPage.Notice), FormToken.Expired));
        }

        SignInCookie.Remove(context);
        return new SeeOther(Path);
    }

    private static RazorComponentResult<SignInPage> SignInPageOf(int status, HttpContext context, string? to, string? notice, FormToken token) => PageResults.Page<SignInPage>(status,
        (nameof(SignInPage.To), Local(to)), (nameof(SignInPage.Notice), notice), (nameof(SignInPage.Token), token.For(context)),
        (nameof(SignInPage.NeedsHttps), !context.Request.IsHttps && !SignInCookie.IsLoopback(context.Request)));

    /// <summary>An address on this service; the start for any other, so that a link to the sign-in leads nowhere else. A header field holds printable ASCII alone (RFC 9110, 5.5), and so does an address (RFC 3986, 2).</summary>
    internal static string Local(string? to) =>
        to is ['/', ..] and not ['/', '/', ..] && to.Length <= 2000 && to.All(c => c is > ' ' and <= '~' and not '\\') ? to : "/";
}
