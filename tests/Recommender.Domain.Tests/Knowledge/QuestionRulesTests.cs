using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

/// <summary>Which red flags a person is asked about.</summary>
public sealed class QuestionRulesTests
{
    private static QuestionRules Good => TestEdition.Knowledge.Questions;

    public static TheoryData<string> Regions => [.. TestEdition.Vocabulary.Regions.Select(r => r.Id)];

    // cauda equina: saddle numbness, bladder or bowel change, both legs, weakness are what guidelines ask first (from memory: NICE NG59 and its red-flag list).
    [Theory]
    [InlineData("lower-back", "saddle-numbness")]
    [InlineData("lower-back", "bladder-or-bowel-change")]
    [InlineData("lower-back", "both-legs-affected")]
    [InlineData("knee", "cannot-bear-weight")]
    [InlineData("ankle", "bony-tenderness-after-injury")]
    [InlineData("chest", "chest-pain")]
    [InlineData("hip", "night-or-rest-pain")]
    public void What_must_not_be_missed_is_asked(string region, string flag) => Assert.Contains(flag, Good.Of(region).Flags);

    [Theory]
    [MemberData(nameof(Regions))]
    public void Every_flag_that_is_asked_may_be_sent_with_the_complaint(string region)
    {
        var set = Good.Of(region);
        var request = new RecommendationRequest
        {
            Athlete = new AthleteFacts { EventGroup = "jumps", AgeYears = 15 },
            Phase = "competition",
            Complaints = [new Complaint { Region = region, Pain = 2, RedFlags = [.. set.Flags.Append(set.Growing).OfType<string>()] }],
        };
        Assert.InRange(set.Flags.Count, 4, 5);
        Assert.Empty(RequestChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge));
    }

    [Fact]
    public void A_region_in_no_set() =>
        Told("every region that can hurt", Good with { Sets = [.. Good.Sets.Select(s => s with { Regions = [.. s.Regions.Where(r => r != "hip")] })] });

    [Fact]
    public void A_region_in_two_sets() =>
        Told("stands in 2 sets", Good with { Sets = [.. Good.Sets.Select(s => s.Id == "back" ? s with { Regions = ["lower-back", "hip"] } : s)] });

    [Fact]
    public void A_flag_that_the_vocabulary_lacks() =>
        Told("\"bad-mood\"", Good with { Sets = [.. Good.Sets.Select(s => s.Id == "back" ? s with { Growing = "bad-mood" } : s)] });

    [Fact]
    public void A_general_flag_that_the_vocabulary_lacks() => Told("\"bad-mood\"", Good with { General = ["bad-mood"] });

    private static void Told(string words, QuestionRules wrong)
    {
        var faults = KnowledgeChecks.Of(TestEdition.Knowledge.With(questions: wrong), TestEdition.Current.Catalogue.Exercises, TestEdition.Vocabulary,
            EligibilityFilter.Gates.Select(g => g.Reason), [.. ScoringEngine.Factors.Select(f => f.Id)]);
        Assert.Contains(faults, f => f.File == "rules/questions.json" && f.Reason.Contains(words, StringComparison.Ordinal));
    }
}
