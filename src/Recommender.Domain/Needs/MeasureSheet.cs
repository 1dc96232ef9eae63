using System.Globalization;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>Gathers the readings of one request: what was sent, and what is derived from it, rounded as the rules say.</summary>
/// <param name="index">Definitions of the measures.</param>
/// <param name="use">Rules about the use of results.</param>
internal sealed class MeasureSheet(MeasureIndex index, TestUse use)
{
    private static readonly List<MeasureReading> None = [];
    private readonly List<MeasureReading> readings = [];
    private readonly Dictionary<string, List<MeasureReading>> byMeasure = new(StringComparer.Ordinal);
    private readonly List<string> cautions = [];
    private readonly List<string> sent = [];

    /// <summary>Every reading, in the order of the tests, then of the derivations.</summary>
    public IReadOnlyList<MeasureReading> Readings => readings;

    /// <summary>Tests that do not fit together, in plain words.</summary>
    public IReadOnlyList<string> Cautions => cautions;

    /// <summary>Tests that were sent, each once.</summary>
    public IReadOnlyList<string> Sent => sent;

    /// <summary>Rules about the use of results.</summary>
    public TestUse Use => use;

    /// <summary>Says that a test was sent, whatever becomes of it.</summary>
    public void Note(string test)
    {
        if (!sent.Contains(test))
        {
            sent.Add(test);
        }
    }

    /// <summary>A reading as it was sent.</summary>
    public void Add(string measure, decimal value, Side? side = null)
    {
        var test = measure.Split('/')[0];
        Note(test);
        Keep(new MeasureReading(measure, value, side, [test], Derived: false, Sound: true));
    }

    /// <summary>A derived reading in floating point. One that no human body gives is told and left out.</summary>
    public void Derive(string measure, double value, Side? side, bool sound, params string[] from)
    {
        if (double.IsFinite(value) && Math.Abs(value) < 1e9)
        {
            Enter(measure, (decimal)value, side, sound, null, from);
        }
    }

    /// <summary>A derived reading in decimals. One that no human body gives is told and left out.</summary>
    public void Derive(string measure, decimal value, Side? side, string? detail, params string[] from) => Enter(measure, value, side, true, detail, from);

    /// <summary>Adds a caution, once.</summary>
    public void Caution(string line)
    {
        if (!cautions.Contains(line))
        {
            cautions.Add(line);
        }
    }

    /// <summary>The first reading of a measure on a side: the one that was sent, else the derived one; null when there is none.</summary>
    public MeasureReading? Find(string measure, Side? side = null)
    {
        foreach (var reading in Of(measure))
        {
            if (reading.Side == side)
            {
                return reading;
            }
        }

        return null;
    }

    /// <summary>Every reading of a measure, in order.</summary>
    public List<MeasureReading> Of(string measure) => byMeasure.TryGetValue(measure, out var own) ? own : None;

    /// <summary>A number within a sentence.</summary>
    public static string Text(decimal value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    private void Enter(string measure, decimal value, Side? side, bool sound, string? detail, string[] from)
    {
        var definition = index.Derived(measure);
        var test = index.Test(measure);
        var rounded = definition.Round(value);
        var (min, max) = (test?.Min ?? definition.Min, test?.Max ?? definition.Max);
        if (rounded < min || rounded > max)
        {
            Caution($"{definition.Label} would be {Text(rounded)} {definition.Unit}, which is not possible: check {string.Join(" and ", from)} and their units. It is not used.");
            return;
        }

        if (sound && Of(measure).Find(r => r.Side == side && !r.Derived) is { } stated
            && Math.Abs(stated.Value - rounded) > use.DisagreementShare.Value * Math.Max(Math.Abs(stated.Value), Math.Abs(rounded)))
        {
            Caution($"{definition.Label} was sent as {Text(stated.Value)} {definition.Unit}, but {string.Join(" and ", from)} give {Text(rounded)}: check both. A need is raised only where both say so.");
        }

        Keep(new MeasureReading(measure, rounded, side, from, Derived: true, sound, detail));
    }

    private void Keep(MeasureReading reading)
    {
        readings.Add(reading);
        if (!byMeasure.TryGetValue(reading.Measure, out var own))
        {
            byMeasure[reading.Measure] = own = [];
        }

        own.Add(reading);
    }
}
