namespace Recommender.Domain.Needs.Measures;

/// <summary>Reach while standing on one leg. Source: plisky-2006.</summary>
public static class YBalance
{
    /// <summary>Composite: 100 x (anterior + posteromedial + posterolateral) / (3 x leg length), percent; all in the same unit.</summary>
    public static decimal Composite(decimal anterior, decimal posteromedial, decimal posterolateral, decimal legLength) =>
        100 * (anterior + posteromedial + posterolateral) / (3 * legLength);
}
