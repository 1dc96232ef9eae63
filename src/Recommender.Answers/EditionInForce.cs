using Recommender.Domain.Knowledge;

namespace Recommender.Answers;

/// <summary>The edition in force. Readers take it once a request, so that an answer is made wholly on one.</summary>
/// <param name="edition">The edition read at the start.</param>
public sealed class EditionInForce(Edition edition)
{
    private volatile Edition edition = edition;

    /// <summary>The edition now.</summary>
    public Edition Current => edition;

    /// <summary>Puts another edition in force, at once and for all later requests.</summary>
    public void Replace(Edition next) => edition = next;
}
