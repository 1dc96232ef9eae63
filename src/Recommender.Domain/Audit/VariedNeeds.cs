using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Audit;

/// <summary>What is needed, with importances, multipliers and added weights drawn. A weight that the coach stated is a fact of the request and stays.</summary>
internal sealed class VariedNeeds
{
    private const string Stated = "the coach gave it weight";
    private readonly List<(int Position, VariedNumber Importance, VariedNumber Multiplier)> profile = [];
    private readonly List<(int Position, decimal Weight, VariedNumber? Factor)> added = [];
    private readonly VariedNumber maxPoints;
    private readonly VariedNumber[] fits;
    private readonly VariedNumber[] nth;
    private readonly VariedNumber least;
    private readonly NeedMatchRule rule;
    private readonly Vocabulary vocabulary;
    private readonly decimal[] weights;
    private readonly decimal[] shares;

    public VariedNeeds(Situation situation, VariedNumbers numbers)
    {
        vocabulary = situation.Catalogue.Vocabulary;
        rule = situation.Knowledge.Scoring.NeedMatch;
        weights = new decimal[vocabulary.Qualities.Count];
        var (of, emphasis) = (situation.Profile, situation.Knowledge.GroupOf(situation.EventGroup).PhaseEmphasis);
        var phase = vocabulary.Phases[(int)situation.Phase].Id;
        foreach (var (quality, importance) in of.Qualities)
        {
            var own = emphasis.Phases[situation.Phase].TryGetValue(quality, out var multiplier);
            if (importance * (own ? multiplier : emphasis.Default) > 0)
            {
                profile.Add((vocabulary.Qualities.IndexOf(quality), numbers.Importance($"event-profiles/{of.Event}/qualities/{quality}", importance, of.Basis),
                    own ? numbers.Of($"event-profiles/{situation.EventGroup}/phases/{phase}/{quality}", multiplier, emphasis.Basis) : numbers.Of($"event-profiles/{situation.EventGroup}/default", emphasis.Default, emphasis.Basis)));
            }
        }

        foreach (var line in NeedAnalysis.Lines(situation).Where(l => l.Source != "event-profile"))
        {
            var name = line.Source == "coach" ? $"need/coach/{line.Note}" : $"need/{line.Source}/{line.Note}/{vocabulary.Qualities[line.Position].Id}";
            added.Add((line.Position, line.Weight, line.Note.StartsWith(Stated, StringComparison.Ordinal) ? null : numbers.Of(name, 1, line.Basis)));
        }

        maxPoints = numbers.Of("rules/scoring/needMatch/maxPoints", rule.MaxPoints, rule.Basis);
        fits = [.. rule.FitByRating.Select((fit, r) => numbers.Of($"rules/scoring/needMatch/fitByRating/{r}", fit, rule.Basis, most: 1))];
        nth = [.. rule.NthShare.Select((share, n) => numbers.Of($"rules/scoring/needMatch/nthShare/{n}", share, rule.Basis, most: 1))];
        least = numbers.Of("rules/scoring/needMatch/minPoints", rule.MinPoints, rule.Basis);
        NthPerMille = new int[nth.Length];
        shares = new decimal[profile.Count];
    }

    /// <summary>Share of the n-th need that one exercise serves, thousandths.</summary>
    public int[] NthPerMille { get; }

    /// <summary>Thousandths that the need match must bring.</summary>
    public int Least { get; private set; }

    /// <summary>Fit of each rating.</summary>
    public decimal[] Fits { get; private set; } = [];

    /// <summary>The profile drawn last.</summary>
    public NeedProfile Profile { get; private set; } = null!;

    /// <summary>Draws the needs and gives their points.</summary>
    public NeedTable In(Draws draws)
    {
        Array.Clear(weights);
        decimal sum = 0;
        for (var i = 0; i < profile.Count; i++)
        {
            shares[i] = profile[i].Importance.In(draws) * profile[i].Multiplier.In(draws);
            sum += shares[i];
        }

        for (var i = 0; i < shares.Length && sum > 0; i++)
        {
            weights[profile[i].Position] += shares[i] / sum;
        }

        foreach (var (position, weight, factor) in added)
        {
            weights[position] += factor is null ? weight : weight * factor.In(draws);
        }

        for (var n = 0; n < nth.Length; n++)
        {
            NthPerMille[n] = (int)decimal.Round(nth[n].In(draws) * 1000);
        }

        Least = Scoring.Points.Of(least.In(draws)).Thousandths;
        Fits = [.. fits.Select(f => f.In(draws))];
        var units = LargestRemainder.Apportion(weights, NeedProfile.WeightUnits);
        var needs = new List<Need>(units.Length);
        for (var q = 0; q < units.Length; q++)
        {
            if (units[q] > 0)
            {
                needs.Add(new Need(vocabulary.Qualities[q].Id, q, units[q], []));
            }
        }

        Profile = new NeedProfile(needs, []);
        return new NeedTable(Profile, rule with { MaxPoints = maxPoints.In(draws), FitByRating = Fits }, units.Length);
    }

    /// <summary>Whether anything asks for a quality.</summary>
    public bool Asks(int quality) => profile.Exists(p => p.Position == quality) || added.Exists(a => a.Position == quality);
}
