namespace Recommender.Api.Hosting;

/// <summary>Who asks. Until keys exist there is one organisation, and the service listens on loopback only.</summary>
public static class Organisation
{
    /// <summary>The organisation of a service without keys.</summary>
    public const string Local = "local";
}
