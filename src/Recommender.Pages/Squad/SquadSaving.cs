using System.Runtime.CompilerServices;
using Recommender.Answers.Wire;
using Recommender.Pages.Hosting;
using Recommender.Pages.Layout;

namespace Recommender.Pages.Squad;

/// <summary>Saves many rows and says how far it is. Who stops reading stops it: rows saved by then stay saved, and the same file then shows the rest.</summary>
internal static class SquadSaving
{
    /// <summary>Rows between two steps.</summary>
    private const int Together = 20;

    /// <summary>Saves rows.</summary>
    /// <param name="rows">Rows without faults.</param>
    /// <param name="save">Saves one profile.</param>
    /// <param name="cancelled">Stops it between two rows.</param>
    public static async IAsyncEnumerable<Piece> Of(IReadOnlyList<ImportRow> rows, Func<AthleteProfile, Task> save, [EnumeratorCancellation] CancellationToken cancelled)
    {
        for (var done = 0; done < rows.Count; done++)
        {
            cancelled.ThrowIfCancellationRequested();
            if (done % Together == 0)
            {
                yield return Piece.Of<Progress>((nameof(Progress.Done), (long)done), (nameof(Progress.Most), (long)rows.Count), (nameof(Progress.Text), $"{done} of {rows.Count} rows saved."));
            }

            await save(rows[done].Profile);
        }

        yield return Piece.Of<SavingEnd>((nameof(SavingEnd.Saved), rows.Count));
    }
}
