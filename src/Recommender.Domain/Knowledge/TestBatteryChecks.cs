using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>What a schema cannot see in the test battery: known measures, qualities and events, sources, and weights within their caps.</summary>
internal sealed class TestBatteryChecks
{
    private const string Where = "tests/battery.json";
    private readonly TestBattery battery;
    private readonly Vocabulary vocabulary;
    private readonly IReadOnlySet<string> sources;
    private readonly List<KnowledgeFault> faults = [];

    private TestBatteryChecks(TestBattery battery, Vocabulary vocabulary, IReadOnlySet<string> sources)
    {
        this.battery = battery;
        this.vocabulary = vocabulary;
        this.sources = sources;
    }

    /// <summary>Every fault of the battery.</summary>
    /// <param name="battery">The battery.</param>
    /// <param name="vocabulary">The vocabulary.</param>
    /// <param name="sources">Ids of the sources.</param>
    /// <param name="exercises">Exercise ids, for measures that are about one.</param>
    public static IReadOnlyList<KnowledgeFault> Of(TestBattery battery, Vocabulary vocabulary, IReadOnlySet<string> sources, IReadOnlySet<string> exercises)
    {
        var checks = new TestBatteryChecks(battery, vocabulary, sources);
        checks.Definitions();
        checks.Thresholds(exercises);
        checks.Sides();
        checks.Numbers();
        return checks.faults;
    }

    private void Definitions()
    {
        foreach (var test in battery.Tests)
        {
            Sourced($"/tests/{test.Id}", test.Basis, test.Source);
            if (test.Min >= test.Max)
            {
                Fault($"/tests/{test.Id}", "min must be below max.");
            }
        }

        foreach (var derived in battery.Derived)
        {
            Sourced($"/derived/{derived.Id}", derived.Basis, derived.Source);
            if (derived.Min >= derived.Max)
            {
                Fault($"/derived/{derived.Id}", "min must be below max.");
            }
        }

        foreach (var twice in battery.Derived.GroupBy(d => d.Id, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            Fault("/derived", $"\"{twice.Key}\" stands twice.");
        }
    }

    private void Thresholds(IReadOnlySet<string> exercises)
    {
        foreach (var threshold in battery.Thresholds)
        {
            var at = $"/thresholds/{threshold.Id}";
            Raises(at, threshold.Raises);
            Sourced(at, threshold.Basis, threshold.Source);
            Sourced(at, threshold.ErrorBasis, threshold.ErrorSource);
            if (threshold.Below is null == threshold.Above is null)
            {
                Fault(at, "give below or above, one of them.");
            }

            if (!IsMeasure(threshold.Measure, exercises))
            {
                Fault($"{at}/measure", $"\"{threshold.Measure}\" is no test and no derived measure.");
            }

            foreach (var group in threshold.EventGroups ?? [])
            {
                Known($"{at}/eventGroups", group, vocabulary.EventGroups);
            }
        }

        foreach (var twice in battery.Thresholds.Select(t => t.Id).Concat(battery.Sides.Rules.Select(r => r.Id)).GroupBy(id => id, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            Fault("/thresholds", $"\"{twice.Key}\" stands twice, here or among the sides.");
        }
    }

    private bool IsMeasure(string measure, IReadOnlySet<string> exercises)
    {
        var parts = measure.Split('/');
        return battery.Tests.Any(t => t.Id == measure)
            || (battery.Derived.Any(d => d.Id == parts[0]) && (parts.Length == 1 || exercises.Contains(parts[1])));
    }

    private void Sides()
    {
        foreach (var group in battery.Sides.Groups)
        {
            foreach (var region in group.Regions)
            {
                Known($"/sides/groups/{group.Id}", region, vocabulary.Regions);
            }
        }

        foreach (var rule in battery.Sides.Rules)
        {
            var at = $"/sides/rules/{rule.Id}";
            Raises(at, rule.Raises);
            Sourced(at, rule.Basis, rule.Source);
            Sourced(at, rule.ErrorBasis, rule.ErrorSource);
            if (battery.Sides.Groups.All(g => g.Id != rule.Group))
            {
                Fault($"{at}/group", $"\"{rule.Group}\" is not one of the groups.");
            }

            if (battery.Tests.All(t => t.Id != rule.Of) && battery.Derived.All(d => d.Id != rule.Of))
            {
                Fault($"{at}/of", $"\"{rule.Of}\" is no test and no derived measure.");
            }

            if (battery.Derived.All(d => d.Id != rule.Measure))
            {
                Fault($"{at}/measure", $"\"{rule.Measure}\" is no derived measure.");
            }
        }

        foreach (var habit in battery.Sides.Habits)
        {
            Sourced($"/sides/habits/{habit.Id}", habit.Basis, habit.Source);
            foreach (var id in habit.Events)
            {
                Known($"/sides/habits/{habit.Id}/events", id, vocabulary.Events);
            }
        }
    }

    private void Numbers()
    {
        var use = battery.Use;
        (string Name, RuleNumber Number)[] numbers =
        [
            ("testPainAbove", use.TestPainAbove), ("leastTrials", use.LeastTrials), ("unknownTrialsShare", use.UnknownTrialsShare), ("staleAfterDays", use.StaleAfterDays),
            ("staleShare", use.StaleShare), ("measureCap", use.MeasureCap), ("qualityCap", use.QualityCap), ("disagreementShare", use.DisagreementShare),
            ("squatJumpExcessShare", use.SquatJumpExcessShare), ("slowContactMs", use.SlowContactMs), ("leastLoads", use.LeastLoads), ("leastFit", use.LeastFit),
            ("leastSplits", use.LeastSplits), ("mostMisfitSeconds", use.MostMisfitSeconds), ("fastestMetresPerSecond", use.FastestMetresPerSecond),
            ("airTemperatureC", use.AirTemperatureC), ("airPressureTorr", use.AirPressureTorr),
            .. use.StartCorrectionSeconds.Select(c => ($"startCorrectionSeconds/{c.Key}", c.Value)),
        ];
        foreach (var (name, number) in numbers)
        {
            Sourced($"/use/{name}", number.Basis, number.Source);
        }
    }

    private void Raises(string at, IReadOnlyDictionary<string, decimal> raises)
    {
        foreach (var quality in raises.Keys)
        {
            Known($"{at}/raises", quality, vocabulary.Qualities);
        }

        if (raises.Values.Sum() > battery.Use.MeasureCap.Value)
        {
            Fault($"{at}/raises", $"adds {raises.Values.Sum()} in all; the cap of a measure is {battery.Use.MeasureCap.Value}.");
        }
    }

    private void Known<T>(string at, string id, Terms<T> terms) where T : Term
    {
        if (!terms.Has(id))
        {
            Fault(at, $"\"{id}\" is not in the vocabulary.");
        }
    }

    private void Sourced(string at, Basis basis, string? source)
    {
        if (source is null ? basis == Basis.Published : !sources.Contains(source))
        {
            Fault(at, source is null ? "published without a source; name one of sources.json." : $"source \"{source}\" is not in sources.json.");
        }
    }

    private void Fault(string pointer, string reason) => faults.Add(new KnowledgeFault(Where, pointer, reason));
}
