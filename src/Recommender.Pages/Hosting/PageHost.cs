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

    /// <summary>Who looks; null on a page that is shown to anybody.</summary>
    public Caller? Viewer => caller;

    /// <summary>The organisation that asks.</summary>
    public string Organisation => caller?.Organisation ?? throw new InvalidOperationException("The page was not opened for a caller.");

    /// <summary>The edition in force; taken once a page.</summary>
    public Edition Edition => edition ?? throw new InvalidOperationException("The page was not opened for a caller.");

    /// <summary>What is in force and cannot be read, on the pages that lead out of that; null where it can. <see cref="Edition"/> is the data folder's then, for names alone.</summary>
    public UnreadableEditionException? Unread { get; private set; }

    /// <summary>Says who looks at a page that shows nothing of anybody.</summary>
    internal void Greet(Caller? viewer) => caller ??= viewer;

    /// <summary>Fills it before a page answers.</summary>
    internal static async ValueTask<object?> Open(EndpointFilterInvocationContext call, EndpointFilterDelegate next)
    {
        var services = call.HttpContext.RequestServices;
        var host = services.GetRequiredService<PageHost>();
        host.caller = call.HttpContext.Caller();
        try
        {
            host.edition = await services.GetRequiredService<EditionInForce>().Of(host.Organisation);
        }
        catch (UnreadableEditionException e) when (call.HttpContext.GetEndpoint()?.Metadata.GetMetadata<WayBack>() is not null)
        {
            host.edition = services.GetRequiredService<KnowledgeAtStart>().Edition;
            host.Unread = e;
        }

        return await next(call);
    }
}

/// <summary>Marks a page that is shown also when what is in force cannot be read, since it leads to something that can.</summary>
internal sealed class WayBack;
