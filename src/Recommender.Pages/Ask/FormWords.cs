using Recommender.Domain.Requests;

namespace Recommender.Pages.Ask;

/// <summary>Messages that speak of a body's fields, said for a person at a form. All others are shown as the checks give them.</summary>
internal static class FormWords
{
    /// <summary>The fault with the form's words.</summary>
    public static Fault Plain(Fault fault) => fault switch
    {
        { Pointer: "/athlete/eventGroup" or "/athlete" or "/context/athlete/eventGroup" or "/context/athlete", Code: "required" } => fault with { Message = "The event is missing; choose one." },
        { Pointer: "/phase" or "/context/phase", Code: "required" } => fault with { Message = "The phase is missing; choose one." },
        { Code: "required" } when fault.Pointer.EndsWith("/pain", StringComparison.Ordinal) => fault with { Message = "Pain is missing; choose 0 to 10." },
        _ => fault with { Message = char.ToUpperInvariant(fault.Message[0]) + fault.Message[1..] },
    };
}
