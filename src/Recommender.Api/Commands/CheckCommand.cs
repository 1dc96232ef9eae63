using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Answers;
using Recommender.Answers.ExerciseFiles;
using Recommender.Api.Hosting;
using Recommender.Domain.Catalogue;

namespace Recommender.Api.Commands;

/// <summary>Checks an edited CSV or JSON file of exercises together with the rest of the knowledge, and tells every error before anything is replaced.</summary>
public static class CheckCommand
{
    /// <summary>Checks a file and prints what is wrong, or what would change. Nothing is replaced.</summary>
    /// <param name="path">A table as exported, a file of data/exercises, a page of /v1/exercises, or a bare list of exercises.</param>
    /// <param name="folder">The data folder that it is checked with; exercises that the file does not hold stay as they are.</param>
    /// <param name="output">Takes the report.</param>
    /// <returns>0 without an error, else 1.</returns>
    public static int Run(string path, string folder, TextWriter output)
    {
        var trial = CatalogueTrial.In(folder);
        var edited = EditedFile.Read(Path.GetFileName(path), File.ReadAllBytes(path), trial.Before.Catalogue.Vocabulary);
        var (after, wrong) = trial.With(edited.Rows);
        List<string> faults = [.. edited.Faults, .. wrong.Select(edited.Told).OfType<string>()];

        foreach (var fault in faults)
        {
            output.WriteLine(fault);
        }

        if (faults.Count > 0)
        {
            output.WriteLine($"{faults.Count} error{(faults.Count == 1 ? "" : "s")} in {edited.Rows.Count} exercises; nothing was replaced.");
            return 1;
        }

        Changes(trial.Before.Catalogue, after!.Catalogue, edited.Rows.Count, output);
        return 0;
    }

    private static void Changes(ExerciseCatalogue before, ExerciseCatalogue after, int rows, TextWriter output)
    {
        var added = after.Exercises.Where(e => before.Find(e.Id) is null).Select(e => e.Id).ToList();
        var changed = after.Exercises.Where(e => before.Find(e.Id) is { } was && !Same(was, e)).Select(e => e.Id).ToList();
        output.WriteLine($"{rows} exercises checked, no error. New: {Named(added)}. Changed: {Named(changed)}.");
    }

    private static bool Same(Exercise a, Exercise b) =>
        JsonNode.DeepEquals(JsonSerializer.SerializeToNode(a, ApiJson.Default.Exercise), JsonSerializer.SerializeToNode(b, ApiJson.Default.Exercise));

    private static string Named(List<string> ids) => ids.Count == 0 ? "none" : string.Join(", ", ids);
}
