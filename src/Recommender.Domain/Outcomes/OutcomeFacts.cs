using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Outcomes;

/// <summary>What a report is learned from, taken from the decision and its versions when it came in, so that learning later opens no records.</summary>
/// <param name="Kind">recommendation, substitution or session.</param>
/// <param name="Picked">The pick.</param>
/// <param name="Instead">What was done in its place, or null.</param>
/// <param name="Work">What the work loads; null where nothing was done or it is not in the catalogue of the decision.</param>
public sealed record OutcomeFacts(string Kind, ChoiceFacts Picked, ChoiceFacts? Instead, WorkFacts? Work);

/// <summary>An exercise as it stood in a decision.</summary>
/// <param name="Exercise">Exercise id.</param>
/// <param name="Family">Variant family.</param>
/// <param name="Place">1 for the first pick; 0 where it was none.</param>
/// <param name="IsOpen">Whether it passed every gate.</param>
/// <param name="LoadsSore">Whether it loads what is sore; null where nothing is.</param>
/// <param name="Points">Thousandths of every factor but the learned one, in the order of the engine.</param>
public sealed record ChoiceFacts(string Exercise, string Family, int Place, bool IsOpen, bool? LoadsSore, IReadOnlyList<int> Points);

/// <summary>What work loads, for cautions.</summary>
/// <param name="Exercise">Exercise that was done.</param>
/// <param name="PainBefore">Worst pain that the request told of a region it loads, 0 to 10; 0 where none.</param>
/// <param name="LoadingRate">How quickly it loads.</param>
/// <param name="Loads">Region id to the upper end of the load on it: of regions that were said to hurt where the work loads one of them notably, else of all that it loads.</param>
public sealed record WorkFacts(string Exercise, int PainBefore, LoadingRate LoadingRate, IReadOnlyDictionary<string, decimal> Loads);
