using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Betters the work of a plan within a length: a few recipes are taken out, whole or in part, and their pieces are cut anew by
/// recipes that stand in the plan already, by simple strips and by good strips of the relaxed solution, clipped where they
/// would give too much. What takes no more strokes, and among equals no more recipes, is kept.
/// </summary>
internal sealed class WorkSearch
{
    private const int RoundsPerSecond = 600;
    private const int MostTakenOut = 3;

    /// <summary>Strokes come first; recipes are counted in parts of one.</summary>
    private const long Stroke = 1_000;

    /// <summary>Inches of cloth that a stroke may weigh at most when the next strip is chosen.</summary>
    private const double MostPerStroke = 1.5;

    private const double Spread = 0.3;

    /// <summary>Strokes fall in steps of the number of layers; over this many repeats the steps are evened out.</summary>
    private const int ManyRepeats = 60;
    private const double Hair = 1e-9;

    private readonly CuttingModel _model;
    private readonly GroundTables _tables;
    private readonly int _ground;
    private readonly double[] _worth;
    private readonly int[] _need;
    private readonly double _room;
    private readonly Random _random = new(1_882);
    private readonly Dictionary<Layout, Strip> _written = [];
    private readonly List<(Layout Layout, double Strokes)> _pool;

    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Worths and tables.</param>
    /// <param name="ground">The bolt.</param>
    /// <param name="pool">Strips to choose from.</param>
    /// <param name="need">Pieces that the bolt must give, by size.</param>
    /// <param name="room">Washed length that is bought anyway.</param>
    public WorkSearch(CuttingModel model, Relaxation relaxation, int ground, IEnumerable<Layout> pool, int[] need, Length room)
    {
        (_model, _tables, _ground, _need) = (model, relaxation.Tables[ground], ground, need);
        _room = (double)room.Ticks / Length.TicksPerInch;
        _worth = [.. relaxation.Worth.Select((worth, size) => (worth + relaxation.AreaWorth[size]) / 2)];
        _pool = [.. pool.Select(layout => (layout, (double)StrokesOf(layout, ManyRepeats) / ManyRepeats))];
    }

    /// <summary>The plan that is easiest to cut, as far as found; never harder than the one to begin with.</summary>
    public List<LayoutUse> Better(IEnumerable<LayoutUse> start, double seconds, CancellationToken clock)
    {
        var best = Merge(start);
        var work = WorkOf(best);
        var rounds = (int)(RoundsPerSecond * seconds);
        for (var round = 0; round < rounds && !clock.IsCancellationRequested; round++)
        {
            var rest = TakeOut(best);
            if (Refill(rest) is { } tried && WorkOf(tried) is var now && now <= work)
            {
                (best, work) = (tried, now);
            }
        }

        return best;
    }

    /// <summary>Strokes of all repeats of a layout.</summary>
    private long StrokesOf(Layout layout, int times)
    {
        if (!_written.TryGetValue(layout, out var strip))
        {
            strip = SimpleLayouts.Write(layout.Strips[0], _tables, _model);
            _written.Add(layout, strip);
        }

        return Strokes.OfBoltStrip(strip with { Repeat = times }, _model.Request.Layers);
    }

    /// <summary>Strokes in thousands, and the number of recipes.</summary>
    public long WorkOf(List<LayoutUse> uses) => uses.Sum(use => (Stroke * StrokesOf(use.Layout, use.Times)) + 1);

    /// <summary>The plan without a few recipes, those of few repeats more often.</summary>
    private List<LayoutUse> TakeOut(List<LayoutUse> plan)
    {
        var order = plan.Select((use, index) => (Index: index, Key: _random.NextDouble() / Math.Sqrt(use.Times))).OrderByDescending(pair => pair.Key).ToList();
        var rest = new List<LayoutUse>(plan);
        foreach (var (index, _) in order.Take(_random.Next(1, MostTakenOut + 1)))
        {
            var times = plan[index].Times;
            rest[index] = plan[index] with { Times = times > 1 && _random.Next(2) == 0 ? times - _random.Next(1, times) : 0 };
        }

        rest.RemoveAll(use => use.Times == 0);
        return rest;
    }

    /// <summary>The plan with what it lacks, or null where the room does not suffice.</summary>
    private List<LayoutUse>? Refill(List<LayoutUse> rest)
    {
        var left = _need.ToArray();
        var room = _room;
        foreach (var use in rest)
        {
            Take(left, use);
            room -= use.Layout.Cost * use.Times;
        }

        var perStroke = MostPerStroke * _random.NextDouble() * _random.NextDouble();
        var uses = new List<LayoutUse>(rest);
        var candidates = _pool.Concat(rest.Select(use => (use.Layout, (double)StrokesOf(use.Layout, ManyRepeats) / ManyRepeats))).ToList();
        while (left.Any(count => count > 0))
        {
            var (layout, score) = ((Layout?)null, 0.0);
            foreach (var (candidate, strokes) in candidates)
            {
                var gain = 0.0;
                for (var size = 0; size < left.Length; size++)
                {
                    gain += _worth[size] * Math.Max(0, Math.Min(candidate.Yield[size], left[size]));
                }

                if (gain > 0 && candidate.Cost <= room + Hair)
                {
                    var rated = gain / (candidate.Cost + (perStroke * strokes)) * (1 + (Spread * _random.NextDouble()));
                    (layout, score) = rated > score ? (candidate, rated) : (layout, score);
                }
            }

            if (layout is null)
            {
                return null;
            }

            var times = TimesWithin(layout, left);
            var next = times > 0 ? new LayoutUse(layout, Math.Min(times, (int)((room + Hair) / layout.Cost))) : new LayoutUse(Clip(layout, left), 1);
            Take(left, next);
            room -= next.Layout.Cost * next.Times;
            uses.Add(next);
        }

        return room >= -Hair ? Merge(uses) : null;
    }

    private static int TimesWithin(Layout layout, int[] left)
    {
        var times = int.MaxValue;
        for (var size = 0; size < left.Length; size++)
        {
            times = layout.Yield[size] > 0 ? Math.Min(times, Math.Max(0, left[size]) / layout.Yield[size]) : times;
        }

        return times;
    }

    /// <summary>The strip without what is not wanted.</summary>
    private Layout Clip(Layout layout, int[] left)
    {
        var still = left.ToArray();
        var stacks = new List<int[]>();
        foreach (var stack in layout.Strips[0].Stacks)
        {
            for (var repeat = 0; repeat < stack.Repeat; repeat++)
            {
                stacks.Add([.. stack.Facings.Where(facing => still[_tables.Facings[facing].Size]-- > 0)]);
            }
        }

        // Without the tall piece that made it one, a strip may be higher than the ruler: then it is cut whole.
        var strip = _tables.Make(stacks);
        var isTooHigh = strip.Height > _tables.Longest && !strip.Stacks.Any(stack => stack.Facings.Any(facing => _tables.Facings[facing].Height == strip.Height));
        return isTooHigh ? layout : Layout.OfStrip(_ground, strip, (double)strip.Height / Length.TicksPerInch);
    }

    private static void Take(int[] left, LayoutUse use)
    {
        for (var size = 0; size < left.Length; size++)
        {
            left[size] -= use.Layout.Yield[size] * use.Times;
        }
    }

    private static List<LayoutUse> Merge(IEnumerable<LayoutUse> uses) =>
        [.. uses.GroupBy(use => use.Layout).Select(alike => new LayoutUse(alike.Key, alike.Sum(use => use.Times)))];
}
