using CsCheck;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Dosing;

public sealed class LoadingTests
{
    private static readonly Exercise Barbell = ExerciseBuilder.Named("lift").But(e => e with { LoadBand = LoadBand.Heavy, Equipment = [["barbell"]] });
    private static readonly Exercise Pair = ExerciseBuilder.Named("lift").But(e => e with { LoadBand = LoadBand.Heavy, Equipment = [["dumbbells"]] });

    /// <summary>The bar is loaded as a search over every pile of plates would load it.</summary>
    [Fact]
    public void Bar_and_plates_come_as_close_from_below_as_any_pile_does() =>
        Gen.Select(Gen.Int[10, 25], RequestGenerator.One([0.5m, 1.25m, 2.5m, 5m, 10m, 15m, 20m]).Array[0, 4], Gen.Int[20, 220]).Sample((bar, plates, max) =>
        {
            var wanted = max * 0.8m;
            var load = Dose(Barbell, max, new KitFacts { Barbell = new BarbellKit { BarKg = bar, PlatesKg = plates } }).LoadKg;
            var sizes = plates.Distinct().OrderDescending().ToArray();
            decimal? best = null;
            for (var heaviest = 0; heaviest <= 400; heaviest++)
            {
                for (var subset = 0; subset < 1 << Math.Max(0, sizes.Length - 1); subset++)
                {
                    var end = sizes.Length == 0 ? 0 : (heaviest * sizes[0]) + sizes.Skip(1).Where((_, i) => (subset & (1 << i)) != 0).Sum();
                    if (bar + (2 * end) <= wanted && !(bar + (2 * end) <= best))
                    {
                        best = bar + (2 * end);
                    }
                }
            }

            Assert.Equal(best, load);
        }, iter: 300);

    [Fact]
    public void Dumbbells_are_told_each_and_by_their_step()
    {
        // 80 % of 100 kg is 80, 40 in each hand.
        Assert.Equal(40m, Dose(Pair, 100, new KitFacts { Dumbbell = new DumbbellKit { MaxKg = 50, StepKg = 4 } }).LoadKg);
        Assert.Equal(36m, Dose(Pair, 100, new KitFacts { Dumbbell = new DumbbellKit { MaxKg = 50, StepKg = 6 } }).LoadKg);
    }

    [Fact]
    public void Where_the_load_is_not_there_repetitions_tempo_and_a_word_make_up_for_it()
    {
        var dose = Dose(Pair, 100, new KitFacts { Dumbbell = new DumbbellKit { MaxKg = 30, StepKg = 2 } });
        Assert.Equal(30m, dose.LoadKg);
        Assert.True(dose.Amount > 5, $"{dose.Amount} repetitions.");
        Assert.Equal(TestEdition.Knowledge.Dose.Kit.Tempo, dose.Tempo);
        Assert.Equal("light-kit", Assert.Single(dose.Adjustments).Code);
    }

    /// <summary>Haff and Triplett (eds), Essentials of Strength Training, 4th ed., table of repetitions by percentage: 80 % allows 8.</summary>
    [Fact]
    public void Repetitions_at_a_lighter_load_follow_the_published_table()
    {
        // 84 of 100 kg wanted, two times 40 there: 80 %, which allows eight; two stay in reserve.
        var dose = Dose(Pair, 105, new KitFacts { Dumbbell = new DumbbellKit { MaxKg = 42, StepKg = 2 } }, low: 90);
        Assert.Equal((42m, 6m), (dose.LoadKg, dose.Amount));
    }

    [Fact]
    public void A_lighter_kit_never_brings_fewer_repetitions() =>
        Gen.Select(Gen.Int[4, 40], Gen.Int[4, 40], Gen.Int[60, 160]).Sample((one, other, max) =>
        {
            var lighter = Dose(Pair, max, new KitFacts { Dumbbell = new DumbbellKit { MaxKg = Math.Min(one, other), StepKg = 2 } });
            var heavier = Dose(Pair, max, new KitFacts { Dumbbell = new DumbbellKit { MaxKg = Math.Max(one, other), StepKg = 2 } });
            Assert.True(lighter.Amount >= heavier.Amount, $"{lighter.Amount} below {heavier.Amount}.");
        }, iter: 300);

    [Fact]
    public void Warm_up_sets_are_lighter_and_climb()
    {
        var row = DoseRowTests.Row(sets: 3) with { WarmUp = "heavy-lift", Intensity = new Domain.Knowledge.DoseRowIntensity("percent-1rm", [80, 80, 80, 80, 80, 80], [85, 85, 85, 85, 85, 85]) };
        var dose = Dose(Barbell, 150, null, row);
        Assert.Equal(TestEdition.Knowledge.Dose.WarmUps.First(w => w.Id == "heavy-lift").Steps.Count, dose.WarmUp.Count);
        Assert.Equal(dose.WarmUp.Select(w => w.LoadKg).Order(), dose.WarmUp.Select(w => w.LoadKg));
        Assert.All(dose.WarmUp, w => Assert.True(w.LoadKg < dose.LoadKg));
    }

    private static Dose Dose(Exercise exercise, decimal max, KitFacts? kit, decimal low = 80) =>
        Dose(exercise, max, kit, DoseRowTests.Row(sets: 3, amount: 5) with { Intensity = new Domain.Knowledge.DoseRowIntensity("percent-1rm", [low, low, low, low, low, low], [95, 95, 95, 95, 95, 95]) });

    private static Dose Dose(Exercise exercise, decimal max, KitFacts? kit, Domain.Knowledge.DoseRow row)
    {
        var request = RequestBuilder.Skilled().Lifting("lift", max).Request;
        request = request with { Setting = request.Setting! with { Kit = kit } };
        var situation = Stages.Of(request, TestEdition.Of([exercise], TestEdition.Knowledge.With(dose: TestEdition.Knowledge.Dose with { Rows = [row] }))).Situation;
        return new DoseCalculator(situation, new NeedProfile([], [])).Next(0, TestEdition.Vocabulary.Qualities.IndexOf("max-strength"), exercise.Equipment[0]);
    }
}
