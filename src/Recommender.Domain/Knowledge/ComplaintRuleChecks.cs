using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>What a schema cannot see in the rules of complaints: known ids, stages that only open, and no stage whose own treatment its limits block.</summary>
public sealed class ComplaintRuleChecks
{
    private static readonly LoadingStage[] Stages = Enum.GetValues<LoadingStage>();

    private readonly KnowledgeBase knowledge;
    private readonly Vocabulary vocabulary;
    private readonly Dictionary<string, Exercise> exercises;
    private readonly HashSet<string> sources;
    private readonly Dictionary<string, ProvocationRule> provocations;
    private readonly List<KnowledgeFault> faults = [];

    private ComplaintRuleChecks(KnowledgeBase knowledge, IReadOnlyList<Exercise> exercises, Vocabulary vocabulary)
    {
        this.knowledge = knowledge;
        this.vocabulary = vocabulary;
        this.exercises = exercises.ToDictionary(e => e.Id, StringComparer.Ordinal);
        sources = knowledge.Sources.Select(s => s.Id).ToHashSet(StringComparer.Ordinal);
        provocations = [];
        foreach (var rule in knowledge.Provocation.Rules)
        {
            if (!provocations.TryAdd(rule.Id, rule))
            {
                Fault("rules/provocation.json", "/rules", $"\"{rule.Id}\" stands twice; ids are unique.");
            }
        }
    }

    /// <summary>Every fault; empty when answers can be made.</summary>
    /// <param name="knowledge">The rules.</param>
    /// <param name="exercises">The exercises they are to hold for.</param>
    /// <param name="vocabulary">The vocabulary.</param>
    public static IReadOnlyList<KnowledgeFault> Of(KnowledgeBase knowledge, IReadOnlyList<Exercise> exercises, Vocabulary vocabulary)
    {
        var checks = new ComplaintRuleChecks(knowledge, exercises, vocabulary);
        checks.Words();
        checks.Pain();
        checks.Provocation();
        checks.Programmes();
        checks.Returning();
        return checks.faults;
    }

    private void Words()
    {
        var stages = new[] { "isometric", "slow-heavy", "energy-storage", "return" };
        if (!vocabulary.LoadingStages.Select(t => t.Id).SequenceEqual(stages, StringComparer.Ordinal))
        {
            Fault("vocabulary.json", "/loadingStages", $"must be, in this order: {string.Join(", ", stages)}.");
        }
    }

    private void Pain()
    {
        const string file = "rules/pain.json";
        var pain = knowledge.Pain;
        foreach (var tissue in vocabulary.Tissues.Where(t => pain.Tissues.Count(r => r.Id == t.Id) != 1))
        {
            Fault(file, "/tissues", $"{tissue.Id} must have exactly one rule.");
        }

        foreach (var rule in pain.Tissues)
        {
            Known(file, $"/tissues/{rule.Id}", rule.Id, vocabulary.Tissues);
            Regions(file, $"/tissues/{rule.Id}", [.. rule.SameDayRegions ?? [], .. rule.NoImpactRegions ?? []]);
            Sourced(file, $"/tissues/{rule.Id}", rule.Basis, rule.Source);
            foreach (var id in rule.LimitsOf.Where(id => pain.Limits.All(l => l.Id != id)))
            {
                Fault(file, $"/tissues/{rule.Id}/limitsOf", $"\"{id}\" is not one of the limits.");
            }
        }

        foreach (var limit in pain.Limits)
        {
            Known(file, $"/limits/{limit.Id}/tissue", limit.Tissue, vocabulary.Tissues);
        }

        foreach (var flag in pain.BoneFlags)
        {
            Known(file, "/boneFlags", flag, vocabulary.RedFlags);
        }

        Regions(file, "/soreness/regions", pain.Soreness.Regions);
        Regions(file, "/youth/growthPlateRegions", pain.Youth.GrowthPlateRegions);
        foreach (var (provoked, i) in (pain.Youth.Provoked ?? []).Select((p, i) => (p, i)))
        {
            Regions(file, $"/youth/provoked/{i}/regions", provoked.Regions);
            Sourced(file, $"/youth/provoked/{i}", provoked.Basis, provoked.Source);
            foreach (var by in provoked.ProvokedBy)
            {
                Known(file, $"/youth/provoked/{i}/provokedBy", by, vocabulary.Provocations);
            }
        }

        Holds(file, "/acute/holds", pain.Acute.Holds);
        Sourced(file, "/acute", pain.Acute.Basis, pain.Acute.Source);
        Sourced(file, "/soreness", pain.Soreness.Basis, pain.Soreness.Source);
        Sourced(file, "/worseMornings", pain.WorseMornings.Basis, pain.WorseMornings.Source);
        Sourced(file, "/risingTrend", pain.RisingTrend.Basis, pain.RisingTrend.Source);
    }

