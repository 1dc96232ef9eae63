using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Dosing;

/// <summary>The usual dose before the day changes it: from the dose table, or from the stage of a sore region's programme.</summary>
/// <param name="Sets">Sets.</param>
/// <param name="MinSets">Fewest sets that are still worth doing.</param>
/// <param name="Amount">Amount of a set.</param>
/// <param name="Intensity">Intensity.</param>
/// <param name="RestSeconds">Rest between sets, seconds.</param>
/// <param name="Tempo">Seconds down-hold-up, or null.</param>
/// <param name="SessionsPerWeek">Sessions a week.</param>
/// <param name="Progression">How to go on next week.</param>
/// <param name="StopRule">When to stop.</param>
/// <param name="WarmUp">Warm-up sets, or null.</param>
/// <param name="Stage">The stage it is from, or null.</param>
/// <param name="Basis">Basis of the numbers.</param>
/// <param name="Source">Source id, or null.</param>
internal sealed record Prescription(int Sets, int MinSets, decimal Amount, Intensity Intensity, int RestSeconds, string? Tempo, int SessionsPerWeek, string Progression, string StopRule,
    WarmUpRule? WarmUp, StagedFor? Stage, Basis Basis, string? Source)
{
    /// <summary>The prescription of an exercise for a quality, on one side or, without a side, on the stricter of both.</summary>
    public static Prescription Of(Situation situation, int position, int quality, Side side)
    {
        var rows = side == Side.Both || situation.DoseRowsBySide is not { } bySide ? situation.DoseRows : side == Side.Left ? bySide.Left : bySide.Right;
        return Staged(situation, situation.Catalogue.Exercises[position], side) ?? Tabled(situation, situation.Edition.DoseTable.RowFor(position, quality, rows));
    }

    /// <summary>Minutes for so many sets, with set-up and warm-up sets.</summary>
    public decimal Minutes(Exercise exercise, int sets) => SessionTime.Minutes(exercise, sets, Amount, RestSeconds) + (WarmUp?.Minutes ?? 0);

    private static Prescription Tabled(Situation situation, DoseRow row)
    {
        var (volume, phase) = ((int)situation.VolumePhase, (int)situation.Phase);
        return new Prescription(row.Sets[volume], row.MinSets, row.Amount[volume], new Intensity(row.Intensity.Kind, row.Intensity.Low?[phase], row.Intensity.High?[phase]), row.RestSeconds, row.Tempo,
            row.SessionsPerWeek[phase], row.Progression, row.StopRule, situation.Knowledge.Dose.WarmUpOf(row), null, row.Basis, row.Source);
    }

    /// <summary>What the stages in force give for work on their sore regions: the smallest of several; null when none speaks of it.</summary>
    private static Prescription? Staged(Situation situation, Exercise exercise, Side side)
    {
        Prescription? smallest = null;
        foreach (var complaint in situation.Complaints)
        {
            if (side != Side.Both && complaint.Side != Side.Both && complaint.Side != side)
            {
                continue;
            }

            foreach (var sore in complaint.Stands)
            {
                if (sore is { FollowsProgramme: true, Stage: { } stage } && ExerciseCatalogue.LoadOn(exercise, sore.Region) is { } load
                    && (load.Value >= situation.Knowledge.Dose.TreatmentLoad.Value || stage.Treatment.Contains(exercise.Id, StringComparer.Ordinal)) && stage.DoseOf(exercise) is { } dose
                    && !(smallest is not null && smallest.Sets * smallest.Amount <= dose.Sets * dose.Amount))
                {
                    smallest = Staged(situation, dose, new StagedFor(sore.Region, stage));
                }
            }
        }

        return smallest;
    }

    private static Prescription Staged(Situation situation, StageDose dose, StagedFor stage)
    {
        // A programme goes on through the taper, with fewer sets.
        var sets = situation.VolumePhase == Phase.Taper ? (int)decimal.Ceiling(dose.Sets * situation.Knowledge.Dose.TaperProgrammeShare.Value) : dose.Sets;
        return new Prescription(sets, 1, dose.Amount, new Intensity(dose.Intensity.Kind, dose.Intensity.Low, dose.Intensity.High), dose.RestSeconds, dose.Tempo, dose.SessionsPerWeek, dose.Progression,
            dose.StopRule, null, stage, dose.Basis, dose.Source);
    }
}

/// <summary>Which stage of which region's programme.</summary>
/// <param name="Region">Sore region.</param>
/// <param name="Stage">Stage.</param>
internal sealed record StagedFor(RegionTerm Region, ProgrammeStage Stage);
