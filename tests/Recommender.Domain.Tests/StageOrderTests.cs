using System.Text.RegularExpressions;
using System.Xml.Linq;
using Recommender.Testing;

namespace Recommender.Domain.Tests;

/// <summary>STYLE: inside Domain a folder uses folders listed above it, never below; Domain is pure; projects refer to each other one way.</summary>
public sealed partial class StageOrderTests
{
    private static readonly string[] Order = ["Catalogue", "Knowledge", "Requests", "Needs", "Eligibility", "Scoring", "Selection", "Dosing", "Ledger", "Explanations", "Decisions", "Substitutions", "Sessions", "Season", "Groups", "Outcomes"];

    /// <summary>Project to the projects it may refer to; a test project may refer to any.</summary>
    private static readonly Dictionary<string, string[]> MayRefer = new(StringComparer.Ordinal)
    {
        ["Recommender.Domain"] = [],
        ["Recommender.Storage"] = ["Recommender.Domain"],
        ["Recommender.Learning"] = ["Recommender.Domain", "Recommender.Storage", "Recommender.Answers"],
        ["Recommender.Answers"] = ["Recommender.Domain", "Recommender.Storage"],
        ["Recommender.Pages"] = ["Recommender.Domain", "Recommender.Answers"],
        ["Recommender.Api"] = ["Recommender.Domain", "Recommender.Storage", "Recommender.Answers", "Recommender.Pages"],
    };

    private static string Source => Path.Combine(TestEdition.Top, "src");

    private static string DomainFolder => Path.Combine(Source, "Recommender.Domain");

    public static TheoryData<string> Folders => [.. Order];

    [Theory]
    [MemberData(nameof(Folders))]
    public void A_folder_uses_only_folders_above_it(string folder)
    {
        var below = Order.SkipWhile(f => f != folder).Skip(1).Append("Audit").ToList();
        var files = FilesOf(Path.Combine(DomainFolder, folder)).ToList();
        Assert.NotEmpty(files);
        foreach (var (file, text) in files)
        {
            var used = NamespaceInUse().Matches(text).Select(m => m.Groups["folder"].Value).Distinct(StringComparer.Ordinal);
            var wrong = used.Intersect(below, StringComparer.Ordinal).ToList();
            Assert.True(wrong.Count == 0, $"{file} uses {string.Join(", ", wrong)}, below {folder}.");
        }
    }

    [Fact]
    public void Domain_has_no_folder_whose_place_in_the_order_is_not_said() =>
        Assert.Subset(Order.Append("Audit").ToHashSet(StringComparer.Ordinal), new HashSet<string>(
            Directory.GetDirectories(DomainFolder).Select(d => Path.GetFileName(d)!).Where(d => d is not ("bin" or "obj")), StringComparer.Ordinal));

    [Fact]
    public void Domain_is_pure()
    {
        foreach (var (file, text) in FilesOf(DomainFolder))
        {
            var wrong = Impure().Matches(WithoutComments(text)).Select(m => m.Value).Distinct(StringComparer.Ordinal).ToList();
            Assert.True(wrong.Count == 0, $"{file} reaches outside: {string.Join(", ", wrong)}. Domain has no I/O, clock, randomness, console or async.");
        }
    }

    [Fact]
    public void Domain_has_no_package() => Assert.Empty(Project("Recommender.Domain").Descendants("PackageReference"));

    [Fact]
    public void Projects_refer_to_each_other_one_way()
    {
        foreach (var folder in Directory.GetDirectories(Source))
        {
            var name = Path.GetFileName(folder);
            Assert.True(MayRefer.ContainsKey(name), $"{name} is not in the layout of the solution.");
            var refers = Project(name).Descendants("ProjectReference").Select(r => Path.GetFileNameWithoutExtension(r.Attribute("Include")!.Value.Replace('\\', '/')));
            Assert.Subset(MayRefer[name].ToHashSet(StringComparer.Ordinal), refers.ToHashSet(StringComparer.Ordinal));
        }
    }

    [Theory]
    [InlineData("File.ReadAllText(path)")]
    [InlineData("var now = DateTime.UtcNow;")]
    [InlineData("new Random(3)")]
    [InlineData("Guid.NewGuid()")]
    [InlineData("Console.Out")]
    [InlineData("async Task Run()")]
    public void Impure_code_is_seen(string code) => Assert.Matches(Impure(), code);

    [Theory]
    [InlineData("using Recommender.Domain.Scoring;", "Scoring")]
    [InlineData("using Recommender.Domain.Eligibility.Gates;", "Eligibility")]
    [InlineData("private readonly Knowledge.DoseCircumstances dose;", "Knowledge")]
    [InlineData("Recommender.Domain.Decisions.Answer answer", "Decisions")]
    public void A_use_of_a_folder_is_seen(string code, string folder) =>
        Assert.Equal([folder], NamespaceInUse().Matches(code).Select(m => m.Groups["folder"].Value));

    private static IEnumerable<(string File, string Text)> FilesOf(string folder) =>
        Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
            .Where(f => !Path.GetRelativePath(Source, f).Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj"))
            .Order(StringComparer.Ordinal)
            .Select(f => (Path.GetRelativePath(Source, f), File.ReadAllText(f)));

    private static XDocument Project(string name) => XDocument.Load(Path.Combine(Source, name, name + ".csproj"));

    private static string WithoutComments(string text) => string.Join('\n', text.Split('\n').Select(line => line.IndexOf("//", StringComparison.Ordinal) is >= 0 and var at ? line[..at] : line));

    /// <summary>A using line, or a name qualified by a folder (a folder's name before a dot and a type).</summary>
    [GeneratedRegex(@"Recommender\.Domain\.(?<folder>Catalogue|Knowledge|Requests|Needs|Eligibility|Scoring|Selection|Dosing|Ledger|Explanations|Decisions|Substitutions|Sessions|Season|Groups|Outcomes|Audit)\b|(?<![\w.])(?<folder>Knowledge|Requests|Eligibility|Selection|Dosing|Explanations|Decisions|Audit)\.(?=[A-Z]\w*[\s?>)])(?=\w+\s+\w+\s*[;{,)])")]
    private static partial Regex NamespaceInUse();

    [GeneratedRegex(@"System\.IO\b|\b(File|Directory|Path|Stream\w*|Environment|Console|Random|RandomNumberGenerator|Stopwatch|TimeProvider|HttpClient|Process|Thread|Task)\b(?=[.<(\s])|DateTime(Offset)?\.(Utc)?Now|Guid\.(NewGuid|CreateVersion7)|\basync\b|\bawait\b")]
    private static partial Regex Impure();
}
