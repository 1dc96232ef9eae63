namespace Recommender.Domain.Knowledge;

/// <content>Rules of substitutions.</content>
public sealed partial class KnowledgeChecks
{
    private void Substitution(SubstitutionRules rules)
    {
        const string file = "rules/substitution.json";
        var s = rules.Shares;
        if (s.Purpose + s.Pattern + s.Support + s.Direction + s.Contraction + s.LoadingRate + s.LoadBand + s.Family != 1)
        {
            Fault(file, "/shares", "the eight shares must sum to 1.");
        }

        foreach (var id in rules.PatternKin.SelectMany(k => k.Of))
        {
            Known(file, "/patternKin", id, vocabulary.Patterns);
        }

        foreach (var id in rules.SupportKin.SelectMany(k => k.Of))
        {
            Known(file, "/supportKin", id, vocabulary.Supports);
        }

        foreach (var (at, steps) in new[] { ("/rateByDistance", rules.RateByDistance), ("/bandByDistance", rules.BandByDistance) })
        {
            if (steps[0] != 1 || steps.Zip(steps.Skip(1)).Any(x => x.Second > x.First))
            {
                Fault(file, at, "must start at 1 and never rise with distance.");
            }
        }

        if (rules.OfferedFrom > rules.KeepsFrom)
        {
            Fault(file, "/offeredFrom", "is above keepsFrom; what keeps the purpose must be offered.");
        }

        if (rules.BodyParts is { } parts)
        {
            foreach (var part in parts)
            {
                Qualities(file, $"/bodyParts/{part.Id}/qualities", part.Qualities);
                foreach (var pattern in part.Patterns)
                {
                    Known(file, $"/bodyParts/{part.Id}/patterns", pattern, vocabulary.Patterns);
                }
            }

            foreach (var pattern in vocabulary.Patterns.Where(p => !parts.Any(b => b.Patterns.Contains(p.Id, StringComparer.Ordinal))))
            {
                Fault(file, "/bodyParts", $"{pattern.Id} is of no part of the body.");
            }

            if (parts.Count > 64 || rules.BodyPartsBasis is null)
            {
                Fault(file, "/bodyParts", "at most 64 parts, and bodyPartsBasis says where they come from.");
            }
        }

        if (rules.BodyPartsBasis is { } partsBasis)
        {
            Sourced(file, "/bodyPartsBasis", partsBasis.Basis, partsBasis.Source);
        }

        Qualities(file, "/residuals", rules.Residuals.SelectMany(r => r.Qualities));
        Sourced(file, "/sharesBasis", rules.SharesBasis.Basis, rules.SharesBasis.Source);
        Sourced(file, "/likenessBasis", rules.LikenessBasis.Basis, rules.LikenessBasis.Source);
        Sourced(file, "/offerBasis", rules.OfferBasis.Basis, rules.OfferBasis.Source);
        Sourced(file, "/purpose", rules.Purpose.Basis, rules.Purpose.Source);
        Sourced(file, "/order", rules.Order.Basis, rules.Order.Source);
        Sourced(file, "/dose", rules.Dose.Basis, rules.Dose.Source);
        foreach (var (match, i) in (rules.Dose.LeavesAlone ?? []).Select((m, i) => (m, i)))
        {
            Match(file, $"/dose/leavesAlone/{i}", match);
        }

        Sourced(file, "/residualsBasis", rules.ResidualsBasis.Basis, rules.ResidualsBasis.Source);
    }
}
