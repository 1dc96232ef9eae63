using Recommender.Domain.Audit;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Audit;

/// <summary>One sample written out: the edition with every drawn number in its place. Plain, slow, and by the definition alone: names, intervals, ranges.</summary>
internal static class NaiveSample
{
    public static Edition Of(Edition edition, RecommendationRequest request, int sample)
    {
        var rules = edition.Knowledge.Audit.Sensitivity;
        var draws = Draws.Sample(rules.Seed, sample);
        var scoring = edition.Knowledge.Scoring;
        var words = edition.Catalogue.Vocabulary;
        var group = request.Athlete!.EventGroup ?? words.Events.Find(request.Athlete.Event!)!.EventGroup;
        var eventId = request.Athlete.Event ?? edition.Knowledge.GroupOf(group).DefaultEvent;
        var phase = (Phase)words.Phases.IndexOf(request.Phase!);

        decimal Between(string name, decimal low, decimal high, decimal value) => low == high ? value : low + ((high - low) * draws.PlaceOf(Draws.KeyOf(name)) / 1000m);
        decimal Number(string name, decimal value, Basis basis, decimal most = decimal.MaxValue) => basis == Basis.Published ? value
            : Between(name, Math.Min(value * (1 - rules.WithoutInterval), value * (1 + rules.WithoutInterval)), Math.Min(most, Math.Max(value * (1 - rules.WithoutInterval), value * (1 + rules.WithoutInterval))), value);
        int Rating(string name, int value, Basis basis) => basis == Basis.Published ? value : Math.Clamp(value + draws.StepOf(Draws.KeyOf(name), (uint)(rules.RatingMoves / 2 * uint.MaxValue)), 0, 3);

        decimal S(string name, decimal value, Basis basis, decimal most = decimal.MaxValue) => Number("rules/scoring/" + name, value, basis, most);
        var (n, c, p, t, f, m, u) = (scoring.NeedMatch, scoring.Correspondence, scoring.PhaseFit, scoring.TissueCost, scoring.Freshness, scoring.MassCost, scoring.SetUp);
        string Rate(LoadingRate r) => words.LoadingRates[(int)r].Id;
        var drawn = scoring with
        {
            NeedMatch = n with
            {
                MaxPoints = S("needMatch/maxPoints", n.MaxPoints, n.Basis),
                FitByRating = [.. n.FitByRating.Select((v, i) => S($"needMatch/fitByRating/{i}", v, n.Basis, 1))],
                NthShare = [.. n.NthShare.Select((v, i) => S($"needMatch/nthShare/{i}", v, n.Basis, 1))],
                MinPoints = S("needMatch/minPoints", n.MinPoints, n.Basis),
            },
            Correspondence = c with
            {
                MaxPoints = S("correspondence/maxPoints", c.MaxPoints, c.Basis),
                SupportShare = S("correspondence/supportShare", c.SupportShare, c.Basis, 1),
                DirectionShare = S("correspondence/directionShare", c.DirectionShare, c.Basis, 1),
                LoadingRateShare = S("correspondence/loadingRateShare", c.LoadingRateShare, c.Basis, 1),
            },
            PhaseFit = p with
            {
                LoadingRate = p.LoadingRate.ToDictionary(x => x.Key, x => (IReadOnlyList<decimal>)[.. x.Value.Select((v, i) => S($"phaseFit/loadingRate/{Rate(x.Key)}/{i}", v, p.Basis))]),
                LoadBand = p.LoadBand.ToDictionary(x => x.Key, x => (IReadOnlyList<decimal>)[.. x.Value.Select((v, i) => S($"phaseFit/loadBand/{words.LoadBands[(int)x.Key].Id}/{i}", v, p.Basis))]),
            },
            TissueCost = t with
            {
                SorePoints = S("tissueCost/sorePoints", t.SorePoints, t.Basis),
                SorePainFloor = S("tissueCost/sorePainFloor", t.SorePainFloor, t.Basis, 1),
                RiskPoints = S("tissueCost/riskPoints", t.RiskPoints, t.Basis),
                RateFactor = t.RateFactor.ToDictionary(x => x.Key, x => S($"tissueCost/rateFactor/{Rate(x.Key)}", x.Value, t.Basis)),
            },
            Freshness = f with
            {
                MaxPoints = S("freshness/maxPoints", f.MaxPoints, f.Basis),
                FadesOverWeeks = S("freshness/fadesOverWeeks", f.FadesOverWeeks, f.Basis),
                BySorenessRisk = [.. f.BySorenessRisk.Select((v, i) => S($"freshness/bySorenessRisk/{i}", v, f.Basis, 1))],
            },
            MassCost = m with { MaxPoints = S("massCost/maxPoints", m.MaxPoints, m.Basis) },
            SetUp = u with { PointsPerMinute = S("setUp/pointsPerMinute", u.PointsPerMinute, u.Basis), MaxPoints = S("setUp/maxPoints", u.MaxPoints, u.Basis) },
        };

        var needs = edition.Knowledge.Needs;
        var knowledge = edition.Knowledge.With(scoring: drawn).WithProfile(eventId, profile => profile with
        {
            Qualities = profile.Qualities.ToDictionary(q => q.Key, q => profile.Basis == Basis.Published ? q.Value
                : Between($"event-profiles/{eventId}/qualities/{q.Key}", Math.Max(0, q.Value - rules.ImportanceStep), Math.Min(10, q.Value + rules.ImportanceStep), q.Value)),
            Correspondence = new Correspondence(
                profile.Correspondence.Support.ToDictionary(x => x.Key, x => Number($"event-profiles/{eventId}/correspondence/support/{words.Supports[(int)x.Key].Id}", x.Value, profile.Basis, 1)),
                profile.Correspondence.Direction.ToDictionary(x => x.Key, x => Number($"event-profiles/{eventId}/correspondence/direction/{x.Key}", x.Value, profile.Basis, 1)),
                profile.Correspondence.LoadingRate.ToDictionary(x => x.Key, x => Number($"event-profiles/{eventId}/correspondence/loadingRate/{Rate(x.Key)}", x.Value, profile.Basis, 1))),
            RegionsAtRisk = [.. profile.RegionsAtRisk.Select(r => r with { Weight = Number($"event-profiles/{eventId}/regionsAtRisk/{r.Region}", r.Weight, r.Basis, 1) })],
            MassCost = Number($"event-profiles/{eventId}/massCost", profile.MassCost, profile.Basis, 1),
        }).WithGroup(group, g => g with
        {
            PhaseEmphasis = g.PhaseEmphasis with
            {
                Default = Number($"event-profiles/{group}/default", g.PhaseEmphasis.Default, g.PhaseEmphasis.Basis),
                Phases = g.PhaseEmphasis.Phases.ToDictionary(x => x.Key, x => x.Key != phase ? x.Value : x.Value.ToDictionary(q => q.Key, q => Number($"event-profiles/{group}/phases/{request.Phase}/{q.Key}", q.Value, g.PhaseEmphasis.Basis))),
            },
        }).With(needs: needs with
        {
            Complaints = [.. needs.Complaints.Select(rule => rule with { Qualities = rule.Qualities.ToDictionary(q => q.Key, q => q.Value * Number($"need/complaint/{rule.Note}/{q.Key}", 1, rule.Basis)) })],
        });

        return TestEdition.Of(edition.Catalogue.Exercises.Select(e => e with
        {
            Qualities = e.Qualities.Select(q => (q.Key, Value: q.Value with { Value = Rating($"{e.Id}/qualities/{q.Key}", q.Value.Value, q.Value.Basis) })).Where(q => q.Value.Value > 0).ToDictionary(q => q.Key, q => q.Value),
            TissueLoad = e.TissueLoad.ToDictionary(l => l.Key, l => l.Value with { Value = Load($"{e.Id}/tissueLoad/{l.Key}", l.Value) }),
            SorenessRisk = Rating($"{e.Id}/sorenessRisk", e.SorenessRisk, e.FactsBasis),
            SetUpMinutes = SetUp($"{e.Id}/setUpMinutes", e.SetUpMinutes, e.FactsBasis),
        }), knowledge);

        // Loads are hundredths, set-up thousandths of a minute.
        decimal Load(string name, TissueLoad load)
        {
            var (low, high) = ((int)decimal.Round(load.Low * 100), (int)decimal.Round(load.High * 100));
            return load.Basis == Basis.Published || low == high ? load.Value : Math.Round(low + ((high - low) * draws.PlaceOf(Draws.KeyOf(name)) / 1000m), MidpointRounding.AwayFromZero) / 100m;
        }

        decimal SetUp(string name, decimal minutes, Basis basis) => basis == Basis.Published || minutes == 0 ? minutes
            : Math.Floor((minutes * (1 - rules.WithoutInterval) * 1000) + (minutes * 2 * rules.WithoutInterval * 1000 * draws.PlaceOf(Draws.KeyOf(name)) / 1000m)) / 1000m;
    }
}
