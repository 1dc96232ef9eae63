using Recommender.Storage.Decisions;

namespace Recommender.Answers;

/// <summary>What an organisation has put in force cannot be read by this program: its text is lost or damaged, or another program published it. The organisation gets no answers until another pair is in force.</summary>
/// <param name="organisation">Whose.</param>
/// <param name="catalogue">Version of the catalogue in force.</param>
/// <param name="rules">Version of the rules in force.</param>
public sealed class UnreadableEditionException(string organisation, string catalogue, string rules)
    : StoreUnavailableException($"Catalogue {catalogue} and rules {rules} were put in force by {organisation}, and this program cannot read them. Put a version that the list of versions shows in force, or start the program that published them.")
{
    /// <summary>Version of the catalogue in force.</summary>
    public string Catalogue => catalogue;

    /// <summary>Version of the rules in force.</summary>
    public string Rules => rules;
}
