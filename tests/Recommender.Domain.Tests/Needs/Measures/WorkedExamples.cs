using System.Globalization;
using System.Text.Json;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Needs.Measures;

/// <summary>One printed or worked example of an equation, with where it was printed.</summary>
/// <param name="Id">Row of the collection.</param>
/// <param name="Topic">What it is about.</param>
/// <param name="Equation">The equation in words.</param>
/// <param name="Inputs">The inputs in words.</param>
/// <param name="Expected">The output as printed.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Tolerance">How exactly it was printed, in its unit.</param>
/// <param name="Basis">published: printed output; published-inputs: printed inputs; derived: worked out from the stated equation.</param>
/// <param name="Source">Who printed it.</param>
/// <param name="Doi">DOI, where it was read.</param>
/// <param name="Read">text or abstract. Rows known from memory are no check values and are not here.</param>
/// <param name="Note">What to mind.</param>
public sealed record WorkedExample(string Id, string Topic, string Equation, string Inputs, string Expected, string Unit, double Tolerance, string Basis, string Source, string? Doi, string Read, string? Note)
{
    public double Value => double.Parse(Expected, CultureInfo.InvariantCulture);
}

/// <summary>One worked example of an equation for the one-repetition maximum.</summary>
/// <param name="Id">Row of the collection.</param>
/// <param name="Equation">Name of the equation.</param>
/// <param name="Formula">The equation.</param>
/// <param name="LoadKg">Load, kilograms.</param>
/// <param name="Repetitions">Repetitions.</param>
/// <param name="Expected">The maximum as printed, kilograms.</param>
/// <param name="Percent">The load as a share of it, percent.</param>
/// <param name="Source">Who printed the equation.</param>
/// <param name="Read">text or abstract.</param>
/// <param name="Note">What to mind.</param>
public sealed record OneRepMaxExample(string Id, string Equation, string Formula, double LoadKg, int Repetitions, string Expected, string Percent, string Source, string Read, string Note);

/// <summary>The collections of worked examples beside this file.</summary>
internal static class WorkedExamples
{
    private static readonly JsonSerializerOptions Readable = new(JsonSerializerDefaults.Web);

    public static IReadOnlyDictionary<string, WorkedExample> Equations { get; } = Read<WorkedExample>("worked-examples.json").ToDictionary(e => e.Id, StringComparer.Ordinal);

    public static IReadOnlyList<OneRepMaxExample> OneRepMaxima { get; } = Read<OneRepMaxExample>("one-rm-examples.json");

    private static List<T> Read<T>(string file) =>
        JsonSerializer.Deserialize<List<T>>(File.ReadAllText(Path.Combine(TestEdition.Top, "tests", "Recommender.Domain.Tests", "Needs", "Measures", file)), Readable)!;
}
