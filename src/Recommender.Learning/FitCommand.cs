using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Learning;

/// <summary>Refits every tissue-load model of a data folder and rewrites its file and its report. The same data give the same bytes.</summary>
public static class FitCommand
{
    private static readonly JsonSerializerOptions Written = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>What the fit would write: path below the data folder to text.</summary>
    /// <param name="folder">The data folder.</param>
    /// <exception cref="Domain.Knowledge.InvalidKnowledgeException">The folder cannot be read.</exception>
    /// <exception cref="InvalidFitException">A model cannot be fitted.</exception>
    public static IReadOnlyDictionary<string, string> Results(string folder)
    {
        var asWritten = KnowledgeReader.ReadAsWritten(folder).Catalogue;
        var orders = PublishedOrders.Read(folder);
        var results = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var path in Directory.GetFiles(Path.Combine(folder, "models"), "*.json").Order(StringComparer.Ordinal))
        {
            var body = JsonNode.Parse(File.ReadAllBytes(path))!.AsObject();
            var model = TissueLoadFit.Fit(asWritten.TissueLoadModels.Single(m => m.Region == (string?)body["region"]), asWritten.Exercises);
            body["fitted"] = JsonSerializer.SerializeToNode(model.Fitted, KnowledgeJson.Default.TissueLoadFitted);
            var name = Path.GetFileNameWithoutExtension(path);
            results[$"models/{name}.json"] = body.ToJsonString(Written) + "\n";
            results[$"models/{name}.report.md"] = FitReport.Write(model, asWritten, orders);
        }

        return results;
    }

    /// <summary>Fits, writes, and prints the reports.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="output">Takes the reports.</param>
    public static void Run(string folder, TextWriter output)
    {
        foreach (var (path, text) in Results(folder))
        {
            File.WriteAllText(Path.Combine(folder, path), text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
            output.Write(path.EndsWith(".md", StringComparison.Ordinal) ? text : $"Wrote {path}.\n");
        }
    }
}
