namespace Recommender.Answers.Learned;

/// <summary>What learned numbers gain on later decisions, what they cost, and whether they were put in force.</summary>
/// <param name="ComparedWith">none: without any preference. organisation: with the organisation's, which a coach would get otherwise.</param>
/// <param name="Trained">Earlier decisions, that taught.</param>
/// <param name="Tested">Later decisions, that test.</param>
/// <param name="PairAccuracy">Share of the later pairs in which what was taken has more points; equal points count half.</param>
/// <param name="Ndcg">Normalised discounted cumulative gain of the later decisions' order, over the first places.</param>
/// <param name="Top">Places that the gain of an order is counted over.</param>
/// <param name="PointsPerUnit">Points that one unit of log odds is worth.</param>
/// <param name="Cost">What it does to the later answers; null where none could be answered again.</param>
/// <param name="Helps">Whether both gains are above zero at the lower end of their interval.</param>
/// <param name="Reason">Why it was put in force, or was not.</param>
public sealed record PreferenceReport(string ComparedWith, TrialSize Trained, TrialSize Tested, TrialGain? PairAccuracy, TrialGain? Ndcg, int Top, decimal PointsPerUnit, PreferenceCost? Cost, bool Helps, string Reason);

/// <summary>How much a trial rests on.</summary>
/// <param name="Decisions">Decisions with at least one pair.</param>
/// <param name="Pairs">Pairs.</param>
public sealed record TrialSize(int Decisions, int Pairs);

/// <summary>A figure without and with the preference.</summary>
/// <param name="Without">Without it, three decimals.</param>
/// <param name="With">With it.</param>
/// <param name="Gain">The difference.</param>
/// <param name="Low">Lower end of the difference's interval, decisions drawn again.</param>
/// <param name="High">Upper end.</param>
public sealed record TrialGain(decimal Without, decimal With, decimal Gain, decimal Low, decimal High);

/// <summary>How much a preference moved answers, so that drift towards favourites is seen.</summary>
/// <param name="Answers">Later answers that were given again without and with it.</param>
/// <param name="FirstPlacesChanged">Share of them whose first pick is another.</param>
/// <param name="PicksChanged">Share of their picks that are others.</param>
/// <param name="NeedCoverage">Change of the share of need weight that a pick serves strongly, mean.</param>
/// <param name="TissueLoad">Change of the load on regions that are sore or that the event wears, summed over the picks, as a share of it without.</param>
/// <param name="MeanLean">Mean size of the points that it adds to a pick.</param>
public sealed record PreferenceCost(int Answers, decimal FirstPlacesChanged, decimal PicksChanged, decimal NeedCoverage, decimal TissueLoad, decimal MeanLean);
