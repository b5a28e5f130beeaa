namespace KittingBee.Planning.Cutting;

/// <summary>
/// Betters a plan by taking a few of its layouts out, the wasteful ones more often, and planning their pieces anew with
/// worths moved a little by chance. The search wanders among plans that cost little more than the best one, and ever less more
/// as its work runs out.
/// </summary>
internal sealed class Improvement(CuttingModel model, Relaxation relaxation, RemainderSearch search)
{
    private const int MostTakenOut = 4;
    private const double ShareOfHeights = 0.2;
    private const double MostSpread = 0.3;

    /// <summary>How much dearer than the best a plan may be at first, as a share of what the best is above the bound.</summary>
    private const double MostAstray = 0.3;
    private const double Hair = 1e-6;

    /// <summary>
    /// Sizes that the relaxed solution gets for nothing, because they fit where there is waste anyway, are worth nothing to
    /// it; a share of their area's worth sees to it that they are taken along.
    /// </summary>
    private const double LeastOfArea = 0.02;
    private const double MoreOfArea = 0.4;

    private readonly Random _random = new(20_111);

    /// <summary>Worths for a first plan.</summary>
    public static double[] FirstWorths(Relaxation relaxation) =>
        [.. relaxation.Worth.Select((worth, size) => (worth * (1 - LeastOfArea)) + (relaxation.AreaWorth[size] * LeastOfArea))];

    /// <summary>The bettered plan of a remainder.</summary>
    /// <param name="remainder">What is to be cut.</param>
    /// <param name="start">A plan of it.</param>
    /// <param name="rounds">Tries at most.</param>
    /// <param name="steps">Steps of the tables at most.</param>
    /// <param name="isEnough">True for a cost that needs no bettering.</param>
    /// <param name="clock">Ends the search early.</param>
    public List<LayoutUse> Better(Remainder remainder, List<LayoutUse> start, int rounds, long steps, Func<double, bool> isEnough, CancellationToken clock)
    {
        var now = start.SelectMany(use => Enumerable.Repeat(use.Layout, use.Times)).ToList();
        var cost = now.Sum(layout => layout.Cost);
        var (best, least) = (now, cost);
        var (begin, end) = (search.Steps, search.Steps + steps);
        var loss = cost - Math.Max(0, search.LeastCost(remainder));
        for (var round = 0; round < rounds && now.Count > 1 && search.Steps < end && !isEnough(least) && !clock.IsCancellationRequested; round++)
        {
            var taken = Choose(now);
            var part = remainder.Copy();
            for (var index = 0; index < now.Count; index++)
            {
                if (!taken.Contains(index))
                {
                    part.Take(now[index], 1);
                }
            }

            var before = taken.Sum(index => now[index].Cost);
            search.LookHereAndThere(_random, ShareOfHeights);
            var left = Math.Min(1 - ((double)round / rounds), 1 - ((double)(search.Steps - begin) / steps));
            var astray = MostAstray * loss * left * _random.NextDouble();
            if (search.Plan(part, MovedWorths(), before + Math.Min(astray, least + astray - cost) + Hair, clock) is { } made)
            {
                cost += made.Sum(use => use.Layout.Cost * use.Times) - before;
                now = [.. now.Where((_, index) => !taken.Contains(index)), .. made.SelectMany(use => Enumerable.Repeat(use.Layout, use.Times))];
                (best, least) = cost < least - Hair ? (now, cost) : (best, least);
            }
        }

        search.LookEverywhere();
        return [.. best.GroupBy(layout => layout.Key).Select(group => new LayoutUse(group.First(), group.Count()))];
    }

    private HashSet<int> Choose(List<Layout> layouts)
    {
        var count = Math.Min(layouts.Count, _random.Next(2, MostTakenOut + 1));
        return [.. layouts
            .Select((layout, index) => (Index: index, Key: _random.NextDouble() * Math.Max(0.05, 1.05 - BoundedLayouts.RatioOf(layout, relaxation.Worth))))
            .OrderByDescending(pair => pair.Key)
            .Take(count)
            .Select(pair => pair.Index)];
    }

    private double[] MovedWorths()
    {
        var worth = new double[model.Sizes.Count];
        var spread = MostSpread * _random.NextDouble();
        var share = LeastOfArea + (MoreOfArea * _random.NextDouble() * _random.NextDouble());
        for (var size = 0; size < worth.Length; size++)
        {
            worth[size] = ((relaxation.Worth[size] * (1 - share)) + (relaxation.AreaWorth[size] * share)) * (1 + (spread * (_random.NextDouble() - 0.5)));
        }

        return worth;
    }
}
