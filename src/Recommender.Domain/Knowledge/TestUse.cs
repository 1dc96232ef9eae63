namespace Recommender.Domain.Knowledge;

/// <summary>What a result must be like to be used, and how much of it.</summary>
/// <param name="TestPainAbove">Above this pain while testing, 0 to 10, the results are shown and not used.</param>
/// <param name="LeastTrials">Fewer trials raise nothing.</param>
/// <param name="UnknownTrialsShare">Share of a weight when the number of trials is not said.</param>
/// <param name="StaleAfterDays">Older results count less.</param>
/// <param name="StaleShare">Share of a weight then.</param>
/// <param name="MeasureCap">Most that one measure may add, before scaling to 1.</param>
/// <param name="QualityCap">Most that all tests together may add to one quality, before scaling to 1.</param>
/// <param name="DisagreementShare">A sent and a derived value further apart than this share of the larger one disagree.</param>
/// <param name="SquatJumpExcessShare">A squat jump higher than the countermovement jump by more than this share is told as a fault of the test.</param>
/// <param name="SlowContactMs">From this contact time on, milliseconds, a rebound is not a fast one.</param>
/// <param name="LeastLoads">Fewer different loads give no vertical profile.</param>
/// <param name="LeastFit">R squared below which a vertical profile is not used.</param>
/// <param name="LeastSplits">Fewer splits give no sprint profile.</param>
/// <param name="MostMisfitSeconds">Root mean square of the residuals, seconds, above which a sprint profile is not used.</param>
/// <param name="FastestMetresPerSecond">No split is run faster.</param>
/// <param name="AirTemperatureC">Air temperature taken for the drag, degrees Celsius.</param>
/// <param name="AirPressureTorr">Air pressure taken for the drag, torr.</param>
/// <param name="StartCorrectionSeconds">How the clock started to what is added to every split, seconds.</param>
public sealed record TestUse(RuleNumber TestPainAbove, RuleNumber LeastTrials, RuleNumber UnknownTrialsShare, RuleNumber StaleAfterDays, RuleNumber StaleShare, RuleNumber MeasureCap,
    RuleNumber QualityCap, RuleNumber DisagreementShare, RuleNumber SquatJumpExcessShare, RuleNumber SlowContactMs, RuleNumber LeastLoads, RuleNumber LeastFit, RuleNumber LeastSplits,
    RuleNumber MostMisfitSeconds, RuleNumber FastestMetresPerSecond, RuleNumber AirTemperatureC, RuleNumber AirPressureTorr,
    IReadOnlyDictionary<string, RuleNumber> StartCorrectionSeconds);
