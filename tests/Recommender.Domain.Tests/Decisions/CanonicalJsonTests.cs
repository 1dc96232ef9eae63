using System.Globalization;
using System.Text;
using System.Text.Json;
using CsCheck;
using Recommender.Domain.Decisions;

namespace Recommender.Domain.Tests.Decisions;

/// <summary>
/// Against RFC 8785 (JSON Canonicalization Scheme, June 2020): the whole example of section 3.2.2 with the bytes of section 3.2.4, the sorting example of
/// section 3.2.3, and the number samples of appendix B.
/// </summary>
public sealed class CanonicalJsonTests
{
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };

    [Fact]
    public void Gives_the_bytes_that_section_3_2_4_prints()
    {
        const string input = """
            {
              "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
              "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
              "literals": [null, true, false]
            }
            """;
        const string expected = """
            7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72 75 65 2c 66 61 6c 73 65 5d 2c 22 6e 75 6d 62 65 72 73 22 3a 5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31 65 2b 33 30 2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37 5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30 30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d
            """;

        Assert.Equal(expected.Replace(" ", "", StringComparison.Ordinal), Convert.ToHexStringLower(CanonicalJson.Of(Encoding.UTF8.GetBytes(input))));
    }

    [Fact]
    public void Sorts_members_by_utf_16_code_units_as_in_section_3_2_3()
    {
        const string input = """
            {
              "\u20ac": "Euro Sign",
              "\r": "Carriage Return",
              "\ufb33": "Hebrew Letter Dalet With Dagesh",
              "1": "One",
              "\ud83d\ude00": "Emoji: Grinning Face",
              "\u0080": "Control",
              "\u00f6": "Latin Small Letter O With Diaeresis"
            }
            """;
        string[] expected = ["Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis", "Euro Sign", "Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh"];

        using var sorted = JsonDocument.Parse(CanonicalJson.Of(Encoding.UTF8.GetBytes(input)));

        Assert.Equal(expected, sorted.RootElement.EnumerateObject().Select(m => m.Value.GetString()));
    }

    /// <summary>Appendix B: the bits of a double and its text.</summary>
    [Theory]
    [InlineData("0000000000000000", "0")]
    [InlineData("8000000000000000", "0")]
    [InlineData("0000000000000001", "5e-324")]
    [InlineData("8000000000000001", "-5e-324")]
    [InlineData("7fefffffffffffff", "1.7976931348623157e+308")]
    [InlineData("ffefffffffffffff", "-1.7976931348623157e+308")]
    [InlineData("4340000000000000", "9007199254740992")]
    [InlineData("c340000000000000", "-9007199254740992")]
    [InlineData("4430000000000000", "295147905179352830000")]
    [InlineData("44b52d02c7e14af5", "9.999999999999997e+22")]
    [InlineData("44b52d02c7e14af6", "1e+23")]
    [InlineData("44b52d02c7e14af7", "1.0000000000000001e+23")]
    [InlineData("444b1ae4d6e2ef4e", "999999999999999700000")]
    [InlineData("444b1ae4d6e2ef4f", "999999999999999900000")]
    [InlineData("444b1ae4d6e2ef50", "1e+21")]
    [InlineData("3eb0c6f7a0b5ed8c", "9.999999999999997e-7")]
    [InlineData("3eb0c6f7a0b5ed8d", "0.000001")]
    [InlineData("41b3de4355555553", "333333333.3333332")]
    [InlineData("41b3de4355555554", "333333333.33333325")]
    [InlineData("41b3de4355555555", "333333333.3333333")]
    [InlineData("41b3de4355555556", "333333333.3333334")]
    [InlineData("41b3de4355555557", "333333333.33333343")]
    [InlineData("becbf647612f3696", "-0.0000033333333333333333")]
    [InlineData("43143ff3c1cb0959", "1424953923781206.2")]
    public void Writes_numbers_as_appendix_b_lists_them(string bits, string text)
    {
        var number = BitConverter.Int64BitsToDouble(Convert.ToInt64(bits, 16));

        Assert.Equal(text, Encoding.ASCII.GetString(CanonicalJson.Of(Encoding.ASCII.GetBytes(number.ToString("E17", CultureInfo.InvariantCulture)))));
    }

    [Fact]
    public void A_number_reads_back_as_the_same_double_whatever_its_bits() =>
        Gen.Double.Where(double.IsFinite).Sample(number =>
            double.Parse(CanonicalJson.Of(Encoding.ASCII.GetBytes(number.ToString("E17", CultureInfo.InvariantCulture))), CultureInfo.InvariantCulture) == number);

    [Fact]
    public void Is_blind_to_white_space_and_order_and_stays_as_it_is_when_made_again() =>
        Gen.Select(Gen.String, Gen.Int, Gen.Double.Where(double.IsFinite)).Where(t => t.Item1.All(c => !char.IsSurrogate(c))).Sample(t =>
        {
            var (text, whole, real) = t;
            var one = JsonSerializer.SerializeToUtf8Bytes(new Dictionary<string, object> { ["b"] = text, ["a"] = new object[] { whole, real } });
            var other = JsonSerializer.SerializeToUtf8Bytes(new Dictionary<string, object> { ["a"] = new object[] { whole, real }, ["b"] = text }, Indented);
            var canonical = CanonicalJson.Of(one);
            return canonical.AsSpan().SequenceEqual(CanonicalJson.Of(other)) && canonical.AsSpan().SequenceEqual(CanonicalJson.Of(canonical));
        });

    [Theory]
    [InlineData("""{"a":1,"a":2}""")]
    [InlineData("1e400")]
    [InlineData("\"\\ud800\"")]
    [InlineData("{\"\\udc00\":1}")]
    [InlineData("{")]
    [InlineData("")]
    public void Refuses_what_has_no_canonical_form(string text) => Assert.ThrowsAny<JsonException>(() => CanonicalJson.Of(Encoding.UTF8.GetBytes(text)));
}
