namespace Recommender.Api.Hosting;

/// <summary>HEAD is answered wherever GET is (RFC 9110, 9.1 and 9.3.2): the same head, and the server leaves the body out.</summary>
public static class HeadRequests
{
    /// <summary>Puts it before the endpoint is chosen, which it does by the method.</summary>
    public static void UseHeadRequests(this WebApplication app)
    {
        app.Use(async (context, next) =>
        {
            if (!HttpMethods.IsHead(context.Request.Method))
            {
                await next(context);
                return;
            }

            // The server itself remembers that it was HEAD, and sends no body.
            context.Request.Method = HttpMethods.Get;
            try
            {
                await next(context);
            }
            finally
            {
                context.Request.Method = HttpMethods.Head;
            }
        });
        app.UseRouting();
    }
}
