using Recommender.Domain.Catalogue;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Selection;

/// <summary>
/// Takes picks from a ranking: one a family unless more are asked for, something for each thing the coach asked for, what the stage of a sore region names, what it keeps in the programme,
/// spread over movement patterns and over what they are for, nothing that serves no need.
/// </summary>
public sealed class RankingSelector
{
    private readonly Ranking ranking;
    private readonly ExerciseCatalogue catalogue;
    private readonly NeedTable needs;
    private readonly Situation situation;
    private readonly int least;
    private readonly Dictionary<int, int> families = [];
    private readonly int[] purposes;
    private readonly int[] patterns;
    private readonly List<int> picks = [];

    private RankingSelector(Ranking ranking, NeedTable needs, Situation situation)
    {
        this.ranking = ranking;
        this.needs = needs;
        this.situation = situation;
        catalogue = situation.Catalogue;
        least = Points.Of(situation.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;
        purposes = new int[catalogue.Vocabulary.Qualities.Count];
        patterns = new int[catalogue.Vocabulary.Patterns.Count];
    }

    /// <summary>Chooses ranks.</summary>
    /// <param name="ranking">Eligible exercises by score.</param>
    /// <param name="needs">Gives what an exercise is for.</param>
    /// <param name="situation">Count, asks and rules.</param>
    /// <returns>Ranks, ascending; fewer than asked for when no more families serve a need.</returns>
    /// <remarks>The spread only puts off: what it held back fills up when nothing else is left. So a longer list never lacks an eligible family.</remarks>
    public static IReadOnlyList<int> Pick(Ranking ranking, NeedTable needs, Situation situation)
    {
        var selector = new RankingSelector(ranking, needs, situation);
        selector.SeatAsks();
        selector.SeatTreatments();
        selector.SeatProtective();
        selector.Fill(spread: true);
        selector.Fill(spread: false);
        selector.picks.Sort();
        return selector.picks;
    }

    /// <summary>For each ask, the best ranked exercise that is strong for it, unless one already seated is.</summary>
    private void SeatAsks()
    {
        var seats = situation.Knowledge.Scoring.Spread.Seats(situation.Count);
        foreach (var ask in situation.Asks)
        {
            if (picks.Count >= seats)
            {
                return;
            }

            Seat(rank => Answers(rank, ask));
        }
    }

    /// <summary>For each stage that a sore region is in, the best ranked of the exercises that the stage is done with, unless one already seated is; the best of all keeps its place.</summary>
    private void SeatTreatments()
    {
        foreach (var complaint in situation.Complaints)
        {
            foreach (var sore in complaint.Stands)
            {
                if (sore is { FollowsProgramme: true, Stage.Treatment: { Count: > 0 } treatment } && LeavesTheBest)
                {
                    Seat(rank => Treats(rank, treatment));
                }
            }
        }
    }

    /// <summary>For each rule of what a sore or earlier hurt region keeps in the programme, the best ranked, unless one already seated is; the best of all keeps its place.</summary>
    private void SeatProtective()
    {
        foreach (var rule in situation.Protective)
        {
            if (LeavesTheBest)
            {
                Seat(rank => Treats(rank, rule.Exercises));
            }
        }
    }

    /// <summary>Whether one more seat still leaves one for the best of all.</summary>
    private bool LeavesTheBest => situation.Count - picks.Count > 1;

    /// <summary>Takes the best ranked that serves, unless one already seated does.</summary>
    private void Seat(Predicate<int> serves)
    {
        if (picks.Exists(serves))
        {
            return;
        }

        for (var rank = 0; rank < ranking.Count; rank++)
        {
            if (serves(rank) && Free(rank))
            {
                Take(rank);
                return;
            }
        }
    }

    private bool Treats(int rank, IReadOnlyList<string> treatment) => treatment.Contains(catalogue.Exercises[ranking.Positions[rank]].Id, StringComparer.Ordinal);

    private void Fill(bool spread)
    {
        var rules = situation.Knowledge.Scoring.Spread;
        var perPattern = spread ? rules.PerPattern(situation.Count) : int.MaxValue;
        var perPurpose = spread ? rules.PerPurpose(situation.Count) : int.MaxValue;
        for (var rank = 0; rank < ranking.Count && picks.Count < situation.Count; rank++)
        {
            var position = ranking.Positions[rank];
            if (Free(rank) && patterns[catalogue.Patterns[position]] < perPattern && purposes[needs.PurposeOf(catalogue, position)] < perPurpose)
            {
                Take(rank);
            }
        }
    }

    private bool Free(int rank) => ranking.NeedPoints[rank] >= least && families.GetValueOrDefault(catalogue.Families[ranking.Positions[rank]]) < situation.PerFamily && !picks.Contains(rank);

    private bool Answers(int rank, IReadOnlyList<int> ask) => catalogue.IsStrongForAny(ranking.Positions[rank], ask);

    private void Take(int rank)
    {
        var position = ranking.Positions[rank];
        families[catalogue.Families[position]] = families.GetValueOrDefault(catalogue.Families[position]) + 1;
        patterns[catalogue.Patterns[position]]++;
        purposes[needs.PurposeOf(catalogue, position)]++;
        picks.Add(rank);
    }
}
