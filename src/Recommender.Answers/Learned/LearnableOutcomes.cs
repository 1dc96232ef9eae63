using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Outcomes;
using Recommender.Storage.Outcomes;

namespace Recommender.Answers.Learned;

/// <summary>Reads the reports that a choice can be learned from.</summary>
/// <param name="outcomes">Keeps reports.</param>
public sealed class LearnableOutcomes(OutcomeStore outcomes)
{
    /// <summary>The last report about every pick, decision after decision, without what cannot be learned from.</summary>
    /// <param name="organisation">Whose.</param>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<LearnedOutcome>> Of(string organisation)
    {
        // A season names the same exercises, families and coaches over and over.
        var words = new Dictionary<string, string>(StringComparer.Ordinal);
        var read = new List<LearnedOutcome>();
        await outcomes.Each(organisation, page =>
        {
            foreach (var outcome in page)
            {
                var facts = outcome.Facts is null ? null : JsonSerializer.Deserialize(outcome.Facts, WireJson.Compact.OutcomeFacts);
                if (ReportOutcome.NotLearned(outcome.Verdict, facts) is null)
                {
                    read.Add(new LearnedOutcome(Word(outcome.DecisionId), outcome.Coach is null ? null : Word(outcome.Coach), Word(outcome.Verdict),
                        new OutcomeFacts(Word(facts!.Kind), Stood(facts.Picked), facts.Instead is null ? null : Stood(facts.Instead), null)));
                }
            }
        }).ConfigureAwait(false);
        return read;

        string Word(string word) => words.TryGetValue(word, out var known) ? known : words[word] = word;

        ChoiceFacts Stood(ChoiceFacts of) => of with { Exercise = Word(of.Exercise), Family = Word(of.Family), Points = [.. of.Points] };
    }
}
