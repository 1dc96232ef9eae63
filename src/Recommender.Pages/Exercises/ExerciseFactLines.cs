using Recommender.Domain.Catalogue;
using Recommender.Pages.Words;

namespace Recommender.Pages.Exercises;

/// <summary>Every plain fact of an exercise as a line; nothing is left out, zero included.</summary>
internal static class ExerciseFactLines
{
    /// <summary>Name and value, in the order in which a coach asks.</summary>
    public static IEnumerable<(string Name, string Value)> Of(Exercise e, Vocabulary words)
    {
        var f = e.Facts;
        yield return ("Pattern", Say.Label(words.Patterns, e.Pattern));
        yield return ("Support", words.Supports[(int)e.Support].Label);
        yield return ("Direction", Say.Label(words.Directions, e.Direction));
        yield return ("Contraction", Say.Label(words.Contractions, e.Contraction));
        yield return ("Loading rate", words.LoadingRates[(int)e.LoadingRate].Label);
        yield return ("Load band", words.LoadBands[(int)e.LoadBand].Label);
        yield return ("Equipment", string.Join("; or ", e.Equipment.Select(set => set.Count == 0 ? "nothing" : string.Join(" and ", set.Select(x => Say.InSentence(words.Equipment, x))))));
        yield return ("Places", string.Join(", ", e.Places.Select(p => Say.InSentence(words.Places, p))));
        yield return ("Complexity", $"{e.Complexity} of 4");
        yield return ("Needs", e.Competences.Count == 0 ? "no competence" : string.Join(", ", e.Competences.Select(c => Say.InSentence(words.Competences, c))));
        yield return ("Soreness risk", $"{e.SorenessRisk} of 3");
        yield return ("Set-up", $"{Say.Number(e.SetUpMinutes)} min");
        yield return ("One " + (e.DoseUnit == DoseUnit.Reps ? "repetition" : words.DoseUnits[(int)e.DoseUnit].Label.ToLowerInvariant().TrimEnd('s')), $"{Say.Number(e.SecondsPerRepetition)} s{(e.PerSide ? ", each side apart" : "")}");
        yield return ("Landings in it", $"{e.ImpactContacts}");
        yield return ("Loadings in it", e.LoadingsPerUnit is { } loadings ? Say.Number(loadings) : "not said");
        yield return ("Body weight on the limb", Say.Percent(f.BodyweightShare));
        yield return ("External load", $"{Say.Percent(f.ExternalLoadShare)} of body weight");
        yield return ("Knee bend", $"{Say.Number(f.KneeFlexionDeg)}°");
        yield return ("Hip bend", $"{Say.Number(f.HipFlexionDeg)}°");
        yield return ("Ankle dorsiflexion", $"{Say.Number(f.AnkleDorsiflexionDeg)}°");
        yield return ("Trunk lean", $"{Say.Number(f.TrunkLeanDeg)}°");
        yield return ("Shank lean", $"{Say.Number(f.ShankLeanDeg)}°");
        yield return ("Foot contact", f.FootContact);
        yield return ("Dropped from", $"{Say.Number(f.DropHeightCm)} cm");
        yield return ("Jumped", $"{Say.Number(f.JumpHeightCm)} cm");
        yield return ("Contact time", f.ContactTime);
        yield return ("Speed", f.Speed);
        yield return ("Floor needed", $"{Say.Number(f.SpaceMetres)} m");
        yield return ("Noise", f.Noise);
        yield return ("Variant family", e.Family);
    }
}
