namespace KittingBee.Planning.Cutting;

/// <summary>Plans a remainder strip by strip, the one worth most for its cost next.</summary>
internal sealed class RemainderSearch
{
    private readonly CuttingModel _model;
    private readonly Relaxation _relaxation;
    private readonly BoundedLayouts[] _bounded;

    public RemainderSearch(CuttingModel model, Relaxation relaxation)
    {
        _model = model;
        _relaxation = relaxation;
        _bounded = [.. relaxation.Tables.Select((tables, ground) => new BoundedLayouts(ground, tables, relaxation.SheetCosts[ground]))];
    }

    /// <summary>Every layout that was part of a plan or of a try, once each.</summary>
    public Dictionary<string, Layout> Seen { get; } = [];

    public long Steps => _bounded.Sum(one => one.Steps);

    /// <summary>A plan of what is wanted, or null where the cloth, the cost that it may have or the clock does not suffice.</summary>
    public List<LayoutUse>? Plan(Remainder remainder, double[] worth, double mostCost, CancellationToken clock)
    {
        var left = remainder.Copy();
        var uses = new List<LayoutUse>();
        var cost = 0.0;
        while (!left.IsMet)
        {
            if (clock.IsCancellationRequested)
            {
                // A try is given up; the plan that there must be is finished somehow.
                return mostCost == double.PositiveInfinity && HastyPlan.Finish(_model, _relaxation, left, uses) ? uses : null;
            }

            if (cost + LeastCost(left) > mostCost || Best(left, worth, clock) is not { } best)
            {
                return null;
            }

            Seen.TryAdd(best.Key, best);
            var times = Math.Max(1, left.TimesWithin(best));
            uses.Add(new LayoutUse(best, times));
            left.Take(best, times);
            cost += best.Cost * times;
        }

        return cost <= mostCost ? uses : null;
    }

    /// <summary>Leaves out heights by chance until <see cref="LookEverywhere"/>: quicker, and another plan each time.</summary>
    public void LookHereAndThere(Random random, double keep)
    {
        foreach (var one in _bounded)
        {
            one.SkipSome(random, keep);
        }
    }

    public void LookEverywhere()
    {
        foreach (var one in _bounded)
        {
            one.Skip = null;
        }
    }

    /// <summary>A bound on the cost of what is left, from the worths of the relaxed solution.</summary>
    public double LeastCost(Remainder left)
    {
        var sum = 0.0;
        for (var size = 0; size < left.Need.Length; size++)
        {
            sum += Math.Max(0, left.Need[size]) * _relaxation.Worth[size];
        }

        foreach (var (ground, scarcity) in _relaxation.Scarcity)
        {
            sum -= scarcity * left.Stock[ground] / (_model.Grounds[ground].IsBolt ? Measures.Length.TicksPerInch : 1);
        }

        return sum - 1e-6;
    }

    private Layout? Best(Remainder left, double[] worth, CancellationToken clock)
    {
        Layout? best = null;
        var ratio = 0.0;
        for (var ground = 0; ground < _bounded.Length; ground++)
        {
            foreach (var layout in _bounded[ground].Find(worth, left.Need, ratio, left.Stock[ground], true, clock))
            {
                (best, ratio) = (layout, BoundedLayouts.RatioOf(layout, worth));
            }
        }

        return best;
    }
}
