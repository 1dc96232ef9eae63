using static Recommender.Domain.Requests.FaultText;

namespace Recommender.Domain.Requests;

/// <content>How a complaint began and went, and what clinicians wrote.</content>
public sealed partial class RequestChecks
{
    private const string Soreness = "soreness";
    private static readonly string[] NotSore = ["tendon", "joint", "bone", "nerve", "growth-plate"];

    private void Course(string pointer, Complaint complaint)
    {
        Known($"{pointer}/kind", complaint.Kind, vocabulary.ComplaintKinds, "kind of complaint");
        Known($"{pointer}/tissue", complaint.Tissue, vocabulary.Tissues, "tissue");
        OneOf($"{pointer}/onset", complaint.Onset, "sudden", "gradual");
        Range($"{pointer}/daysSinceOnset", complaint.DaysSinceOnset, 0, 7300, "days");
        Each($"{pointer}/mornings", complaint.Mornings, 7, (at, morning) => OneOf(at, morning, "settled", "same", "worse"));
        OneOf($"{pointer}/trend", complaint.Trend, "falling", "steady", "rising");
        Known($"{pointer}/stage", complaint.Stage, vocabulary.LoadingStages, "loading stage");
        Ids($"{pointer}/provokedBy", complaint.ProvokedBy, vocabulary.Provocations, "provocation", 10);
        if (complaint.NextMorning is { } next && complaint.Mornings is [{ } first, ..] && first != next)
        {
            Add($"{pointer}/mornings/0", "contradiction", $"the latest morning is {Quote(first)} and nextMorning is {Quote(next)}; they are the same morning, give one of them.");
        }

        if (complaint.Kind == Soreness)
        {
            SorenessOnly(pointer, complaint);
        }
    }

    /// <summary>Muscle soreness after training has no sudden onset, no stage and no other tissue.</summary>
    private void SorenessOnly(string pointer, Complaint complaint)
    {
        if (complaint.Onset == "sudden")
        {
            Add($"{pointer}/onset", "contradiction", "soreness after training comes on over a day, not suddenly; give kind pain.");
        }

        if (complaint.Tissue is { } tissue && NotSore.Contains(tissue, StringComparer.Ordinal))
        {
            Add($"{pointer}/tissue", "contradiction", $"soreness is of muscle, not of {tissue}; give kind pain.");
        }

        if (complaint.Stage is not null)
        {
            Add($"{pointer}/stage", "contradiction", "soreness after training has no loading stage; leave it out, or give kind pain.");
        }
    }

    private void Care(AthleteFacts athlete)
    {
        Each("/athlete/restrictions", athlete.Restrictions, 20, Restriction);
        Each("/athlete/clearances", athlete.Clearances, 10, Clearance);
        Each("/athlete/history", athlete.History, 30, (pointer, injury) => History(pointer, injury, athlete.AgeYears));
        if (athlete.Layoff is { } layoff)
        {
            if (layoff.Weeks is null)
            {
                Add("/athlete/layoff/weeks", "required", "the weeks off are missing; give 0 to 520.");
            }

            Range("/athlete/layoff/weeks", layoff.Weeks, 0, 520, "weeks");
            OneOf("/athlete/layoff/reason", layoff.Reason, "break", "illness", "injury");
        }

        if (athlete.GrowthSpurt == true && athlete.AgeYears > 25)
        {
            Add("/athlete/growthSpurt", "contradiction", $"a growth spurt at {athlete.AgeYears} years is not possible; leave it out.");
        }

        Each("/athlete/limitations", athlete.Limitations, 20, (pointer, text) => Line(pointer, text, 200));
    }

    private void Restriction(string pointer, Restriction restriction)
    {
        Where(pointer, restriction.Region, restriction.Side);
        if (restriction is { MaxTissueLoad: null, MaxLoadingRate: null, Stage: null } && restriction.NoImpact != true)
        {
            Add(pointer, "required", "the restriction says no limit; give maxTissueLoad, maxLoadingRate, noImpact true or stage.");
        }

        Range($"{pointer}/maxTissueLoad", restriction.MaxTissueLoad, 0, 10, "");
        Known($"{pointer}/maxLoadingRate", restriction.MaxLoadingRate, vocabulary.LoadingRates, "loading rate");
        if (restriction.NoImpact == true && restriction.MaxLoadingRate == "impact")
        {
            Add($"{pointer}/maxLoadingRate", "contradiction", "noImpact is true and maxLoadingRate allows impact; give one of them.");
        }

        Known($"{pointer}/stage", restriction.Stage, vocabulary.LoadingStages, "loading stage");
        Range($"{pointer}/reviewInDays", restriction.ReviewInDays, -3650, 3650, "days");
        Line($"{pointer}/by", restriction.By, 100);
    }

    private void Clearance(string pointer, Clearance clearance)
    {
        var flags = knowledge.Returning.Clearances.Select(c => c.Flag).ToArray();
        if (clearance.Flag is null)
        {
            Add($"{pointer}/flag", "required", $"the flag is missing; give {string.Join(", ", flags)}.");
        }

        OneOf($"{pointer}/flag", clearance.Flag, flags);
        if (clearance.DaysAgo is null)
        {
            Add($"{pointer}/daysAgo", "required", "daysAgo is missing; give whole days from 0 to 3650.");
        }

        Range($"{pointer}/daysAgo", clearance.DaysAgo, 0, 3650, "days");
        Line($"{pointer}/by", clearance.By, 100);
    }

    private void History(string pointer, EarlierInjury injury, int? ageYears)
    {
        Where(pointer, injury.Region, injury.Side);
        if (injury.MonthsAgo is null)
        {
            Add($"{pointer}/monthsAgo", "required", "monthsAgo is missing; give whole months from 0 to 1200.");
        }

        Range($"{pointer}/monthsAgo", injury.MonthsAgo, 0, 1200, "months");
        if (injury.MonthsAgo is { } months && ageYears is { } age && months >= (age + 1) * 12)
        {
            Add($"{pointer}/monthsAgo", "contradiction", $"{months} months ago is before birth at age {age}; give fewer months.");
        }
    }

    private void Where(string pointer, string? region, string? side)
    {
        if (region is null)
        {
            Add($"{pointer}/region", "required", "the region is missing; GET /v1/vocabulary lists the regions.");
        }

        Known($"{pointer}/region", region, vocabulary.Regions, "region");
        OneOf($"{pointer}/side", side, "left", "right", "both");
    }

    private void Line(string pointer, string? text, int longest)
    {
        if (text is not null && (text.Length is 0 || text.Length > longest || text.Any(char.IsControl)))
        {
            Add(pointer, "out-of-range", $"the text is empty, longer than {longest} characters or holds control characters; give 1 to {longest} printable characters.");
        }
    }
}
