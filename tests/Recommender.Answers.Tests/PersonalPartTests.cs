using System.Text;
using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Testing;
using static Recommender.Answers.Tests.Desk;

namespace Recommender.Answers.Tests;

/// <summary>Ref and notes are kept apart from the hashed record, and a reader gets them back.</summary>
public sealed class PersonalPartTests : DeskTests
{
    private const string Reference = "qq-ref-qq";
    private const string Note = "qq-note-qq </script> \"quoted\" Zoë \\";

    private static readonly RecommendationRequest Personal = Least() with
    {
        Athlete = new AthleteFacts
        {
            EventGroup = "jumps",
            Ref = Reference,
            AgeYears = 22,
            Restrictions = [new Restriction { Region = "hip", MaxTissueLoad = 3 }, new Restriction { Region = "hip", NoImpact = true, By = "qq-physio" }],
            Clearances = [new Clearance { Flag = "recent-surgery", DaysAgo = 3, By = "qq-surgeon" }],
            Limitations = ["qq-limitation"],
        },
        Complaints = [new Complaint { Region = "shoulder", Pain = 1 }, new Complaint { Region = "elbow", Pain = 1, Note = Note }, new Complaint { Region = "wrist", Pain = 1, Note = "" }],
    };

    [Fact]
    public async Task Neither_request_nor_answer_on_record_holds_ref_or_note()
    {
        var outcome = await Desk.Answers.One(Personal, "club", null);

        var stored = (await Desk.Log.Read("club", outcome.Answer!.DecisionId))!.Record;
        Assert.DoesNotContain("qq-", Encoding.UTF8.GetString(stored.Request.Span), StringComparison.Ordinal);
        Assert.DoesNotContain("qq-", Encoding.UTF8.GetString(stored.Answer.Span), StringComparison.Ordinal);
        Assert.Contains("qq-ref-qq", Encoding.UTF8.GetString(stored.Personal.Span), StringComparison.Ordinal);
        Assert.Contains("qq-note-qq", Encoding.UTF8.GetString(stored.Personal.Span), StringComparison.Ordinal);
        Assert.All(["qq-physio", "qq-surgeon", "qq-limitation"], text => Assert.Contains(text, Encoding.UTF8.GetString(stored.Personal.Span), StringComparison.Ordinal));
        Assert.Equal(Reference, stored.AthleteRef);
    }

    [Fact]
    public async Task A_reader_gets_the_request_as_it_was_sent()
    {
        var outcome = await Desk.Answers.One(Personal, "club", null);

        var read = await Desk.Decisions.Open("club", outcome.Answer!.DecisionId);

        Assert.Equal(Json(Personal), Encoding.UTF8.GetString(read!.Value.Request));
    }

    [Fact]
    public async Task A_full_request_comes_back_as_it_was_sent()
    {
        var full = RequestReader.Read<RecommendationRequest>(FullRequest.Utf8, out _)!;
        var outcome = await Desk.Answers.One(full, "club", null);
        Assert.Empty(outcome.Faults);

        var read = await Desk.Decisions.Open("club", outcome.Answer!.DecisionId);

        Assert.Equal(Json(full), Encoding.UTF8.GetString(read!.Value.Request));
    }

    [Fact]
    public async Task A_ref_alone_comes_back_and_so_does_a_note_alone()
    {
        foreach (var request in new[] { Least() with { Athlete = Personal.Athlete }, Personal with { Athlete = Least().Athlete } })
        {
            var outcome = await Desk.Answers.One(request, "club", null);

            Assert.Equal(Json(request), Encoding.UTF8.GetString((await Desk.Decisions.Open("club", outcome.Answer!.DecisionId))!.Value.Request));
        }
    }

    [Fact]
    public async Task A_request_about_nobody_has_no_personal_part()
    {
        var outcome = await Desk.Answers.One(Least(), "club", null);

        var stored = (await Desk.Log.Read("club", outcome.Answer!.DecisionId))!.Record;
        Assert.True(stored.Personal.IsEmpty);
        Assert.Null(stored.AthleteRef);
    }

    [Fact]
    public async Task Once_erased_the_rest_is_read_and_its_hash_still_holds()
    {
        var outcome = await Desk.Answers.One(Personal, "club", null);
        await Desk.Store.Use(async connection =>
        {
            await using var command = connection.CreateCommand();
            command.CommandText = "UPDATE decisions SET personal = NULL, personal_salt = NULL, athlete_ref = NULL, coach = NULL";
            return await command.ExecuteNonQueryAsync();
        });

        var (stored, json) = (await Desk.Decisions.Open("club", outcome.Answer!.DecisionId))!.Value;
        var request = JsonSerializer.Deserialize(json, WireJson.Compact.RecommendationRequest)!;

        Assert.True(stored.PersonalDataErased);
        Assert.Null(request.Athlete!.Ref);
        Assert.Equal(22, request.Athlete.AgeYears);
        Assert.All(request.Complaints!, c => Assert.Null(c.Note));
        Assert.All(request.Athlete.Restrictions!, r => Assert.Null(r.By));
        Assert.Equal(3, request.Athlete.Restrictions![0].MaxTissueLoad);
        Assert.Equal("kept apart", Assert.Single(request.Athlete.Limitations!));
        Assert.Empty(RequestChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge));
        Assert.Equal(new RecordHash(stored.Record).At(stored.Sequence, stored.PreviousHash.Span), stored.Hash.ToArray());
    }

    [Fact]
    public async Task Another_organisation_finds_nothing()
    {
        var outcome = await Desk.Answers.One(Personal, "club", null);

        Assert.Null(await Desk.Decisions.Open("academy", outcome.Answer!.DecisionId));
    }

    private static string Json(RecommendationRequest request) => JsonSerializer.Serialize(request, WireJson.Compact.RecommendationRequest);
}
