using System.Text.Json;
using CsCheck;
using Microsoft.Extensions.Primitives;
using Recommender.Answers.Wire;
using Recommender.Domain;
using Recommender.Domain.Requests;
using Recommender.Pages.Ask;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Ask;

public sealed class RequestFormTests
{
    /// <summary>The pages are a second face of the same answers: what a form asks is what the call asks.</summary>
    [Fact]
    public void A_form_filled_from_a_request_and_sent_unchanged_asks_the_same() =>
        RequestGenerator.Requests
            .Where(r => (r.Complaints ?? []).Select(c => (c.Region, c.Side ?? "both")).Distinct().Count() == (r.Complaints ?? []).Count)
            .Where(r => RequestChecks.Of(r, TestEdition.Current.Catalogue, TestEdition.Knowledge).Count == 0)
            .Sample(
                request =>
                {
                    var (read, faults) = new RequestForm(TypedWriter.Of(request, TestEdition.Knowledge.Questions), request, TestEdition.Current).Read();
                    Assert.Empty(faults);
                    Assert.Equal(AnswerTo(request), AnswerTo(read));
                },
                iter: 400);

    [Fact]
    public void Two_choices_make_a_request()
    {
        var request = Read(("athlete.event", "discus"), ("phase", "competition")).Request;
        Assert.Empty(RequestChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge));
        Assert.Equal(("discus", "throws", "competition"), (request.Athlete!.Event, request.Athlete.EventGroup, request.Phase));
        Assert.Null(request.Complaints);
        Assert.Null(request.Setting);
    }

    [Fact]
    public void A_group_may_stand_for_an_event()
    {
        var athlete = Read(("athlete.event", "throws")).Request.Athlete!;
        Assert.Equal((null, "throws"), (athlete.Event, athlete.EventGroup));
    }

    [Fact]
    public void Questions_not_asked_differ_from_none_and_from_some()
    {
        const string at = "complaints.0.redFlags.back.";
        (string, string)[] sore = [("complaints.0.region", "lower-back"), ("complaints.0.pain", "3")];
        (string, string)[] no = [.. TestEdition.Knowledge.Questions.Of("lower-back").Flags.Select(f => (at + f, "no"))];
        Assert.Null(Flags(sore));
        Assert.Null(Flags([.. sore, .. no.Skip(1)]));
        Assert.Equal([], Flags([.. sore, .. no]));
        Assert.Equal([], Flags([.. sore, (at + "none", "yes")]));
        Assert.Equal(["saddle-numbness"], Flags([.. sore, (at + "none", "yes"), (at + "saddle-numbness", "yes")]));

        // Answers about another part of the body than the one chosen now count for nothing.
        Assert.Null(Flags([.. sore, ("complaints.0.redFlags.knee.locked-joint", "yes")]));

        static IReadOnlyList<string>? Flags((string, string)[] fields) => Read(fields).Request.Complaints![0].RedFlags;
    }

    [Theory]
    [InlineData("2,5", 2.5)]
    [InlineData(" 3 ", 3)]
    [InlineData("-1", -1)]
    public void Numbers_are_read_as_coaches_type_them(string typed, double value) => Assert.Equal((decimal)value, Read(("weeksToCompetition", typed)).Request.WeeksToCompetition);

    [Theory]
    [InlineData("weeksToCompetition", "soon", "/weeksToCompetition")]
    [InlineData("athlete.ageYears", "12.5", "/athlete/ageYears")]
    [InlineData("setting.minutes", "1e3", "/setting/minutes")]
    public void What_is_no_number_is_told_at_its_field(string field, string typed, string pointer)
    {
        var (_, faults) = Read((field, typed));
        Assert.Equal(pointer, Assert.Single(faults).Pointer);
    }

    [Fact]
    public void A_fault_of_a_row_is_told_beside_that_row_though_rows_before_it_are_empty()
    {
        var typed = Form(("complaints.1.region", "hip"), ("complaints.1.pain", "eleven"));
        var (request, faults) = new RequestForm(typed, null, TestEdition.Current).Read();
        Assert.Single(request.Complaints!);
        var form = new AskForm(typed, null, null, null, [], faults, null, "");
        Assert.NotNull(form.FaultOf("complaints.1.pain"));
        Assert.Null(form.FaultOf("complaints.0.pain"));
    }

    [Fact]
    public void The_course_of_a_complaint_goes_along_only_with_its_region_and_morning()
    {
        var basis = new RecommendationRequest { Athlete = new AthleteFacts { EventGroup = "jumps" }, Phase = "competition", Complaints = [new Complaint { Region = "patellar-tendon", Side = "left", Pain = 3, Mornings = ["settled", "worse"], Stage = "slow-heavy" }] };
        var typed = TypedWriter.Of(basis, TestEdition.Knowledge.Questions);
        Assert.Equal("slow-heavy", Of(typed).Stage);
        Assert.Equal(["settled", "worse"], Of(typed).Mornings!);
        Assert.Null(Of(With(typed, "complaints.0.nextMorning", "worse")).Mornings);
        Assert.Null(Of(With(typed, "complaints.0.region", "hip")).Stage);

        Complaint Of(Typed form) => new RequestForm(form, basis, TestEdition.Current).Read().Request.Complaints![0];
    }

    private static (RecommendationRequest Request, IReadOnlyList<Fault> Faults) Read(params (string Name, string Value)[] fields) => new RequestForm(Form(fields), null, TestEdition.Current).Read();

    private static Typed Form(params (string Name, string Value)[] fields) => new(fields.ToDictionary(f => f.Name, f => new StringValues(f.Value), StringComparer.Ordinal));

    private static Typed With(Typed typed, string name, string value) =>
        new(typed.Names.Append(name).Distinct(StringComparer.Ordinal).ToDictionary(n => n, n => n == name ? new StringValues(value) : new StringValues([.. typed.All(n)]), StringComparer.Ordinal));

    private static string AnswerTo(RecommendationRequest request) => JsonSerializer.Serialize(RecommendationPipeline.Answer(request, TestEdition.Current, ""), WireJson.Default.Answer);
}
