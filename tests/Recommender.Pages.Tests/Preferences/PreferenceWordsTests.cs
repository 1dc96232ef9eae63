using Recommender.Answers.Learned;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Preferences;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Preferences;

public sealed class PreferenceWordsTests
{
    [Fact]
    public void Every_learned_number_stands_in_words()
    {
        var family = TestEdition.Exercise("front-squat").Family;
        var numbers = new PreferenceNumbers(PreferenceScope.Coach, 83, 120, new Dictionary<string, decimal> { ["set-up-cost"] = 0.12m, ["need-match"] = -0.05m, ["tissue-cost"] = 0 },
            new Dictionary<string, decimal> { [family] = 1.4m, ["gone-by-now"] = -0.5m });

        var lines = PreferenceWords.Of(numbers, TestEdition.Current.Catalogue).ToList();

        Assert.Equal(numbers.Factors.Count + numbers.Families.Count, lines.Count);
        Assert.Contains(lines, l => l.EndsWith("counts more by 12 %.", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.EndsWith("counts less by 5 %.", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.EndsWith("counts as it does.", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.StartsWith("For ", StringComparison.Ordinal) && l.EndsWith(": 1.4 points.", StringComparison.Ordinal));
        Assert.Contains("Against gone by now (none of it is in the catalogue now): 0.5 points.", lines);
    }

    [Fact]
    public void Gain_and_cost_stand_in_words()
    {
        var report = new PreferenceReport("none", new TrialSize(300, 2000), new TrialSize(100, 700), new TrialGain(0.884m, 0.902m, 0.018m, 0.012m, 0.023m), new TrialGain(0.945m, 0.955m, 0.01m, 0.006m, 0.014m), 5, 1.5m,
            new PreferenceCost(90, 0.071m, 0.043m, -0.002m, 0.013m, 0.81m), true, "It helps.");

        var lines = string.Join('\n', PreferenceWords.Of(report));

        Assert.Contains("90.2 % have what was taken above what was left, 88.4 % without; the difference lies between +1.2 and +2.3 points of a hundred.", lines, StringComparison.Ordinal);
        Assert.Contains("Of 90 later answers 7.1 % get another first pick, and 4.3 % of the picks are others.", lines, StringComparison.Ordinal);
        Assert.Contains("Needs covered: -0.2 points of a hundred. Load on tissue: +1.3 %.", lines, StringComparison.Ordinal);
    }
}
