using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Answers;

/// <summary>Text that the answers of an edition repeat, so that each is stored small: the usual answer to each event group.</summary>
public static class RepeatedText
{
    /// <summary>The text; the same for the same edition.</summary>
    public static byte[] Of(Edition edition)
    {
        var vocabulary = edition.Catalogue.Vocabulary;
        return [.. vocabulary.EventGroups.SelectMany(group => AnswerBytes.Of(DecisionKind.Recommendation.Answer(
            new RecommendationRequest { Athlete = new AthleteFacts { EventGroup = group.Id }, Phase = vocabulary.Phases[0].Id }, edition, ""), DecisionKind.Recommendation))];
    }
}
