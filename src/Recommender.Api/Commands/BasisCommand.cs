using System.Globalization;
using System.Text.Json.Nodes;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Api.Commands;

/// <summary>What the numbers rest on: how many of each kind are published, modelled, common practice, recalled.</summary>
public static class BasisCommand
{
    private static readonly string[] RuleFolders = ["rules", "event-profiles", "tests"];

    /// <summary>Counts by kind, and all together in the last row.</summary>
    /// <param name="edition">Gives the catalogue as it is served, so that modelled loads count as modelled.</param>
    /// <param name="folder">The data folder; its rules are counted by every object that states a basis.</param>
    public static IReadOnlyList<(string Kind, IReadOnlyDictionary<Basis, int> Count)> Rows(Edition edition, string folder)
    {
        var exercises = edition.Catalogue.Exercises;
        List<(string, IReadOnlyDictionary<Basis, int>)> rows =
        [
            ("qualities", Count(exercises.SelectMany(e => e.Qualities.Values).Select(q => q.Basis))),
            ("tissue loads", Count(exercises.SelectMany(e => e.TissueLoad.Values).Select(l => l.Basis))),
            ("facts (a sheet per exercise)", Count(exercises.Select(e => e.FactsBasis))),
            ("rules", Count(RuleFolders.SelectMany(f => Directory.GetFiles(Path.Combine(folder, f), "*.json")).SelectMany(f => Bases(JsonNode.Parse(File.ReadAllText(f)))))),
        ];
        rows.Add(("all", Enum.GetValues<Basis>().ToDictionary(b => b, b => rows.Sum(r => r.Item2[b]))));
        return rows;
    }

    /// <summary>Prints the table, ready for a README.</summary>
    public static int Run(Edition edition, string folder, TextWriter output)
    {
        output.WriteLine("| numbers | count | published | modelled | common practice | recalled |");
        output.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: |");
        foreach (var (kind, count) in Rows(edition, folder))
        {
            var all = count.Values.Sum();
            var shares = Enum.GetValues<Basis>().Select(b => string.Create(CultureInfo.InvariantCulture, $"{100.0 * count[b] / all:0.0} % ({count[b]})"));
            output.WriteLine($"| {kind} | {all} | {string.Join(" | ", shares)} |");
        }

        return 0;
    }

    private static Dictionary<Basis, int> Count(IEnumerable<Basis> bases)
    {
        var count = Enum.GetValues<Basis>().ToDictionary(b => b, _ => 0);
        foreach (var basis in bases)
        {
            count[basis]++;
        }

        return count;
    }

    private static IEnumerable<Basis> Bases(JsonNode? node) => node switch
    {
        JsonArray list => list.SelectMany(Bases),
        JsonObject body => body.Where(p => p.Key == "basis" && p.Value is JsonValue).Select(p => Named((string)p.Value!)).Concat(body.SelectMany(p => Bases(p.Value))),
        _ => [],
    };

    private static Basis Named(string id) => Enum.Parse<Basis>(id.Replace("-", "", StringComparison.Ordinal), ignoreCase: true);
}
