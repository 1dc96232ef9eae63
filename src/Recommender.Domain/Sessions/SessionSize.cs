using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>How long a session is and how many exercises it has.</summary>
/// <param name="Tenths">Tenths of a minute.</param>
/// <param name="Least">At least so many exercises.</param>
/// <param name="Most">At most so many.</param>
/// <param name="Assumed">What was taken because the request left it out.</param>
internal sealed record SessionSize(int Tenths, int Least, int Most, IReadOnlyList<Assumption> Assumed)
{
    /// <summary>The size of a session.</summary>
    public static SessionSize Of(SessionRequest request, Situation situation)
    {
        var rules = situation.Knowledge.Session;
        var assumed = new List<Assumption>();
        var minutes = situation.Minutes ?? Assume("/context/setting/minutes", rules.Minutes.Value);
        var least = request.Slots?.Min ?? (int)Assume("/slots/min", 1);
        var most = request.Slots?.Max ?? (int)Assume("/slots/max", Math.Max(Math.Max(rules.Picks.Usual, least), request.Locked?.Count ?? 0));
        return new SessionSize((int)decimal.Floor(minutes * 10), least, most, assumed);

        decimal Assume(string pointer, decimal value)
        {
            assumed.Add(new Assumption(pointer, value));
            return value;
        }
    }
}
