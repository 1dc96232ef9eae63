namespace Recommender.Domain.Catalogue;

/// <summary>Sagittal-plane statics of one leg, from the plain facts of an exercise: no force plate, no camera.</summary>
/// <param name="ThighLength">Length of the thigh, in statures.</param>
/// <param name="ShankLength">Length of the shank, in statures.</param>
/// <param name="AnkleHeight">Height of the ankle above the sole, in statures.</param>
/// <param name="PressureAhead">How far ahead of the ankle the ground force acts under a flat foot, in statures.</param>
/// <param name="StatureMetres">Stature that heights in centimetres are compared with, metres.</param>
/// <param name="PushBeyondKneeMetres">What ankle and trunk add to the distance over which a jump pushes or a landing brakes, metres.</param>
/// <param name="RateByContact">Rate class by contact time (none, long, medium, short); 0 is slow work.</param>
/// <param name="Basis">Basis of these numbers.</param>
/// <param name="Source">Id in data/sources.json, or null.</param>
/// <param name="Note">Which of them come from where.</param>
public sealed record TissueLoadMechanics(
    decimal ThighLength,
    decimal ShankLength,
    decimal AnkleHeight,
    decimal PressureAhead,
    decimal StatureMetres,
    decimal PushBeyondKneeMetres,
    IReadOnlyDictionary<string, decimal> RateByContact,
    Basis Basis,
    string? Source,
    string Note)
{
    /// <summary>The three things that the published index adds up, as far as plain facts can tell them.</summary>
    /// <param name="facts">Facts of the exercise.</param>
    /// <remarks>
    /// Symbols: m share of body weight on the working leg, outside load included; k knee flexion; s shank lean; p pitch of the foot,
    /// downhill positive (shank lean that the ankle does not explain: a decline board); L lengths in statures; h height jumped or dropped.
    /// <list type="bullet">
    /// <item>lever of the knee = L(shank) sin s - (ahead cos p - ankle height sin p), in statures, at least 0</item>
    /// <item>way of the hip = L(thigh) (1 - cos(k - s)) + L(shank) (1 - cos s), in statures</item>
    /// <item>mean push or braking force over body weight = 1 + h / (way x stature + push beyond the knee)</item>
    /// <item>knee moment = m x force x lever, in body weights x statures; it stands for peak tendon force</item>
    /// <item>loaded bend = m (1 - cos k), without unit; slow work holds it for longer, so it stands for impulse</item>
    /// <item>rate class by contact time; it stands for the rate of force</item>
    /// </list>
    /// The moment arm of the tendon changes little over the bends in the domain, so the fitted constant carries it.
    /// </remarks>
    public TissueLoadTerms TermsOf(ExerciseFacts facts)
    {
        var share = (double)(facts.BodyweightShare * (1 + facts.ExternalLoadShare));
        var knee = Radians(facts.KneeFlexionDeg);
        var shank = Radians(facts.ShankLeanDeg);
        var pitch = facts.FootContact == "flat" ? Math.Max(0, Radians(facts.ShankLeanDeg - facts.AnkleDorsiflexionDeg)) : 0;
        var ahead = ((double)PressureAhead * Math.Cos(pitch)) - ((double)AnkleHeight * Math.Sin(pitch));
        var lever = Math.Max(0, ((double)ShankLength * Math.Sin(shank)) - ahead);
        var way = ((double)ThighLength * (1 - Math.Cos(knee - shank))) + ((double)ShankLength * (1 - Math.Cos(shank)));
        var push = (way * (double)StatureMetres) + (double)PushBeyondKneeMetres;
        var height = (double)Math.Max(facts.JumpHeightCm, facts.DropHeightCm) / 100;
        return new TissueLoadTerms(share * (1 + (height / push)) * lever, share * (1 - Math.Cos(knee)), (double)RateByContact[facts.ContactTime]);
    }

    private static double Radians(decimal degrees) => (double)degrees * Math.PI / 180;
}

/// <summary>What the model adds up, before the fitted constants weigh it.</summary>
/// <param name="KneeMoment">Largest knee extensor moment, body weights x statures.</param>
/// <param name="LoadedBend">Share of body weight on the leg times the depth of the bend, 0 to 2.</param>
/// <param name="RateClass">0 for slow work; larger for shorter contacts.</param>
public readonly record struct TissueLoadTerms(double KneeMoment, double LoadedBend, double RateClass);
