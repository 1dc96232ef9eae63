namespace Recommender.Answers.Access;

/// <summary>Who asks: the organisation that everything read and written belongs to, and what it may ask.</summary>
/// <param name="Organisation">Organisation; 1 to 60 lower-case letters, digits and dashes.</param>
/// <param name="Scopes">What is allowed.</param>
/// <param name="KeyId">Id of the key that was sent; null in open use on loopback.</param>
public sealed record Caller(string Organisation, Scopes Scopes, string? KeyId)
{
    /// <summary>The organisation of a service without keys, and the one that the demo squad belongs to.</summary>
    public const string LocalOrganisation = "local";

    /// <summary>Open use on loopback, before there are keys: everything, as the local organisation.</summary>
    public static Caller Local { get; } = new(LocalOrganisation, Scopes.All, null);

    /// <summary>Whether something is allowed.</summary>
    /// <param name="scopes">What is asked for; all of it must be allowed.</param>
    public bool May(Scopes scopes) => (Scopes & scopes) == scopes;
}

/// <summary>What a caller may ask. The names are part of the contract.</summary>
[Flags]
public enum Scopes
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>Needs, recommendations, substitutions, sessions, athletes, vocabulary, exercises, single decisions, outcomes.</summary>
    Recommend = 1,

    /// <summary>The record as a whole, and asking decisions again.</summary>
    Audit = 2,

    /// <summary>Versions of catalogue and rules, preferences.</summary>
    Curate = 4,

    /// <summary>Keys.</summary>
    Admin = 8,

    /// <summary>Everything.</summary>
    All = Recommend | Audit | Curate | Admin,
}
