using Recommender.Answers.Wire;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Ask;

/// <summary>Everything the ask page shows.</summary>
/// <param name="Typed">What stands in the fields.</param>
/// <param name="From">What it was filled from: athlete:REF or decision:ID; null when nothing.</param>
/// <param name="FromLabel">That in words.</param>
/// <param name="Basis">The request of it; what the form does not show goes along.</param>
/// <param name="Athletes">Saved athletes.</param>
/// <param name="Faults">What is wrong; empty at first.</param>
/// <param name="Notice">What else to tell, or null.</param>
/// <param name="Token">Form token.</param>
/// <param name="Session">Whether a whole session is asked for rather than a ranking.</param>
public sealed record AskForm(Typed Typed, string? From, string? FromLabel, RecommendationRequest? Basis, IReadOnlyList<AthleteProfile> Athletes, IReadOnlyList<Fault> Faults, string? Notice, string Token, bool Session = false)
{
    /// <summary>Where the form is sent.</summary>
    public string Address => Session ? "/sessions" : "/";

    /// <summary>The message for a field, or null. Faults point into the request, whose rows are those of the form that hold anything, in order.</summary>
    /// <param name="name">Name of the field.</param>
    public string? FaultOf(string name) => Faults.FirstOrDefault(f => FieldOf(f) == name)?.Message;

    /// <summary>The field that a fault is about.</summary>
    public string FieldOf(Fault fault)
    {
        var parts = fault.Pointer.TrimStart('/').Split('/');
        parts = parts[0] == "context" ? parts[1..] : parts;
        if (parts is ["athlete"] or ["athlete", "eventGroup"])
        {
            return "athlete.event";
        }

        if (parts is ["athlete", "oneRepMaxKg", var exercise, ..])
        {
            // By exercise id in the request, by row in the form.
            var row = Typed.Rows("athlete.oneRepMaxKg", "exercise", 200).FirstOrDefault(i => Typed.Get($"athlete.oneRepMaxKg.{i}.exercise") == exercise, -1);
            return row < 0 ? string.Join('.', parts) : $"athlete.oneRepMaxKg.{row}.{(fault.Code == "unknown-id" ? "exercise" : "kg")}";
        }

        if (parts is ["complaints" or "needs", var position, ..] && int.TryParse(position, out var index))
        {
            var rows = Typed.Rows(parts[0], parts[0] == "needs" ? "quality" : "region", 30);
            parts[1] = index < rows.Count ? $"{rows[index]}" : position;
        }

        return string.Join('.', parts);
    }
}
