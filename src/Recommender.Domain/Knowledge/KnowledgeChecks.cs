using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>What a schema cannot see in the rules: complete tables, known ids, limits that never rise with pain, a dose for every case.</summary>
public sealed partial class KnowledgeChecks
{
    private const int Phases = 6;
    private readonly Vocabulary vocabulary;
    private readonly HashSet<string> sources;
    private readonly List<KnowledgeFault> faults = [];

    private KnowledgeChecks(Vocabulary vocabulary, IEnumerable<Source> sources)
    {
        this.vocabulary = vocabulary;
        this.sources = sources.Select(s => s.Id).ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>Every fault; empty when answers can be made.</summary>
    /// <param name="knowledge">The rules.</param>
    /// <param name="exercises">The exercises they are to hold for.</param>
    /// <param name="vocabulary">The vocabulary.</param>
    /// <param name="gateReasons">Reason ids that the engine's gates give.</param>
    /// <param name="factorIds">Factor ids that the engine scores, in order.</param>
    public static IReadOnlyList<KnowledgeFault> Of(KnowledgeBase knowledge, IReadOnlyList<Exercise> exercises, Vocabulary vocabulary,
        IEnumerable<string> gateReasons, IReadOnlyList<string> factorIds)
    {
        var checks = new KnowledgeChecks(vocabulary, knowledge.Sources);
        checks.Words(gateReasons, factorIds);
        checks.Profiles(knowledge);
        checks.NeedRules(knowledge.Needs);
        checks.Pain(knowledge.Pain);
        checks.Peaking(knowledge.Peaking);
        checks.Week(knowledge.Week);
        checks.Substitution(knowledge.Substitution);
        checks.Audit(knowledge.Audit);
        checks.Competence(knowledge.Competence);
        checks.Scoring(knowledge.Scoring);
        checks.faults.AddRange(TestBatteryChecks.Of(knowledge.Tests, vocabulary, checks.sources, exercises.Select(e => e.Id).ToHashSet(StringComparer.Ordinal)));
        checks.Ledger(knowledge.Ledger, knowledge.Week, exercises);
        checks.Session(knowledge.Session, exercises, knowledge.Returning);
        checks.Questions(knowledge.Questions);
        if (knowledge.Planning is { } planning)
        {
            checks.Planning(planning, knowledge.Week);
        }

        if (knowledge.Outcomes is { } outcomes)
        {
            checks.Outcomes(outcomes, factorIds);
        }

        checks.Defaults(knowledge.Defaults);
        if (checks.faults.Count == 0)
        {
            checks.Dose(knowledge.Dose, exercises);
        }

        return checks.faults;
    }

    private void Words(IEnumerable<string> gateReasons, IReadOnlyList<string> factorIds)
    {
        const string file = "vocabulary.json";
        Same("supports", vocabulary.Supports, Enum.GetNames<Support>());
        Same("loadingRates", vocabulary.LoadingRates, Enum.GetNames<LoadingRate>());
        Same("loadBands", vocabulary.LoadBands, Enum.GetNames<LoadBand>());
        Same("phases", vocabulary.Phases, Enum.GetNames<Phase>());
        Same("doseUnits", vocabulary.DoseUnits, Enum.GetNames<DoseUnit>());
        Same("bases", vocabulary.Bases, Enum.GetNames<Basis>());
        foreach (var reason in gateReasons.Where(r => !vocabulary.Reasons.Has(r)))
        {
            Fault(file, "/reasons", $"the engine refuses for \"{reason}\", which is missing.");
        }

        foreach (var factor in factorIds.Where(f => !vocabulary.Factors.Has(f)))
        {
            Fault(file, "/factors", $"the engine scores \"{factor}\", which is missing.");
        }

        foreach (var (list, count) in new[] { ("equipment", vocabulary.Equipment.Count), ("places", vocabulary.Places.Count), ("competences", vocabulary.Competences.Count), ("patterns", vocabulary.Patterns.Count), ("qualities", vocabulary.Qualities.Count) })
        {
            if (count > 64)
            {
                Fault(file, $"/{list}", $"{count} terms; at most 64.");
            }
        }

        foreach (var region in vocabulary.Regions)
        {
            foreach (var other in region.Covers.Concat(region.LeansOn is { } l ? [l] : []))
            {
                Known(file, $"/regions/{region.Id}", other, vocabulary.Regions);
            }
        }

        void Same<T>(string list, Terms<T> terms, string[] names) where T : Term
        {
            // The enums fix column order, so the list must name the same words in the same order.
            var words = names.Select(n => Kebab(n));
            if (!terms.Select(t => t.Id).SequenceEqual(words, StringComparer.Ordinal))
            {
                Fault(file, $"/{list}", $"must be, in this order: {string.Join(", ", words)}.");
            }
        }
    }

    private static string Kebab(string name) =>
        string.Concat(name.Select((c, i) => char.IsUpper(c) && i > 0 ? "-" + char.ToLowerInvariant(c) : char.ToLowerInvariant(c).ToString()));

    private void Profiles(KnowledgeBase knowledge)
    {
        foreach (var group in knowledge.EventGroups)
        {
            var file = $"event-profiles/{group.EventGroup}.json";
            Known(file, "/eventGroup", group.EventGroup, vocabulary.EventGroups);
            Known(file, "/defaultEvent", group.DefaultEvent, vocabulary.Events);
            foreach (var phase in Enum.GetValues<Phase>().Where(p => !group.PhaseEmphasis.Phases.ContainsKey(p)))
            {
                Fault(file, "/phaseEmphasis/phases", $"{phase} is missing; all six phases are needed.");
            }

            foreach (var (phase, multipliers) in group.PhaseEmphasis.Phases)
            {
                Qualities(file, $"/phaseEmphasis/phases/{phase}", multipliers.Keys);
            }

            Sourced(file, "/phaseEmphasis", group.PhaseEmphasis.Basis, group.PhaseEmphasis.Source);
            foreach (var profile in group.Events)
            {
                var at = $"/events/{profile.Event}";
                if (vocabulary.Events.Find(profile.Event)?.EventGroup != group.EventGroup)
                {
                    Fault(file, at, $"{profile.Event} is not an event of {group.EventGroup}.");
                }

                Sourced(file, at, profile.Basis, profile.Source);
                Qualities(file, $"{at}/qualities", profile.Qualities.Keys);
                foreach (var direction in profile.Correspondence.Direction.Keys)
                {
                    Known(file, $"{at}/correspondence/direction", direction, vocabulary.Directions);
                }

                foreach (var risk in profile.RegionsAtRisk)
                {
                    Known(file, $"{at}/regionsAtRisk", risk.Region, vocabulary.Regions);
                    Sourced(file, $"{at}/regionsAtRisk/{risk.Region}", risk.Basis, risk.Source);
                    Sourced(file, $"{at}/regionsAtRisk/{risk.Region}", risk.Basis == Basis.Published ? Basis.CommonPractice : risk.Basis, risk.Support);
                }

                foreach (var (phase, multipliers) in group.PhaseEmphasis.Phases)
                {
                    if (!profile.Qualities.Any(q => q.Value * multipliers.GetValueOrDefault(q.Key, group.PhaseEmphasis.Default) > 0))
                    {
                        Fault(file, $"{at}/qualities", $"nothing is left to train in {phase}.");
                    }
                }
            }
        }

        var events = knowledge.EventGroups.SelectMany(g => g.Events).Select(e => e.Event).ToHashSet(StringComparer.Ordinal);
        foreach (var missing in vocabulary.Events.Where(e => !events.Contains(e.Id)))
        {
            Fault($"event-profiles/{missing.EventGroup}.json", "/events", $"{missing.Id} has no profile.");
        }
    }

    private void NeedRules(NeedRules rules)
    {
        const string file = "rules/needs.json";
        foreach (var importance in vocabulary.Importances.Where(i => !rules.Importances.ContainsKey(i.Id)))
        {
            Fault(file, "/importances", $"{importance.Id} is missing.");
        }

        foreach (var rule in rules.Complaints)
        {
            foreach (var region in rule.Regions)
            {
                Known(file, $"/complaints/{rule.Id}/regions", region, vocabulary.Regions);
            }

            Qualities(file, $"/complaints/{rule.Id}/qualities", rule.Qualities.Keys);
            Sourced(file, $"/complaints/{rule.Id}", rule.Basis, rule.Source);
        }
    }

    private void Pain(PainRules rules)
    {
        const string file = "rules/pain.json";
        var stands = rules.Limits.SelectMany(l => l.Regions).ToList();
        foreach (var region in vocabulary.Regions.Where(r => r.IsPart()))
        {
            var times = stands.Count(r => r == region.Id);
            if (times != 1)
            {
                Fault(file, "/limits", $"{region.Id} stands in {times} limits; it must stand in one.");
            }
        }

        foreach (var limit in rules.Limits)
        {
            Sourced(file, $"/limits/{limit.Id}", limit.Basis, limit.Source);
            foreach (var rate in Enum.GetValues<LoadingRate>())
            {
                var at = $"/limits/{limit.Id}/maxTissueLoad/{Kebab(rate.ToString())}";
                if (!limit.MaxTissueLoad.TryGetValue(rate, out var byPain) || byPain.Count != 11)
                {
                    Fault(file, at, "needs eleven limits, pain 0 to 10.");
                }
                else if (byPain.Zip(byPain.Skip(1)).Any(x => x.Second > x.First))
                {
                    Fault(file, at, "a limit rises with pain; limits only fall.");
                }
            }
        }

        if (rules.Limits.All(l => l.Id != rules.Youth.LimitsOf))
        {
            Fault(file, "/youth/limitsOf", $"\"{rules.Youth.LimitsOf}\" is not one of the limits.");
        }

        foreach (var (region, spared) in rules.RedFlagSpares)
        {
            foreach (var id in spared.Prepend(region))
            {
                Known(file, $"/redFlagSpares/{region}", id, vocabulary.Regions);
            }
        }
    }

    private void Competence(CompetenceRules rules)
    {
        const string file = "rules/competence.json";
        if (rules.ByTrainingAge.Count == 0 || rules.ByTrainingAge[0].FromYears != 0 || !rules.ByTrainingAge.Select(s => s.FromYears).SequenceEqual(rules.ByTrainingAge.Select(s => s.FromYears).Order()))
        {
            Fault(file, "/byTrainingAge", "must start at 0 years and ascend.");
        }

        foreach (var id in rules.ByTrainingAge.SelectMany(s => s.Competences))
        {
            Known(file, "/byTrainingAge", id, vocabulary.Competences);
        }

        if (!rules.TrainingAgeByComplexity.Select(s => s.Complexity).SequenceEqual([1, 2, 3, 4]))
        {
            Fault(file, "/trainingAgeByComplexity", "needs complexities 1, 2, 3, 4 in this order.");
        }

        foreach (var (order, i) in (rules.LearnedAfter ?? []).Select((order, i) => (order, i)))
        {
            Known(file, $"/learnedAfter/{i}/competence", order.Competence, vocabulary.Competences);
            Known(file, $"/learnedAfter/{i}/after", order.After, vocabulary.Competences);
            Sourced(file, $"/learnedAfter/{i}", order.Basis, order.Source);
            if (order.Competence == order.After)
            {
                Fault(file, $"/learnedAfter/{i}/after", "must be another competence.");
            }
        }

        foreach (var rule in rules.Ages)
        {
            Match(file, $"/ages/{rule.Id}", rule.Match);
            if (rule.BelowAge is null == rule.FromAge is null)
            {
                Fault(file, $"/ages/{rule.Id}", "give belowAge or fromAge, one of them.");
            }

            Sourced(file, $"/ages/{rule.Id}", rule.Basis, rule.Source);
        }

        if (rules.Ages.Count > 64)
        {
            Fault(file, "/ages", "at most 64 rules.");
        }
    }

    private void Scoring(ScoringRules rules)
    {
        const string file = "rules/scoring.json";
        if (rules.Correspondence.SupportShare + rules.Correspondence.DirectionShare + rules.Correspondence.LoadingRateShare != 1)
        {
            Fault(file, "/correspondence", "the three shares must sum to 1.");
        }

        if (rules.NeedMatch.FitByRating.Count != 4 || rules.NeedMatch.FitByRating[0] != 0 || rules.NeedMatch.NthShare.Count == 0)
        {
            Fault(file, "/needMatch", "needs four fits, the first 0, and at least one n-th share.");
        }

        foreach (var rate in Enum.GetValues<LoadingRate>())
        {
            Six(file, "/phaseFit/loadingRate", rules.PhaseFit.LoadingRate.GetValueOrDefault(rate)?.Count);
            if (!rules.TissueCost.RateFactor.ContainsKey(rate))
            {
                Fault(file, "/tissueCost/rateFactor", $"{rate} is missing.");
            }
        }

        foreach (var band in Enum.GetValues<LoadBand>())
        {
            Six(file, "/phaseFit/loadBand", rules.PhaseFit.LoadBand.GetValueOrDefault(band)?.Count);
        }

        if (rules.Freshness.BySorenessRisk.Count != 4)
        {
            Fault(file, "/freshness/bySorenessRisk", "needs four shares, soreness risk 0 to 3.");
        }

        foreach (var flag in rules.MassCost.ZeroWithRedFlags)
        {
            Known(file, "/massCost/zeroWithRedFlags", flag, vocabulary.RedFlags);
        }

        foreach (var pattern in rules.MassCost.UpperBodyOnlyPatterns)
        {
            Known(file, "/massCost/upperBodyOnlyPatterns", pattern, vocabulary.Patterns);
        }

        foreach (var words in rules.Against?.Says ?? [])
        {
            Known(file, "/against/says", words.Factor, vocabulary.Factors);
            if (words.Text.Replace("{region}", "", StringComparison.Ordinal).Replace("{value}", "", StringComparison.Ordinal).AsSpan().ContainsAny('{', '}'))
            {
                Fault(file, $"/against/says/{words.Factor}", "only {region} and {value} are filled in.");
            }
        }

        if (rules.Against is { } against)
        {
            Sourced(file, "/against", against.Basis, against.Source);
        }

        Sourced(file, "/correspondence", rules.Correspondence.Basis, rules.Correspondence.Source);
        Sourced(file, "/phaseFit", rules.PhaseFit.Basis, rules.PhaseFit.Source);
    }

    private void Defaults(DefaultRules defaults)
    {
        Six("rules/defaults.json", "/weeksByPhase", defaults.WeeksByPhase.Count);
        Known("rules/defaults.json", "/place", defaults.Place, vocabulary.Places);
    }

    private void Match(string file, string at, ExerciseMatch match)
    {
        foreach (var id in match.Patterns ?? [])
        {
            Known(file, at, id, vocabulary.Patterns);
        }

        foreach (var id in match.Contractions ?? [])
        {
            Known(file, at, id, vocabulary.Contractions);
        }

        foreach (var id in match.Competences ?? [])
        {
            Known(file, at, id, vocabulary.Competences);
        }

        Qualities(file, at, match.Qualities?.Keys ?? []);
    }

    private void Qualities(string file, string at, IEnumerable<string> ids)
    {
        foreach (var id in ids)
        {
            Known(file, at, id, vocabulary.Qualities);
        }
    }

    private void Six(string file, string at, int? count)
    {
        if (count != Phases)
        {
            Fault(file, at, $"has {count ?? 0} values; needs six, one a phase.");
        }
    }

    private void Known<T>(string file, string at, string id, Terms<T> terms) where T : Term
    {
        if (!terms.Has(id))
        {
            Fault(file, at, $"\"{id}\" is not in the vocabulary.");
        }
    }

    private void Sourced(string file, string at, Basis basis, string? source)
    {
        if (source is null ? basis == Basis.Published : !sources.Contains(source))
        {
            Fault(file, at, source is null ? "published without a source; name one of sources.json." : $"source \"{source}\" is not in sources.json.");
        }
    }

    private void Fault(string file, string pointer, string reason) => faults.Add(new KnowledgeFault(file, pointer, reason));
}
