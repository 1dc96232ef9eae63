namespace Recommender.Domain.Catalogue;

/// <summary>Plain facts about an exercise that can be checked by eye; the tissue-load model reads them.</summary>
/// <param name="BodyweightShare">Share of body weight on one working limb, 0 to 1.</param>
/// <param name="ExternalLoadShare">External load as a share of body weight at the stated load band, whole load, 0 to 4.</param>
/// <param name="KneeFlexionDeg">Knee flexion of the working leg at the deepest point, degrees.</param>
/// <param name="HipFlexionDeg">Hip flexion of the working leg at the deepest point, degrees.</param>
/// <param name="AnkleDorsiflexionDeg">Ankle dorsiflexion at the deepest point, degrees.</param>
/// <param name="TrunkLeanDeg">Trunk lean from the vertical, degrees.</param>
/// <param name="ShankLeanDeg">Shank lean from the vertical, degrees.</param>
/// <param name="FootContact">flat, forefoot, heel or none.</param>
/// <param name="DropHeightCm">Height dropped from, centimetres.</param>
/// <param name="JumpHeightCm">Usual height jumped, centimetres.</param>
/// <param name="ContactTime">none, long (above 0.25 s), medium (0.17 to 0.25 s) or short (below 0.17 s).</param>
/// <param name="Speed">static, slow, moderate, fast or ballistic.</param>
/// <param name="SpaceMetres">Free floor length needed, metres.</param>
/// <param name="Noise">quiet, moderate or loud.</param>
public sealed record ExerciseFacts(
    decimal BodyweightShare,
    decimal ExternalLoadShare,
    decimal KneeFlexionDeg,
    decimal HipFlexionDeg,
    decimal AnkleDorsiflexionDeg,
    decimal TrunkLeanDeg,
    decimal ShankLeanDeg,
    string FootContact,
    decimal DropHeightCm,
    decimal JumpHeightCm,
    string ContactTime,
    string Speed,
    decimal SpaceMetres,
    string Noise);
