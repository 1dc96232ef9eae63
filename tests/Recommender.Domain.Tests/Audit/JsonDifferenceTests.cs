using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Recommender.Domain.Audit;

namespace Recommender.Domain.Tests.Audit;

public sealed class JsonDifferenceTests
{
    [Theory]
    [InlineData("""{"a":1}""", """{"a":2}""", "/a 1 2")]
    [InlineData("""{"a":1}""", """{"b":1}""", "/a 1 -; /b - 1")]
    [InlineData("""{"a":{"b":[1,2]}}""", """{"a":{"b":[1,3]}}""", "/a/b [1,2] [1,3]")]
    [InlineData("""{"a":[{"x":1},{"x":2}]}""", """{"a":[{"x":1},{"x":3}]}""", "/a/1/x 2 3")]
    [InlineData("""{"a":[{"x":1}]}""", """{"a":[{"x":1},{"x":3}]}""", """/a [{"x":1}] [{"x":1},{"x":3}]""")]
    [InlineData("""[{"id":"p","v":1},{"id":"q","v":2}]""", """[{"id":"n","v":0},{"id":"p","v":1},{"id":"q","v":3}]""", """/1/v 2 3; /0 - {"id":"n","v":0}""")]
    [InlineData("""[{"id":"p"},{"id":"q"}]""", """[{"id":"q"}]""", """/0 {"id":"p"} -""")]
    [InlineData("""[{"exercise":{"id":"p"},"rank":1},{"exercise":{"id":"q"},"rank":2}]""", """[{"exercise":{"id":"q"},"rank":1},{"exercise":{"id":"p"},"rank":2}]""", "/0/rank 1 2; /1/rank 2 1")]
    [InlineData("""{"a/b":{"~":1}}""", """{"a/b":{"~":2}}""", "/a~1b/~0 1 2")]
    [InlineData("""{"a":1.0}""", """{"a":1}""", "")]
    public void Names_each_value_that_differs(string before, string after, string expected) =>
        Assert.Equal(expected, string.Join("; ", Of(before, after, orderCounts: false).Select(c => $"{c.Pointer} {c.Was?.GetRawText() ?? "-"} {c.Is?.GetRawText() ?? "-"}")));

    [Fact]
    public void Where_order_counts_a_moved_item_makes_its_list_differ() =>
        Assert.Equal("", Assert.Single(Of("""[{"id":"p"},{"id":"q"}]""", """[{"id":"q"},{"id":"p"}]""", orderCounts: true)).Pointer);

    [Fact]
    public void Texts_differ_exactly_when_they_are_not_equal_and_each_change_holds_both_values() =>
        Gen.Select(Some, Some).Sample((a, b) =>
        {
            var (before, after) = (Parsed(a), Parsed(b));
            var changes = JsonDifference.Of(before, after, orderCounts: true);
            return changes.Count == 0 == JsonElement.DeepEquals(before, after)
                && changes.All(c => c.Was is null || c.Steps.Any(s => s.Added) || JsonElement.DeepEquals(At(before, c), c.Was.Value));
        });

    [Fact]
    public void Made_one_after_another_the_changes_of_members_and_values_give_the_text_after() =>
        Gen.Select(Members, Members).Sample((a, b) =>
        {
            var text = JsonNode.Parse(a)!;
            foreach (var change in JsonDifference.Of(Parsed(a), Parsed(b), orderCounts: true))
            {
                change.Apply(text);
            }

            return JsonNode.DeepEquals(text, JsonNode.Parse(b));
        });

    private static Gen<string> Leaf => Gen.OneOf(Gen.Int[0, 3].Select(i => $"{i}"), Gen.Bool.Select(b => b ? "true" : "null"), Gen.Int[0, 3].Select(i => $"\"t{i}\""));

    private static Gen<string> Members => Gen.Int[0, 2].SelectMany(depth => Object(depth));

    private static Gen<string> Some => Gen.OneOf(Members, Gen.Select(Leaf, Leaf, (a, b) => $"[{a},{b}]"), Items);

    private static Gen<string> Items => Gen.Select(Gen.Int[0, 4], Leaf).Array[0, 4].Select(items => $"[{string.Join(',', items.DistinctBy(i => i.Item1).Select(i => $"{{\"id\":\"i{i.Item1}\",\"v\":{i.Item2}}}"))}]");

    private static Gen<string> Object(int depth) => Gen.Select(Gen.Int[0, 4], depth == 0 ? Leaf : Object(depth - 1)).Array[0, 4]
        .Select(members => $"{{{string.Join(',', members.DistinctBy(m => m.Item1).Select(m => $"\"m{m.Item1}\":{m.Item2}"))}}}");

    private static JsonElement At(JsonElement root, JsonChange change) =>
        change.Steps.Aggregate(root, (at, step) => step.Index >= 0 ? at[step.Index] : at.GetProperty(step.Name!));

    private static IReadOnlyList<JsonChange> Of(string before, string after, bool orderCounts) => JsonDifference.Of(Parsed(before), Parsed(after), orderCounts);

    private static JsonElement Parsed(string json)
    {
        using var document = JsonDocument.Parse(json);
        return document.RootElement.Clone();
    }
}
