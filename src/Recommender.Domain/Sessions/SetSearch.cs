namespace Recommender.Domain.Sessions;

/// <summary>
/// Branch and bound to the best set. The layers and the limits are priced (Lagrangian relaxation); under fixed prices a set is worth a constant
/// plus the prices of its items, so the best few items bound every set below. Any prices bound, so they may be found roughly; bounds are whole numbers.
/// </summary>
public sealed class SetSearch
{
    private readonly SetTable table;
    private readonly SetState state;
    private readonly int nodeLimit;
    private readonly int most;
    private readonly SetLevel?[] levels;
    private readonly int[] stamps; // [family]
    private int stamp;
    private int best;
    private int[]? bestItems;
    private int nodes;
    private bool stopped;

    private SetSearch(SetProblem problem, int nodeLimit, int floor)
    {
        table = new SetTable(problem);
        state = new SetState(table);
        this.nodeLimit = nodeLimit;
        best = floor;
        most = Math.Min(problem.Most, problem.Count);
        stamps = new int[table.FamilyCount];
        levels = new SetLevel?[most + 1];
    }

    /// <summary>The best set.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="nodeLimit">Sets looked at, at most.</param>
    public static SetSolution Solve(SetProblem problem, int nodeLimit) => Solve(problem, nodeLimit, int.MinValue / 2, null);

    /// <summary>The best set that has more points than a floor.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="nodeLimit">Sets looked at, at most.</param>
    /// <param name="floor">Only sets with more points than this are looked for.</param>
    /// <param name="prices">Prices of a problem alike to begin with, of as many layers and rows; null when there are none.</param>
    internal static SetSolution Solve(SetProblem problem, int nodeLimit, int floor, SetPrices? prices) => new SetSearch(problem, nodeLimit, floor).Run(prices);

    private SetSolution Run(SetPrices? known)
    {
        if (SetGreedy.Solve(table) is { } start && table.Problem.Value(start) is var value && value > best)
        {
            (best, bestItems) = (value, start);
        }

        var root = Level(0);
        for (var i = 0; i < table.Problem.Count; i++)
        {
            if (state.Fits(i))
            {
                root.Items[root.Count++] = i;
            }
        }

        var bound = best;
        if (most > 0 && root.Count > 0 && state.CanHold())
        {
            if (known is not null)
            {
                root.Prices.CopyFrom(known);
            }
            else
            {
                root.Prices.Start(table);
            }

            bound = Price(root, known is null ? SetPrices.RootRounds : SetPrices.KnownRounds);
            Descend(root);
        }

        return new SetSolution(bestItems, bestItems is null ? 0 : best, stopped ? Math.Max(bound, best) : best, !stopped, nodes) { RootBound = Math.Max(bound, best), RootItems = root.Count, Prices = root.Prices };
    }

    /// <summary>Every set that adds items of this level to the set under way, best prices first.</summary>
    private void Descend(SetLevel level)
    {
        var left = most - state.Count;
        for (var j = 0; j < level.Count && !stopped; j++)
        {
            if (BoundFrom(level, j, left, level.Constant) <= best)
            {
                return;
            }

            var item = level.Items[j];
            if (!state.Fits(item))
            {
                continue;
            }

            if (++nodes > nodeLimit)
            {
                stopped = true;
                return;
            }

            state.Add(item);
            if (state.Value > best && state.Holds())
            {
                (best, bestItems) = (state.Value, state.Items);
            }

            if (left > 1 && state.CanHold())
            {
                Below(level, j, left - 1);
            }

            state.RemoveAt(state.Count - 1);
        }
    }

    /// <summary>Sets that go on from the item at a place of a level, which has just been added.</summary>
    private void Below(SetLevel level, int place, int left)
    {
        var constant = level.Constant + level.Values[place];
        if (left == 1)
        {
            Last(level, place + 1, constant);
            return;
        }

        var next = Level(state.Count);
        next.Constant = constant;
        next.Count = 0;
        var least = SetPrices.LeastAbove(best) - constant - Top(level, place + 1, left - 1);
        for (var k = place + 1; k < level.Count && level.Values[k] >= least; k++)
        {
            if (state.Fits(level.Items[k]))
            {
                next.Values[next.Count] = level.Values[k];
                next.Items[next.Count++] = level.Items[k];
            }
        }

        next.Prices.CopyFrom(level.Prices);
        if (Cut(next, left) <= best)
        {
            return;
        }

        if (next.Count > SetPrices.WorthPricing && Price(next, SetPrices.RoundsAt(state.Count)) <= best)
        {
            return;
        }

        Descend(next);
    }

    /// <summary>The last item of a set: what it brings is known, its price only tells when to stop.</summary>
    private void Last(SetLevel level, int from, long constant)
    {
        for (var k = from; k < level.Count; k++)
        {
            if (SetPrices.Floor(constant + level.Values[k]) <= best)
            {
                return;
            }

            var item = level.Items[k];
            if (state.Value + state.Gain(item) > best && state.Fits(item))
            {
                nodes++;
                state.Add(item);
                if (state.Holds())
                {
                    (best, bestItems) = (state.Value, state.Items);
                }

                state.RemoveAt(state.Count - 1);
            }
        }
    }

    /// <summary>No set that adds items from this place on has more points: constant and the best prices, one a family.</summary>
    private int BoundFrom(SetLevel level, int from, int left, long constant) => SetPrices.Floor(constant + Top(level, from, left));

    /// <summary>Sum of the best prices from a place on, one a family, none below 0.</summary>
    private long Top(SetLevel level, int from, int left)
    {
        stamp++;
        var sum = 0L;
        for (var k = from; k < level.Count && left > 0; k++)
        {
            var value = level.Values[k];
            if (value <= 0)
            {
                break;
            }

            ref var seen = ref stamps[table.Problem.Families[level.Items[k]]];
            if (seen != stamp)
            {
                seen = stamp;
                sum += value;
                left--;
            }
        }

        return sum;
    }

    /// <summary>Leaves out what no better set can hold: with the best others beside it, its price does not reach. Gives the bound of the level.</summary>
    private int Cut(SetLevel level, int left)
    {
        var others = level.Constant + Top(level, 0, left - 1);
        while (level.Count > 0 && SetPrices.Floor(others + level.Values[level.Count - 1]) <= best)
        {
            level.Count--;
        }

        return BoundFrom(level, 0, left, level.Constant);
    }

    /// <summary>Finds better prices for what is left, sorts the level by them, cuts it and gives the bound.</summary>
    private int Price(SetLevel level, int rounds)
    {
        var left = most - state.Count;
        var bound = int.MaxValue;
        while (rounds > 0 && level.Count > 0)
        {
            var some = Math.Min(rounds, SetPrices.RoundsBetweenCuts);
            rounds -= some;
            level.Prices.Improve(table, state, level.Items.AsSpan(0, level.Count), left, best, some);
            level.Constant = level.Prices.Constant(table, state);
            for (var k = 0; k < level.Count; k++)
            {
                level.Values[k] = level.Prices.ValueOf(table, level.Items[k]);
            }

            level.Sort();
            bound = Cut(level, left);
            if (bound <= best)
            {
                break;
            }
        }

        return bound;
    }

    private SetLevel Level(int at) => levels[at] ??= new SetLevel(table);
}
