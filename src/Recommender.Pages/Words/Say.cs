using System.Globalization;
using System.Text.RegularExpressions;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Scoring;

namespace Recommender.Pages.Words;

/// <summary>Numbers and ids as a person reads them. It words what the answer holds; it never computes.</summary>
public static partial class Say
{
    /// <summary>A number without trailing zeros.</summary>
    public static string Number(decimal value) => value.ToString("0.###", CultureInfo.InvariantCulture).Replace('-', '−');

    /// <summary>So many of a thing: 1 decision, 3 decisions.</summary>
    /// <param name="count">How many.</param>
    /// <param name="one">The thing, of which several end in s or, after sh and ch, in es.</param>
    public static string Count(long count, string one) => $"{Number(count)} {one}{(count == 1 ? "" : one.EndsWith('h') ? "es" : "s")}";

    /// <summary>A moment in UTC.</summary>
    public static string Moment(DateTimeOffset at) => at.UtcDateTime.ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A version or hash in short.</summary>
    public static string Short(string version) => version.Length > 12 ? version[..12] : version;

    /// <summary>Points with their sign.</summary>
    public static string Signed(Points points) => (points.Thousandths > 0 ? "+" : "") + Number(points.Value);

    /// <summary>A share as percent.</summary>
    public static string Percent(decimal share) => (share * 100).ToString("0.#", CultureInfo.InvariantCulture) + " %";

    /// <summary>A length for a drawing, in percent of the whole.</summary>
    public static string Length(decimal percent) => percent.ToString("0.##", CultureInfo.InvariantCulture) + "%";

    /// <summary>Label of a term; the id itself where the vocabulary no longer has it.</summary>
    public static string Label<T>(Terms<T> terms, string id) where T : Term => terms.Find(id)?.Label ?? id;

    /// <summary>Label of a term as it stands within a sentence.</summary>
    public static string InSentence<T>(Terms<T> terms, string id) where T : Term => terms.Has(id) ? terms.InSentence(id) : id;

    /// <summary>A sentence of the engine with the ids in it said by their names.</summary>
    public static string Named(string sentence, ExerciseCatalogue catalogue) => Id().Replace(sentence, m =>
    {
        var words = catalogue.Vocabulary;
        return words.Equipment.Has(m.Value) ? words.Equipment.InSentence(m.Value)
            : words.Places.Has(m.Value) ? words.Places.InSentence(m.Value)
            : words.Competences.Has(m.Value) ? words.Competences.InSentence(m.Value)
            : catalogue.PositionOf(m.Value) is >= 0 and var at ? catalogue.Exercises[at].Name
            : m.Value;
    });

    /// <summary>Basis in words.</summary>
    public static string Basis(Basis basis) => basis switch
    {
        Domain.Catalogue.Basis.Published => "published",
        Domain.Catalogue.Basis.Modelled => "modelled",
        Domain.Catalogue.Basis.CommonPractice => "common practice",
        _ => "recalled",
    };

    /// <summary>Sets and amount, the line in large type: 4 × 15.</summary>
    public static string Work(Dose dose) => $"{dose.Sets} × {Number(dose.Amount)}";

    /// <summary>What is counted: reps, each side.</summary>
    public static string Unit(Dose dose) => Unit(dose.Unit) + (dose.PerSide ? " each side" : "");

    /// <summary>A unit of dose.</summary>
    public static string Unit(DoseUnit unit) => unit switch
    {
        DoseUnit.Reps => "reps",
        DoseUnit.Seconds => "s",
        DoseUnit.Metres => "m",
        _ => "contacts",
    };

    /// <summary>Sets, amount and unit in one line.</summary>
    public static string Whole(Dose? dose) => dose is null ? "as the clinician says" : $"{Work(dose)} {Unit(dose)}";

    /// <summary>Sets, amount and unit in one line, each side where they differ.</summary>
    public static string BySide(Dose? dose) => dose?.Sides is { } sides ? $"left {Work(sides.Left)}, right {Work(sides.Right)} {Unit(dose.Unit)}" : Whole(dose);

    /// <summary>Load where it is known: 22.5 kg.</summary>
    public static string? Kilograms(Dose dose) => dose.LoadKg is { } kg ? Number(kg) + " kg" : null;

    /// <summary>Intensity in words.</summary>
    public static string Intensity(Intensity intensity)
    {
        var range = intensity.Low is { } low ? intensity.High is { } high && high != low ? $"{Number(low)} to {Number(high)}" : Number(low) : intensity.High is { } most ? Number(most) : null;
        return intensity.Kind switch
        {
            "percent-1rm" => $"{range} % of the best single lift",
            "reps-in-reserve" => $"{range} repetitions left in reserve",
            "bodyweight" => "body weight",
            "band-tension" => "band tension",
            "maximal-intent" => "every one as hard or fast as possible",
            "easy-range" => "easy, inside a free range",
            _ => intensity.Kind,
        };
    }

    /// <summary>Rest between sets.</summary>
    public static string Rest(int seconds) => seconds >= 120 && seconds % 30 == 0 ? $"{Number(seconds / 60m)} min" : $"{seconds} s";

    /// <summary>An id as a person reads it where no label is known: surname-2009 becomes Surname 2009.</summary>
    public static string Source(string id) => id.Length == 0 ? id : char.ToUpperInvariant(id[0]) + id[1..].Replace('-', ' ');

    // Ids of several words; those of one are words already.
    [GeneratedRegex("[a-z0-9]+(?:-[a-z0-9]+)+")]
    private static partial Regex Id();
}
