using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Recommender.Answers;
using Recommender.Answers.Access;
using Recommender.Domain.Knowledge;

namespace Recommender.Pages.Hosting;

/// <summary>Whose page it is, and what it shows from. One a request.</summary>
public sealed class PageHost
{
    private Caller? caller;
    private Edition? edition;

    /// <summary>Who looks.</summary>
    public Caller Caller => caller ?? throw new InvalidOperationException("The page was not opened for a caller.");

    /// <summary>The organisation that asks.</summary>
    public string Organisation => Caller.Organisation;

    /// <summary>The edition in force; taken once a page.</summary>
    public Edition Edition => edition ?? throw new InvalidOperationException("The page was not opened for a caller.");

    /// <summary>Fills it before a page answers.</summary>
    internal static async ValueTask<object?> Open(EndpointFilterInvocationContext call, EndpointFilterDelegate next)
    {
        var services = call.HttpContext.RequestServices;
        var host = services.GetRequiredService<PageHost>();
        host.caller = call.HttpContext.Caller();
        host.edition = await services.GetRequiredService<EditionInForce>().Of(host.Organisation);
        return await next(call);
    }
}
