using System.Globalization;
using Microsoft.Extensions.Primitives;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Ask;

/// <summary>Fills a form from a request: what <see cref="RequestForm"/> reads back.</summary>
public static class TypedWriter
{
    /// <summary>The form that asks for a request.</summary>
    /// <param name="request">A request; parts that the form does not show are left to its basis.</param>
    /// <param name="questions">Which red flags the form asks about.</param>
    public static Typed Of(RecommendationRequest request, QuestionRules questions)
    {
        var fields = new Dictionary<string, StringValues>(StringComparer.Ordinal);
        var athlete = request.Athlete ?? new AthleteFacts();
        Put("athlete.ref", athlete.Ref);
        Put("athlete.event", athlete.Event ?? athlete.EventGroup);
        Put("athlete.ageYears", Text(athlete.AgeYears));
        Put("athlete.trainingAgeYears", Text(athlete.TrainingAgeYears));
        Put("athlete.sex", athlete.Sex);
        Put("athlete.bodyMassKg", Text(athlete.BodyMassKg));
        Put("athlete.takeOffLeg", athlete.TakeOffLeg);
        Listed("athlete.competence", athlete.Competence);
        foreach (var ((exercise, kg), i) in (athlete.OneRepMaxKg ?? new Dictionary<string, decimal>()).OrderBy(m => m.Key, StringComparer.Ordinal).Select((m, i) => (m, i)))
        {
            Put($"athlete.oneRepMaxKg.{i}.exercise", exercise);
            Put($"athlete.oneRepMaxKg.{i}.kg", Text(kg));
        }

        Put("phase", request.Phase);
        Put("weeksToCompetition", Text(request.WeeksToCompetition));
        Put("setting.place", request.Setting?.Place);
        Put("setting.minutes", Text(request.Setting?.Minutes));
        Put("setting.slot", request.Setting?.Slot);
        Listed("setting.equipment", request.Setting?.Equipment);
        fields["setting.limits"] = new StringValues([.. request.Setting?.Limits ?? []]);
        foreach (var (complaint, i) in (request.Complaints ?? []).Select((c, i) => (c, i)))
        {
            Write($"complaints.{i}", complaint);
        }

        if (request.RedFlags is { } flags)
        {
            Answers("redFlags", questions.General, flags);
        }

        foreach (var (need, i) in (request.Needs ?? []).Select((n, i) => (n, i)))
        {
            Put($"needs.{i}.quality", need.Quality);
            Put($"needs.{i}.importance", need.Importance);
        }

        Put("count", Text(request.Count));
        return new Typed(fields);

        void Put(string name, string? value)
        {
            if (value is not null)
            {
                fields[name] = value;
            }
        }

        void Listed(string name, IReadOnlyList<string>? values)
        {
            if (values is not null)
            {
                fields[name + ".is"] = RequestForm.Listed;
                fields[name] = new StringValues([.. values]);
            }
        }

        void Write(string at, Complaint complaint)
        {
            Put(at + ".region", complaint.Region);
            Put(at + ".side", complaint.Side);
            Put(at + ".pain", Text(complaint.Pain));
            Put(at + ".nextMorning", complaint.NextMorning ?? (complaint.Mornings is [{ } latest, ..] ? latest : null));
            Put(at + ".kind", complaint.Kind);
            Put(at + ".note", complaint.Note);
            if (complaint.RedFlags is { } asked && questions.Sets.FirstOrDefault(s => s.Regions.Contains(complaint.Region ?? "", StringComparer.Ordinal)) is { } set)
            {
                Answers($"{at}.redFlags.{set.Id}", RequestForm.Asked(set), asked);
            }
        }

        void Answers(string at, IEnumerable<string> questionsAsked, IReadOnlyList<string> raised)
        {
            foreach (var flag in questionsAsked)
            {
                fields[$"{at}.{flag}"] = raised.Contains(flag, StringComparer.Ordinal) ? RequestForm.Yes : RequestForm.No;
            }
        }
    }

    private static string? Text(decimal? number) => number?.ToString("0.####", CultureInfo.InvariantCulture);
}
