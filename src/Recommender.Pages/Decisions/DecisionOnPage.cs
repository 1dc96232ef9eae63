using Microsoft.AspNetCore.Http;
using Recommender.Answers;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Decisions;

/// <summary>Opens a decision for the page and asks it again what the address asks.</summary>
/// <param name="decisions">Opens records.</param>
/// <param name="athletes">Saved athletes, for names.</param>
/// <param name="editions">Editions that decisions were made on.</param>
/// <param name="audit">Asks decisions again.</param>
/// <param name="host">Whose pages, and the edition in force.</param>
public sealed class DecisionOnPage(OpenDecision decisions, SavedAthletes athletes, Editions editions, AuditDecision audit, PageHost host)
{
    /// <summary>The decision, or null when there is none of this id.</summary>
    /// <param name="id">Id.</param>
    /// <param name="query">What is asked about it.</param>
    /// <param name="notice">What to tell, or null.</param>
    /// <param name="token">Form token.</param>
    /// <exception cref="InvalidDataException">The record is damaged.</exception>
    public async Task<ShownDecision?> Read(string id, IQueryCollection query, string? notice, string token)
    {
        if (await decisions.Record(host.Organisation, id).ConfigureAwait(false) is not { } opened)
        {
            return null;
        }

        var edition = await editions.Of(host.Organisation, opened.Stored.Record.Versions).ConfigureAwait(false);
        var reference = opened.Stored.Record.AthleteRef;
        var name = reference is null ? null : (await athletes.One(host.Organisation, reference).ConfigureAwait(false))?.Name ?? reference;
        var asked = edition is null ? AskedAbout.Nothing : await Ask(id, query, edition).ConfigureAwait(false);
        return new ShownDecision(opened, name, edition ?? host.Edition, edition is not null, asked, notice, token);
    }

    private async Task<AskedAbout> Ask(string id, IQueryCollection query, Edition edition)
    {
        var faults = new Dictionary<string, string>(StringComparer.Ordinal);
        var (first, second, exercise) = (Typed("first"), Typed("second"), Typed("exercise"));
        var asked = new AskedAbout(Said(first), Said(second), Said(exercise), query["firm"].FirstOrDefault() == "1", faults);
        var (one, other) = first.Length + second.Length > 0 ? (Known("first", first), Known("second", second)) : (null, null);
        if (one is not null && other is not null)
        {
            if (one == other)
            {
                faults["second"] = "That is the same exercise; give another one.";
            }
            else
            {
                asked = asked with { Comparison = (await audit.Compare(host.Organisation, id, one, other).ConfigureAwait(false))?.Answer };
            }
        }

        if (exercise.Length > 0 && Known("exercise", exercise) is { } wanted)
        {
            // Pain is never lowered on a page: nobody should be taught to tell less of it.
            asked = asked with { Changes = (await audit.Change(host.Organisation, id, wanted, mayLowerPain: false).ConfigureAwait(false))?.Answer };
        }

        return asked.Firm ? asked with { Firmness = await audit.Vary(host.Organisation, id).ConfigureAwait(false) } : asked;

        string Typed(string field) => query[field].FirstOrDefault()?.Trim() is { Length: <= 200 } text ? text : "";

        string Said(string typed) => edition.Catalogue.Find(typed)?.Name ?? typed;

        string? Known(string field, string typed)
        {
            var found = typed.Length == 0 ? null : ExerciseNamed.Id(typed, edition.Catalogue);
            if (found is null)
            {
                faults[field] = typed.Length == 0 ? "Name an exercise." : $"The catalogue has no “{typed}”. Did you mean {edition.Catalogue.Find(NearestExercise.To(typed, edition.Catalogue))!.Name}?";
            }

            return found;
        }
    }
}
