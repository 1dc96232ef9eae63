using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Audit;

/// <summary>A number of the rules with the interval in which it may lie.</summary>
/// <param name="Key">Its key in the draws.</param>
/// <param name="Name">Where it stands, for people.</param>
/// <param name="Basis">Where it comes from; a published one does not move.</param>
/// <param name="Value">As it stands.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
internal sealed record VariedNumber(ulong Key, string Name, Basis Basis, decimal Value, decimal Low, decimal High)
{
    /// <summary>The number in a draw; its places are thousandths of the interval.</summary>
    public decimal In(Draws draws) => Low == High || draws.PlaceOf(Key) is not (>= 0 and var place) ? Value : Low + ((High - Low) * place / Draws.Places);
}

/// <summary>Gathers the numbers that a decision rests on.</summary>
/// <param name="rules">How they are varied.</param>
internal sealed class VariedNumbers(SensitivityRules rules)
{
    private readonly Dictionary<ulong, VariedNumber> numbers = [];
    private readonly int[] counts = new int[Enum.GetValues<Basis>().Length];

    /// <summary>The numbers of the rules, in the order they were met.</summary>
    public IReadOnlyCollection<VariedNumber> All => numbers.Values;

    /// <summary>[basis] how many numbers are varied, the catalogue's too.</summary>
    public IReadOnlyList<int> Counts => counts;

    /// <summary>How many stay as they stand: published ones, and those whose interval is a point.</summary>
    public int Held { get; private set; }

    /// <summary>Half the share of rating draws that move, of 2^32.</summary>
    public uint HalfMoves { get; } = (uint)(rules.RatingMoves / 2 * uint.MaxValue);

    /// <summary>A number that states no interval.</summary>
    /// <param name="name">Where it stands.</param>
    /// <param name="value">As it stands.</param>
    /// <param name="basis">Where it comes from.</param>
    /// <param name="most">Upper end of its range; shares end at 1.</param>
    public VariedNumber Of(string name, decimal value, Basis basis, decimal most = decimal.MaxValue)
    {
        var (one, other) = (value * (1 - rules.WithoutInterval), value * (1 + rules.WithoutInterval));
        return Add(name, basis, value, Math.Min(one, other), Math.Min(most, Math.Max(one, other)));
    }

    /// <summary>An importance of an event profile, 0 to 10.</summary>
    public VariedNumber Importance(string name, decimal value, Basis basis) =>
        Add(name, basis, value, Math.Max(0, value - rules.ImportanceStep), Math.Min(10, value + rules.ImportanceStep));

    /// <summary>Counts a number of the catalogue, which is drawn where it is used.</summary>
    /// <param name="basis">Where it comes from.</param>
    /// <param name="moves">Whether its interval is more than a point.</param>
    /// <returns>Whether it is varied.</returns>
    public bool Count(Basis basis, bool moves)
    {
        var varied = moves && basis != Basis.Published;
        counts[(int)basis] += varied ? 1 : 0;
        Held += varied ? 0 : 1;
        return varied;
    }

    private VariedNumber Add(string name, Basis basis, decimal value, decimal low, decimal high)
    {
        var key = Draws.KeyOf(name);
        if (!numbers.TryGetValue(key, out var number))
        {
            number = basis == Basis.Published ? new VariedNumber(key, name, basis, value, value, value) : new VariedNumber(key, name, basis, value, low, high);
            numbers[key] = number;
            Count(basis, low != high);
        }

        return number;
    }
}
