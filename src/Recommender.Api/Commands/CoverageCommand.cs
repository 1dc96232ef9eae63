using Recommender.Domain.Audit;
using Recommender.Domain.Knowledge;

namespace Recommender.Api.Commands;

/// <summary>How far the catalogue reaches: eligible exercises and needs with a strong choice, by event group, phase, place and complaint.</summary>
public static class CoverageCommand
{
    private const int ReasonsShown = 3;

    /// <summary>Prints the table, then every thin cell with its reasons.</summary>
    /// <returns>1 when a cell without a complaint is thin; 2 where the rules do not say what to ask.</returns>
    public static int Run(Edition edition, TextWriter output)
    {
        if (edition.Knowledge.Audit.Coverage is not { } plan)
        {
            output.WriteLine("rules/audit.json of these rules says nothing of coverage.");
            return 2;
        }

        var cells = Coverage.Of(edition, plan);
        output.WriteLine($"{edition.Catalogue.Count} exercises. An athlete of {plan.AgeYears}, strength-trained for {plan.TrainingAgeYears} years; pain {plan.Pain} where something hurts{string.Concat(plan.Places.Where(p => p.Equipment is not null).Select(AtHand))}.");
        output.WriteLine($"A cell: exercises eligible, then for how many of the {plan.TopNeeds} heaviest needs one of them is strong.");
        output.WriteLine();
        output.WriteLine($"| event group | phase | place | nothing hurts | {string.Join(" | ", plan.Complaints)} |");
        output.WriteLine($"| --- | --- | --- |{string.Concat(Enumerable.Repeat(" ---: |", plan.Complaints.Count + 1))}");
        foreach (var row in cells.GroupBy(c => (c.EventGroup, c.Phase, c.Place)))
        {
            output.WriteLine($"| {row.Key.EventGroup} | {row.Key.Phase} | {row.Key.Place} | {string.Join(" | ", row.Select(c => $"{c.Eligible}, {c.StrongFor}/{c.Needs}"))} |");
        }

        output.WriteLine();
        var thin = cells.Where(c => c.Eligible < plan.Least).ToList();
        output.WriteLine($"{thin.Count} of {cells.Count} cells have fewer than {plan.Least} eligible exercises.");
        foreach (var cell in thin)
        {
            var reasons = string.Join(", ", cell.Refusals.Take(ReasonsShown).Select(r => $"{r.Reason} refuses {r.Count}"));
            output.WriteLine($"- {cell.EventGroup}, {cell.Phase}, {cell.Place}, {cell.Complaint ?? "nothing hurts"}: {cell.Eligible}; {cell.Referral ?? reasons}.");
        }

        output.WriteLine($"{cells.Count(c => c.Lacking.Count > 0)} of {cells.Count} cells lack a strong choice for at least one of the {plan.TopNeeds} heaviest needs; where nothing hurts:");
        foreach (var place in cells.Where(c => c.Complaint is null && c.Lacking.Count > 0).GroupBy(c => c.Place))
        {
            var qualities = place.SelectMany(c => c.Lacking).GroupBy(q => q).OrderByDescending(q => q.Count()).ThenBy(q => q.Key, StringComparer.Ordinal).Select(q => $"{q.Key} in {q.Count()}");
            output.WriteLine($"- {place.Key}: {string.Join(", ", qualities)} of {cells.Count(c => c.Complaint is null && c.Place == place.Key)} cells.");
        }

        return thin.Exists(c => c.Complaint is null) ? 1 : 0;
    }

    private static string AtHand(CoveragePlace place) => $"; {place.Place} with {(place.Equipment!.Count == 0 ? "nothing" : string.Join(", ", place.Equipment))}";
}
