using System.Globalization;
using Recommender.Answers.Wire;
using Recommender.Domain.Requests;

namespace Recommender.Answers;

/// <summary>Takes what is about a person out of a request, and puts it back: names, notes and free text. What rules read of them stays.</summary>
internal static class PersonalParts
{
    private const string Complaints = "/complaints/{0}/note";
    private const string Restrictions = "/athlete/restrictions/{0}/by";
    private const string Clearances = "/athlete/clearances/{0}/by";
    private const string Limitations = "/athlete/limitations/{0}";

    /// <summary>What stands for a limitation while its text is kept apart, and for good once that is erased: that there is one still stops an answer.</summary>
    private const string KeptApart = "kept apart";

    /// <summary>The personal part, or null when there is none.</summary>
    public static PersonalPart? Of(RecommendationRequest request)
    {
        var notes = new Dictionary<string, string>(StringComparer.Ordinal);
        Note(request.Complaints, c => c.Note, Complaints);
        Note(request.Athlete?.Restrictions, r => r.By, Restrictions);
        Note(request.Athlete?.Clearances, c => c.By, Clearances);
        Note(request.Athlete?.Limitations, l => l, Limitations);
        return request.Athlete?.Ref is null && request.Coach is null && notes.Count == 0 ? null : new PersonalPart(request.Athlete?.Ref, request.Coach, notes);

        void Note<T>(IReadOnlyList<T>? items, Func<T, string?> text, string pointer)
        {
            for (var i = 0; i < (items?.Count ?? 0); i++)
            {
                if (text(items![i]) is { } note)
                {
                    notes[Pointer(pointer, i)] = note;
                }
            }
        }
    }

    /// <summary>The request without it.</summary>
    public static RecommendationRequest Without(RecommendationRequest request) => request with
    {
        Coach = null,
        Athlete = request.Athlete is { } athlete
            ? athlete with
            {
                Ref = null,
                Restrictions = athlete.Restrictions is { } restrictions ? [.. restrictions.Select(r => r with { By = null })] : null,
                Clearances = athlete.Clearances is { } clearances ? [.. clearances.Select(c => c with { By = null })] : null,
                Limitations = athlete.Limitations is { } limitations ? [.. limitations.Select(_ => KeptApart)] : null,
            }
            : null,
        Complaints = request.Complaints is { } complaints ? [.. complaints.Select(c => c with { Note = null })] : null,
    };

    /// <summary>The request with it put back.</summary>
    public static RecommendationRequest With(RecommendationRequest asked, PersonalPart part)
    {
        string? Kept(string pointer, int i) => part.Notes.GetValueOrDefault(Pointer(pointer, i));
        return asked with
        {
            Coach = part.Coach,
            Athlete = asked.Athlete! with
            {
                Ref = part.Ref,
                Restrictions = asked.Athlete.Restrictions is { } restrictions ? [.. restrictions.Select((r, i) => r with { By = Kept(Restrictions, i) })] : null,
                Clearances = asked.Athlete.Clearances is { } clearances ? [.. clearances.Select((c, i) => c with { By = Kept(Clearances, i) })] : null,
                Limitations = asked.Athlete.Limitations is { } limitations ? [.. limitations.Select((l, i) => Kept(Limitations, i) ?? l)] : null,
            },
            Complaints = asked.Complaints is { } complaints ? [.. complaints.Select((c, i) => c with { Note = Kept(Complaints, i) })] : null,
        };
    }

    private static string Pointer(string pattern, int index) => pattern.Replace("{0}", index.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal);
}
