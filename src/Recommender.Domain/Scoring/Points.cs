using System.Globalization;
using System.Text.Json.Serialization;

namespace Recommender.Domain.Scoring;

/// <summary>Points as a whole number of thousandths, so that parts add up exactly and replays are byte-equal.</summary>
/// <param name="Thousandths">Thousandths of a point; may be negative.</param>
[JsonConverter(typeof(PointsConverter))]
public readonly record struct Points(int Thousandths) : IComparable<Points>
{
    /// <summary>The points as a decimal number, at most three places.</summary>
    public decimal Value
    {
        get
        {
            // As a division would give it, trailing zeros left out, at a fraction of its cost.
            var (whole, places) = (Math.Abs(Thousandths), (byte)3);
            while (places > 0 && whole % 10 == 0)
            {
                (whole, places) = (whole / 10, (byte)(places - 1));
            }

            return new decimal(whole, 0, 0, Thousandths < 0, places);
        }
    }

    /// <summary>Nearest thousandth; halves away from zero.</summary>
    public static Points Of(decimal points) => new((int)decimal.Round(points * 1000, MidpointRounding.AwayFromZero));

    /// <summary>Sum.</summary>
    public static Points operator +(Points a, Points b) => new(a.Thousandths + b.Thousandths);

    /// <summary>Difference.</summary>
    public static Points operator -(Points a, Points b) => new(a.Thousandths - b.Thousandths);

    /// <summary>Whether <paramref name="a"/> is less.</summary>
    public static bool operator <(Points a, Points b) => a.Thousandths < b.Thousandths;

    /// <summary>Whether <paramref name="a"/> is more.</summary>
    public static bool operator >(Points a, Points b) => a.Thousandths > b.Thousandths;

    /// <summary>Whether <paramref name="a"/> is less or equal.</summary>
    public static bool operator <=(Points a, Points b) => a.Thousandths <= b.Thousandths;

    /// <summary>Whether <paramref name="a"/> is more or equal.</summary>
    public static bool operator >=(Points a, Points b) => a.Thousandths >= b.Thousandths;

    /// <summary>Sum.</summary>
    public static Points Add(Points left, Points right) => left + right;

    /// <summary>Difference.</summary>
    public static Points Subtract(Points left, Points right) => left - right;

    /// <inheritdoc/>
    public int CompareTo(Points other) => Thousandths.CompareTo(other.Thousandths);

    /// <inheritdoc/>
    public override string ToString() => Value.ToString("0.###", CultureInfo.InvariantCulture);
}