    private void Provocation()
    {
        const string file = "rules/provocation.json";
        var rules = knowledge.Provocation;
        foreach (var missing in vocabulary.Provocations.Where(p => rules.Rules.All(r => r.ProvokedBy != p.Id)))
        {
            Fault(file, "/rules", $"no rule says what {missing.Id} holds.");
        }

        if (rules.Rules.Count > 64)
        {
            Fault(file, "/rules", "at most 64 rules.");
        }

        foreach (var rule in rules.Rules)
        {
            var at = $"/rules/{rule.Id}";
            if (rule.ProvokedBy is { } by)
            {
                Known(file, at, by, vocabulary.Provocations);
            }

            Regions(file, at, rule.Regions ?? []);
            Match(file, at, rule.Match);
            Sourced(file, at, rule.Basis, rule.Source);
        }

        foreach (var build in rules.Builds)
        {
            var at = $"/builds/{build.Id}";
            Known(file, at, build.ProvokedBy, vocabulary.Provocations);
            Regions(file, at, build.Regions);
            Qualities(file, at, build.Qualities.Keys);
            Sourced(file, at, build.Basis, build.Source);
        }
    }

    private void Programmes()
    {
        const string file = "rules/programmes.json";
        var rules = knowledge.Programmes;
        foreach (var stage in Stages.Where(s => !rules.WithoutProgramme.ContainsKey(s)))
        {
            Fault(file, "/withoutProgramme", $"{stage} is missing.");
        }

        foreach (var region in rules.Programmes.SelectMany(p => p.Regions).GroupBy(r => r, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            Fault(file, "/programmes", $"{region.Key} has two programmes; give one.");
        }

        foreach (var dose in rules.Programmes.SelectMany(p => p.Stages).SelectMany(s => s.Doses).GroupBy(d => d.Id, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            Fault(file, "/programmes", $"dose \"{dose.Key}\" stands twice; ids are unique.");
        }

        foreach (var programme in rules.Programmes)
        {
            var at = $"/programmes/{programme.Id}";
            Regions(file, at, programme.Regions);
            foreach (var tissue in programme.Tissues)
            {
                Known(file, at, tissue, vocabulary.Tissues);
            }

            if (!programme.Stages.Select(s => s.Stage).SequenceEqual(Stages))
            {
                Fault(file, $"{at}/stages", "needs all four stages, earliest first.");
                continue;
            }

            foreach (var (earlier, later) in programme.Stages.Zip(programme.Stages.Skip(1)))
            {
                OnlyOpens(file, $"{at}/stages/{Kebab(later.Stage)}", earlier, later);
            }

            foreach (var stage in programme.Stages)
            {
                Stage(file, $"{at}/stages/{Kebab(stage.Stage)}", programme, stage);
            }
        }
    }

    /// <summary>More pain means an earlier stage, so an earlier stage must never let in what a later one holds.</summary>
    private void OnlyOpens(string file, string at, ProgrammeStage earlier, ProgrammeStage later)
    {
        if (earlier.EntryMaxPain < later.EntryMaxPain || earlier.StayMaxPain < later.StayMaxPain)
        {
            Fault(file, at, "is worked at more pain than the stage before it.");
        }

        foreach (var rate in Enum.GetValues<LoadingRate>().Where(r => earlier.MaxTissueLoad.GetValueOrDefault(r) > later.MaxTissueLoad.GetValueOrDefault(r)))
        {
            Fault(file, $"{at}/maxTissueLoad", $"{rate} is lower than in the stage before; limits only rise.");
        }

        foreach (var hold in later.Holds.Except(earlier.Holds, StringComparer.Ordinal))
        {
            Fault(file, $"{at}/holds", $"\"{hold}\" is not held in the stage before; stages only open.");
        }
    }

    private void Stage(string file, string at, Programme programme, ProgrammeStage stage)
    {
        Qualities(file, $"{at}/builds", stage.Builds.Keys);
        Holds(file, $"{at}/holds", stage.Holds);
        Sourced(file, at, stage.Basis, stage.Source);
        foreach (var dose in stage.Doses)
        {
            Match(file, $"{at}/doses/{dose.Id}", dose.Match);
            Known(file, $"{at}/doses/{dose.Id}", dose.Intensity.Kind, vocabulary.IntensityKinds);
            Sourced(file, $"{at}/doses/{dose.Id}", dose.Basis, dose.Source);
            foreach (var step in dose.Steps)
            {
                Sourced(file, $"{at}/doses/{dose.Id}/steps", step.Basis, step.Source);
            }

            if (dose.Steps is [var first, ..] && (first.Sets, first.Amount, first.SessionsPerWeek) != (dose.Sets, dose.Amount, dose.SessionsPerWeek))
            {
                Fault(file, $"{at}/doses/{dose.Id}/steps", "the first step is not the dose itself.");
            }
        }

        foreach (var id in stage.Treatment)
        {
            if (!exercises.TryGetValue(id, out var exercise))
            {
                Fault(file, $"{at}/treatment", $"\"{id}\" is not in the catalogue.");
                continue;
            }

            foreach (var region in programme.Regions.Where(vocabulary.Regions.Has))
            {
                if (Blocks(region, stage, exercise) is { } why)
                {
                    Fault(file, $"{at}/treatment", $"{id} is what the stage gives and is held for {region}: {why}.");
                }
            }
        }
    }

    /// <summary>What holds an exercise of the stage at the pain it is given at; null when nothing does.</summary>
    private string? Blocks(string region, ProgrammeStage stage, Exercise exercise)
    {
        var load = ExerciseCatalogue.LoadOn(exercise, vocabulary.Regions.Find(region)!)?.High ?? 0;
        if (load > stage.MaxTissueLoad.GetValueOrDefault(exercise.LoadingRate))
        {
            return $"it loads {load}, the stage allows {stage.MaxTissueLoad.GetValueOrDefault(exercise.LoadingRate)}";
        }

        if (knowledge.PainLimitOf(region) is not { } limit || stage.TreatmentPain is not [var low, var high] || high > 10)
        {
            return "the pain it is given at has no limits";
        }

        for (var pain = low; pain <= high; pain++)
        {
            if (load > limit.MaxTissueLoad[exercise.LoadingRate][pain])
            {
                return $"it loads {load}, pain {pain} allows {limit.MaxTissueLoad[exercise.LoadingRate][pain]}";
            }
        }

        var hold = stage.Holds.Select(h => provocations.GetValueOrDefault(h)).FirstOrDefault(r => r is not null && r.IsAbout(region) && r.Match.Holds(exercise) && load >= r.SoreLoadAtLeast);
        return hold is null ? null : $"the stage holds \"{hold.Id}\"";
    }

    private void Returning()
    {
        const string file = "rules/return.json";
        var rules = knowledge.Returning;
        Sourced(file, "/history", rules.History.Basis, rules.History.Source);
        if (!rules.History.Steps.Select(s => s.MonthsBelow).SequenceEqual(rules.History.Steps.Select(s => s.MonthsBelow).Order())
            || rules.History.Steps.Zip(rules.History.Steps.Skip(1)).Any(x => x.Second.Share > x.First.Share))
        {
            Fault(file, "/history/steps", "must ascend in months and never rise in share.");
        }

        foreach (var layoff in rules.Layoffs)
        {
            Sourced(file, $"/layoffs/{layoff.Id}", layoff.Basis, layoff.Source);
        }

        foreach (var reason in new[] { "break", "illness", "injury" })
        {
            var inOrder = rules.Layoffs.Where(l => l.Reasons is null || l.Reasons.Contains(reason, StringComparer.Ordinal)).ToList();
            var firstOfAll = inOrder.TakeWhile((l, i) => i == 0 || l.WeeksFrom < inOrder[i - 1].WeeksFrom).ToList();
            if (firstOfAll.Zip(firstOfAll.Skip(1)).Any(x => x.Second.VolumeShare < x.First.VolumeShare || x.Second.WeeksOfRamp > x.First.WeeksOfRamp))
            {
                Fault(file, "/layoffs", $"longer off for {reason} must never give more volume or a shorter ramp.");
            }
        }

        if (rules.LayoffHolds?.Count > 64)
        {
            Fault(file, "/layoffHolds", "at most 64.");
        }

        foreach (var hold in rules.LayoffHolds ?? [])
        {
            Sourced(file, $"/layoffHolds/{hold.Id}", hold.Basis, hold.Source);
            foreach (var match in hold.Refuses)
            {
                Match(file, $"/layoffHolds/{hold.Id}", match);
            }
        }

        foreach (var rule in rules.Protective ?? [])
        {
            var at = $"/protective/{rule.Id}";
            Sourced(file, at, rule.Basis, rule.Source);
            foreach (var region in rule.Regions)
            {
                Known(file, at, region, vocabulary.Regions);
            }

            // One of them is enough, so that a club may take an exercise out of its catalogue without rewriting the rules.
            if (!rule.Exercises.Any(exercises.ContainsKey))
            {
                Fault(file, at, "none of its exercises is in the catalogue.");
            }
        }

        if (rules.Clearances.Sum(c => c.Holds.Count) > 64)
        {
            Fault(file, "/clearances", "at most 64 holds in all.");
        }

        foreach (var clearance in rules.Clearances)
        {
            var at = $"/clearances/{clearance.Flag}";
            Known(file, at, clearance.Flag, vocabulary.RedFlags);
            Sourced(file, at, clearance.Basis, clearance.Source);
            foreach (var match in clearance.Holds)
            {
                Match(file, at, match);
            }
        }
    }

    private void Holds(string file, string at, IEnumerable<string> ids)
    {
        foreach (var id in ids.Where(id => !provocations.ContainsKey(id)))
        {
            Fault(file, at, $"\"{id}\" is not one of the provocation rules.");
        }
    }

    private void Match(string file, string at, ExerciseMatch match)
    {
        Each(match.Patterns, vocabulary.Patterns);
        Each(match.Contractions, vocabulary.Contractions);
        Each(match.Directions, vocabulary.Directions);
        Each(match.Competences, vocabulary.Competences);
        Qualities(file, at, match.Qualities?.Keys ?? []);
        Regions(file, at, match.TissueLoadAtLeast?.Keys ?? []);
        foreach (var id in (match.Exercises ?? []).Where(id => !exercises.ContainsKey(id)))
        {
            Fault(file, at, $"\"{id}\" is not in the catalogue.");
        }

        void Each(IReadOnlyList<string>? ids, Terms<Term> terms)
        {
            foreach (var id in ids ?? [])
            {
                Known(file, at, id, terms);
            }
        }
    }

    private void Regions(string file, string at, IEnumerable<string> ids)
    {
        foreach (var id in ids)
        {
            Known(file, at, id, vocabulary.Regions);
        }
    }

    private void Qualities(string file, string at, IEnumerable<string> ids)
    {
        foreach (var id in ids)
        {
            Known(file, at, id, vocabulary.Qualities);
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

    private static string Kebab(LoadingStage stage) => stage switch
    {
        LoadingStage.Isometric => "isometric",
        LoadingStage.SlowHeavy => "slow-heavy",
        LoadingStage.EnergyStorage => "energy-storage",
        _ => "return",
    };

    private void Fault(string file, string pointer, string reason) => faults.Add(new KnowledgeFault(file, pointer, reason));
}
