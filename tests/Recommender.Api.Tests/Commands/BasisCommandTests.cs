using System.Text.RegularExpressions;
using Recommender.Api.Commands;
using Recommender.Api.Tests.Hosting;
using Recommender.Domain.Catalogue;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Api.Tests.Commands;

public sealed partial class BasisCommandTests
{
    private static readonly string Data = Repository.File("data");
    private static readonly string[] RuleFolders = ["rules", "event-profiles", "tests"];

    [Fact]
    public void Every_number_of_the_catalogue_is_counted_once_by_its_basis()
    {
        var edition = KnowledgeReader.Read(Data);
        var rows = BasisCommand.Rows(edition, Data).ToDictionary(r => r.Kind, r => r.Count);

        Assert.Equal(edition.Catalogue.Exercises.Sum(e => e.Qualities.Count), rows["qualities"].Values.Sum());
        Assert.Equal(edition.Catalogue.Exercises.Sum(e => e.TissueLoad.Count), rows["tissue loads"].Values.Sum());
        Assert.Equal(edition.Catalogue.Count, rows["facts (a sheet per exercise)"].Values.Sum());
        Assert.Equal(edition.Catalogue.Exercises.Count(e => e.TissueLoad.Values.Any(l => l.Basis == Basis.Modelled)), rows["tissue loads"][Basis.Modelled]);
        Assert.True(rows["tissue loads"][Basis.Published] >= 16);
        Assert.All(Enum.GetValues<Basis>(), b => Assert.Equal(rows.Where(r => r.Key != "all").Sum(r => r.Value[b]), rows["all"][b]));
    }

    [Fact]
    public void Every_rule_that_states_a_basis_is_counted()
    {
        var texts = RuleFolders.SelectMany(f => Directory.GetFiles(Path.Combine(Data, f), "*.json")).Select(File.ReadAllText);
        var rows = BasisCommand.Rows(KnowledgeReader.Read(Data), Data).Single(r => r.Kind == "rules").Count;

        Assert.Equal(texts.Sum(t => Stated().Count(t)), rows.Values.Sum());
    }

    [Fact]
    public void It_prints_a_table_whose_shares_add_up()
    {
        var (exit, output, _) = CommandRun.Of("basis");

        Assert.Equal(0, exit);
        var rows = output.Trim().Split('\n')[2..];
        Assert.Equal(5, rows.Length);
        Assert.All(rows, row => Assert.Equal(100, Share().Matches(row).Sum(m => double.Parse(m.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture)), 0.3));
    }

    /// <summary>RECOMMENDER_APPROVE=1 puts the table in.</summary>
    [Fact]
    public void The_readme_shows_the_table_that_it_prints()
    {
        var file = Repository.File("README.md");
        var (_, table, _) = CommandRun.Of("basis");
        var text = File.ReadAllText(file);
        if (Repository.Approve)
        {
            text = Table().Replace(text, _ => table);
            File.WriteAllText(file, text);
        }

        Assert.True(text.Contains(table, StringComparison.Ordinal), "README.md shows another table than -- basis prints; run this test with RECOMMENDER_APPROVE=1.");
    }

    [GeneratedRegex("\"basis\": *\"")]
    private static partial Regex Stated();

    [GeneratedRegex(@"([0-9.]+) %")]
    private static partial Regex Share();

    [GeneratedRegex(@"\| numbers \| count(.*\n)+?\| all \|.*\n")]
    private static partial Regex Table();
}
