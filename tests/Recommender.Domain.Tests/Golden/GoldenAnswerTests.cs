using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Golden;

public sealed class GoldenAnswerTests
{
    private const string Approved = """{ "score": 61.25, "versions": { "engine": 4, "catalogue": "aa", "rules": "bb" } }""";
    private static readonly bool Approving = Environment.GetEnvironmentVariable("RECOMMENDER_APPROVE") == "1";

    public static TheoryData<string> Scenarios => [.. GoldenFile.Scenarios];

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void Answers_as_approved(string scenario)
    {
        var request = GoldenFile.Request(scenario);
        Assert.Empty(RequestChecks.Of(request, GoldenFile.Frozen.Catalogue, GoldenFile.Frozen.Knowledge));
        var answer = Stages.Answer(request, GoldenFile.Frozen);
        ExplanationChecks.AddsUp(answer);

        var path = GoldenFile.Verified(scenario);
        var verified = File.Exists(path) ? File.ReadAllText(path).ReplaceLineEndings("\n") : null;
        var actual = GoldenFile.Text(answer);
        var judgement = GoldenFile.Judge(verified, actual, Approving);
        if (judgement.Write)
        {
            File.WriteAllText(path, actual);
        }

        Assert.True(judgement.Fails is null, $"{scenario}: {judgement.Fails}{FirstDifference(verified, actual)}");
    }

    [Fact]
    public void Scenarios_reach_every_group_and_every_status()
    {
        var requests = GoldenFile.Scenarios.Select(GoldenFile.Request).ToList();
        Assert.True(requests.Count >= 12);
        var situations = requests.Select(r => Situation.Of(r, GoldenFile.Frozen)).ToList();
        Assert.Equal(GoldenFile.Frozen.Catalogue.Vocabulary.EventGroups.Select(g => g.Id).Order(StringComparer.Ordinal), situations.Select(s => s.EventGroup).Distinct().Order(StringComparer.Ordinal));
        Assert.Equal(GoldenFile.Frozen.Catalogue.Vocabulary.Places.Count, situations.Select(s => s.Place.Id).Distinct().Count());
        Assert.Equal(Enum.GetValues<AnswerStatus>().Length, requests.Select(r => Stages.Answer(r, GoldenFile.Frozen).Status).Distinct().Count());
        Assert.Contains(requests, r => Stages.Answer(r, GoldenFile.Frozen).Referral?.Scope == "regions");
    }

    [Fact]
    public void The_same_answer_is_fine_and_not_written_again() => Assert.Equal(new(false, null), GoldenFile.Judge(Approved, Approved, approving: true));

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Another_answer_under_the_same_engine_and_data_fails_even_when_approving(bool approving)
    {
        var judgement = GoldenFile.Judge(Approved, Approved.Replace("61.25", "61.26", StringComparison.Ordinal), approving);
        Assert.False(judgement.Write);
        Assert.StartsWith("arithmetic changed: raise RecommendationPipeline.Engine", judgement.Fails, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"engine\": 4", "\"engine\": 5")]
    [InlineData("aa", "cc")]
    [InlineData("bb", "cc")]
    public void Another_engine_or_other_data_may_be_approved_but_not_unseen(string was, string becomes)
    {
        var actual = Approved.Replace(was, becomes, StringComparison.Ordinal);
        Assert.Equal(new(true, null), GoldenFile.Judge(Approved, actual, approving: true));
        Assert.Contains("RECOMMENDER_APPROVE=1", GoldenFile.Judge(Approved, actual, approving: false).Fails, StringComparison.Ordinal);
    }

    [Fact]
    public void A_first_answer_may_be_approved_but_not_unseen()
    {
        Assert.Equal(new(true, null), GoldenFile.Judge(null, Approved, approving: true));
        Assert.NotNull(GoldenFile.Judge(null, Approved, approving: false).Fails);
    }

    private static string FirstDifference(string? verified, string actual)
    {
        var (was, now) = ((verified ?? "").Split('\n'), actual.Split('\n'));
        var at = Enumerable.Range(0, Math.Max(was.Length, now.Length)).FirstOrDefault(i => was.ElementAtOrDefault(i) != now.ElementAtOrDefault(i));
        return $"\nline {at + 1}\n  approved: {was.ElementAtOrDefault(at)}\n  today:    {now.ElementAtOrDefault(at)}";
    }
}
