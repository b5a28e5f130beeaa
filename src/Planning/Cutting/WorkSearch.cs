using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Betters the work of a plan within a length: a few recipes are taken out, whole or in part, and their pieces are cut anew by
/// recipes that stand in the plan already, by simple strips and by good strips of the relaxed solution, clipped where they
/// would give too much. What takes no more strokes, and among equals no more recipes, is kept. How many rows of a strip are cut
/// at once is settled for each number of repeats by <see cref="WorkChoice"/>.
/// </summary>
internal sealed class WorkSearch
{
    private const int RoundsPerSecond = 2_000;
    private const int MostTakenOut = 4;

    /// <summary>Inches of cloth that a stroke may weigh at most when the next strip is chosen.</summary>
    private const double MostPerStroke = 1.5;

    private const double Spread = 0.3;

    private readonly CuttingModel _model;
    private readonly GroundTables _tables;
    private readonly double[] _worth;
    private readonly int[] _need;
    private readonly long _room;
    private readonly Random _random = new(1_882);
    private readonly Dictionary<Layout, WorkChoice> _choices = new(ReferenceEqualityComparer.Instance);
    private readonly List<WorkChoice> _pool;

    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Worths and tables.</param>
    /// <param name="ground">The bolt.</param>
    /// <param name="pool">Strips to choose from.</param>
    /// <param name="need">Pieces that the bolt must give, by size.</param>
    /// <param name="room">Washed length that is bought anyway.</param>
    public WorkSearch(CuttingModel model, Relaxation relaxation, int ground, IEnumerable<Layout> pool, int[] need, Length room)
    {
        (_model, _tables, _need, _room) = (model, relaxation.Tables[ground], need, room.Ticks);
        _worth = [.. relaxation.Worth.Select((worth, size) => (worth + relaxation.AreaWorth[size]) / 2)];
        _pool = [.. pool.Select(ChoiceOf)];
    }

    /// <summary>The plan that is easiest to cut, as far as found; never harder than the one to begin with.</summary>
    public List<LayoutUse> Better(IEnumerable<LayoutUse> start, double seconds, CancellationToken clock)
    {
        var best = Merge(start.Select(use => (ChoiceOf(use.Layout), use.Times)));
        var work = WorkOf(best);
        var rounds = (int)(RoundsPerSecond * seconds);
        for (var round = 0; round < rounds && !clock.IsCancellationRequested; round++)
        {
            if (Refill(TakeOut(best)) is { } tried && WorkOf(tried) is var now && now <= work)
            {
                (best, work) = (tried, now);
            }
        }

        return [.. best.SelectMany(use => use.Choice.Write(use.Times))];
    }

    private static long WorkOf(List<(WorkChoice Choice, int Times)> uses) => uses.Sum(use => use.Choice.WorkOf(use.Times));

    private WorkChoice ChoiceOf(Layout layout)
    {
        if (!_choices.TryGetValue(layout, out var choice))
        {
            choice = new WorkChoice(_model, _tables, layout);
            _choices.Add(layout, choice);
        }

        return choice;
    }

    /// <summary>The plan without a few recipes, those of few repeats more often.</summary>
    private List<(WorkChoice Choice, int Times)> TakeOut(List<(WorkChoice Choice, int Times)> plan)
    {
        var rest = new List<(WorkChoice Choice, int Times)>(plan);
        var keys = new double[plan.Count];
        for (var index = 0; index < keys.Length; index++)
        {
            keys[index] = _random.NextDouble() / Math.Sqrt(plan[index].Times);
        }

        for (var left = Math.Min(plan.Count, _random.Next(1, MostTakenOut + 1)); left > 0; left--)
        {
            var index = Array.IndexOf(keys, keys.Max());
            keys[index] = -1;
            var times = plan[index].Times;
            rest[index] = (plan[index].Choice, times > 1 && _random.Next(2) == 0 ? times - _random.Next(1, times) : 0);
        }

        rest.RemoveAll(use => use.Times == 0);
        return rest;
    }

    /// <summary>The plan with what it lacks, or null where the room does not suffice.</summary>
    private List<(WorkChoice Choice, int Times)>? Refill(List<(WorkChoice Choice, int Times)> rest)
    {
        var left = _need.ToArray();
        var room = _room;
        foreach (var (choice, times) in rest)
        {
            choice.Take(left, times);
            room -= choice.Layout.Height * times;
        }

        var perStroke = MostPerStroke * _random.NextDouble() * _random.NextDouble();
        WorkChoice[] candidates = [.. _pool, .. rest.Select(use => use.Choice)];
        var uses = new List<(WorkChoice Choice, int Times)>(rest);
        while (Array.Exists(left, count => count > 0))
        {
            var (choice, score) = ((WorkChoice?)null, 0.0);
            foreach (var candidate in candidates)
            {
                (choice, score) = Rated(candidate, left, room, perStroke) is var rated && rated > score ? (candidate, rated) : (choice, score);
            }

            if (choice is null)
            {
                return null;
            }

            var times = choice.TimesWithin(left);
            var next = times > 0 ? (Choice: choice, Times: (int)Math.Min(times, room / choice.Layout.Height)) : (Choice: choice.Clip(left), Times: 1);
            next.Choice.Take(left, next.Times);
            room -= next.Choice.Layout.Height * next.Times;
            uses.Add(next);
        }

        return room >= 0 ? Merge(uses) : null;
    }

    private double Rated(WorkChoice candidate, int[] left, long room, double perStroke)
    {
        if (candidate.Layout.Height > room)
        {
            return 0;
        }

        var gain = 0.0;
        var sizes = candidate.Sizes;
        var counts = candidate.Counts;
        for (var index = 0; index < sizes.Length; index++)
        {
            var wanted = left[sizes[index]];
            if (wanted > 0)
            {
                gain += _worth[sizes[index]] * Math.Min(counts[index], wanted);
            }
        }

        return gain <= 0 ? 0 : gain / (candidate.Layout.Cost + (perStroke * candidate.Even)) * (1 + (Spread * _random.NextDouble()));
    }

    private static List<(WorkChoice Choice, int Times)> Merge(IEnumerable<(WorkChoice Choice, int Times)> uses)
    {
        var merged = new List<(WorkChoice Choice, int Times)>();
        foreach (var (choice, times) in uses)
        {
            var place = merged.FindIndex(other => other.Choice == choice);
            if (place < 0)
            {
                merged.Add((choice, times));
            }
            else
            {
                merged[place] = (choice, merged[place].Times + times);
            }
        }

        return merged;
    }
}
