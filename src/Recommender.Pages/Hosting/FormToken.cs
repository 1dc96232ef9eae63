using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;

namespace Recommender.Pages.Hosting;

/// <summary>The token that shows that a form was sent from a page of this service.</summary>
/// <param name="antiforgery">Makes and checks tokens.</param>
internal sealed class FormToken(IAntiforgery antiforgery)
{
    /// <summary>Name of the field.</summary>
    public const string Field = "form-token";

    /// <summary>What a person reads when a token does not fit: nothing is wrong with what they typed.</summary>
    public const string Expired = "This page had been open for too long, or the service was restarted. Nothing was recorded and nothing you typed is lost: press the button again.";

    /// <summary>The token for a form of this response; sets its cookie.</summary>
    public string For(HttpContext context) => antiforgery.GetAndStoreTokens(context).RequestToken!;

    /// <summary>Whether a posted form carries one that fits.</summary>
    public Task<bool> Fits(HttpContext context) => antiforgery.IsRequestValidAsync(context);
}
