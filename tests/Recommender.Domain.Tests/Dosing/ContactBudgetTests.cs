using CsCheck;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Dosing;

/// <summary>
/// Landings of a session. Potach and Chu in Haff and Triplett (eds), Essentials of Strength Training, 4th ed., ch. 18: 80 to 100 for beginners, 100 to 120, 120 to 140
/// for the experienced. Young athletes about 60 a session: Ramirez-Campillo et al. 2023, table 7 (120 a week in two sessions).
/// </summary>
public sealed class ContactBudgetTests
{
    /// <summary>Steps of running are not landings of a jump session.</summary>
    private static readonly string[] Running = ["running", "running-cut", "hill-sprint", "sled-sprint", "wicket-run"];

    [Fact]
    public void The_landings_of_all_picks_stay_inside_the_published_limit()
    {
        var withLandings = 0;
        Sampling.Until(() => withLandings > 50, () => RequestGenerator.Requests.Sample(request =>
        {
            var answer = Stages.Answer(request with { Count = 12 });
            var situation = Stages.Of(request).Situation;
            var landings = answer.Picks.Where(p => p.Dose is not null && p.Dose.Adjustments.All(a => a.Code != "contacts-another-day") && !Running.Contains(p.Exercise.Id))
                .Sum(p => p.Dose!.Sets * p.Dose!.Amount * TestEdition.Exercise(p.Exercise.Id).ImpactContacts * (p.Dose!.PerSide ? 2 : 1));
            var published = situation.AgeYears < 16 ? 60 : situation.TrainingAgeYears < 1 ? 100 : situation.TrainingAgeYears < 3 ? 120 : 140;
            Interlocked.Add(ref withLandings, landings > 0 ? 1 : 0);
            Assert.True(landings <= published, $"{landings} landings, {published} published, for age {situation.AgeYears} with {situation.TrainingAgeYears} years.");
        }, iter: 500));
        Assert.True(withLandings > 50, $"only {withLandings} answers had landings.");
    }
}
