using Google.OrTools.LinearSolver;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Benchmarks;

/// <summary>A strip as a general-purpose solver sees it: a height and what comes out of it.</summary>
internal sealed record PooledStrip(int Height, int[] Yield)
{
    public string Key { get; } = $"{Height}:{string.Join(' ', Yield)}";
}

/// <summary>
/// A pool of strips for general-purpose solvers, made without the engine: a linear program that asks for better strips until
/// there are none, then the best strips at many worths moved by chance. Sizes are whole eighths of an inch.
/// </summary>
internal sealed class StripPool
{
    private readonly (int Size, int Width, int Height)[] _ways;
    private readonly int[] _columns;
    private readonly int _across;
    private readonly int _longest;
    private readonly int[] _need;
    private readonly Dictionary<string, PooledStrip> _strips = [];

    private StripPool(CuttingRequest request)
    {
        _across = Eighths(request.Stock.Bolt!.UsableWidth);
        _longest = Eighths(request.LongestStrip);
        _need = [.. request.Pieces.Select(piece => piece.Count)];
        _ways = [.. request.Pieces.SelectMany((piece, size) => Ways(size, Eighths(piece.Width), Eighths(piece.Height)))];
        _columns = [.. _ways.Select(way => way.Width).Distinct().Order()];
    }

    public IReadOnlyCollection<PooledStrip> Strips => _strips.Values;

    /// <summary>Worth of a piece of each size when no strip improves the linear program.</summary>
    public double[] Worth { get; private set; } = [];

    /// <summary>Cost of the linear program, in eighths: a bound on every plan.</summary>
    public double Floor { get; private set; }

    /// <summary>A pool with the strips of <paramref name="known"/> in it.</summary>
    /// <param name="request">Bolt only, all pieces may turn, all sizes in eighths.</param>
    /// <param name="known">Strips of a plan to be bettered.</param>
    /// <param name="moves">How often worths are moved by chance.</param>
    public static StripPool Of(CuttingRequest request, IEnumerable<PooledStrip> known, int moves)
    {
        var pool = new StripPool(request);
        pool.SolveRelaxed();
        foreach (var strip in known)
        {
            pool._strips.TryAdd(strip.Key, strip);
        }

        var random = new Random(1);
        for (var move = 0; move < moves; move++)
        {
            var spread = 0.25 * random.NextDouble();
            pool.AddBest([.. pool.Worth.Select(worth => worth * (1 + (spread * (random.NextDouble() - 0.5))))], all: true);
        }

        return pool;
    }

    /// <summary>What a strip wastes at the relaxed worths: never below zero but for rounding.</summary>
    public double WasteOf(PooledStrip strip) => strip.Height - strip.Yield.Select((count, size) => count * Worth[size]).Sum();

    public static PooledStrip From(Strip strip, int sizes)
    {
        var yield = new int[sizes];
        foreach (var column in strip.Columns)
        {
            foreach (var piece in column.Pieces)
            {
                yield[piece.Piece] += piece.Count * column.Repeat;
            }
        }

        return new PooledStrip(Eighths(strip.Height), yield);
    }

    private void SolveRelaxed()
    {
        foreach (var way in _ways)
        {
            var yield = new int[_need.Length];
            yield[way.Size] = _across / way.Width;
            var strip = new PooledStrip(way.Height, yield);
            _strips.TryAdd(strip.Key, strip);
        }

        bool found;
        do
        {
            using var solver = Solver.CreateSolver("GLOP");
            var rows = _need.Select(need => solver.MakeConstraint(need, double.PositiveInfinity)).ToArray();
            foreach (var strip in Strips)
            {
                var use = solver.MakeNumVar(0, double.PositiveInfinity, string.Empty);
                solver.Objective().SetCoefficient(use, strip.Height);
                for (var size = 0; size < rows.Length; size++)
                {
                    rows[size].SetCoefficient(use, strip.Yield[size]);
                }
            }

            solver.Objective().SetMinimization();
            solver.Solve();
            Floor = solver.Objective().Value();
            Worth = [.. rows.Select(row => row.DualValue())];
            found = AddBest(Worth, all: false);
        }
        while (found);
    }

    /// <summary>Adds the best strip of each height, or of each height that pays.</summary>
    private bool AddBest(double[] worth, bool all)
    {
        var stack = new double[_columns.Length, _longest + 1];
        var way = new int[_columns.Length, _longest + 1];
        for (var column = 0; column < _columns.Length; column++)
        {
            for (var height = 1; height <= _longest; height++)
            {
                (stack[column, height], way[column, height]) = (stack[column, height - 1], -1);
                for (var index = 0; index < _ways.Length; index++)
                {
                    if (_ways[index].Width <= _columns[column] && _ways[index].Height <= height
                        && stack[column, height - _ways[index].Height] + worth[_ways[index].Size] is var value && value > stack[column, height])
                    {
                        (stack[column, height], way[column, height]) = (value, index);
                    }
                }
            }
        }

        var found = false;
        var row = new double[_across + 1];
        var choice = new int[_across + 1];
        for (var height = 1; height <= _longest; height++)
        {
            for (var at = 1; at <= _across; at++)
            {
                (row[at], choice[at]) = (row[at - 1], -1);
                for (var column = 0; column < _columns.Length; column++)
                {
                    if (_columns[column] <= at && row[at - _columns[column]] + stack[column, height] is var value && value > row[at])
                    {
                        (row[at], choice[at]) = (value, column);
                    }
                }
            }

            if (all || row[_across] > height + 1e-7)
            {
                found |= Add(height, choice, way);
            }
        }

        return found;
    }

    private bool Add(int height, int[] choice, int[,] way)
    {
        var yield = new int[_need.Length];
        var tallest = 0;
        for (var at = _across; at > 0;)
        {
            if (choice[at] < 0)
            {
                at--;
                continue;
            }

            var left = height;
            while (left > 0)
            {
                var index = way[choice[at], left];
                left -= index < 0 ? 1 : _ways[index].Height;
                if (index >= 0)
                {
                    yield[_ways[index].Size]++;
                    tallest = Math.Max(tallest, HeightOf(choice[at], height, way));
                }
            }

            at -= _columns[choice[at]];
        }

        var strip = new PooledStrip(tallest, yield);
        return yield.Any(count => count > 0) && _strips.TryAdd(strip.Key, strip);
    }

    private int HeightOf(int column, int height, int[,] way)
    {
        var used = 0;
        for (var left = height; left > 0;)
        {
            var index = way[column, left];
            left -= index < 0 ? 1 : _ways[index].Height;
            used += index < 0 ? 0 : _ways[index].Height;
        }

        return used;
    }

    private IEnumerable<(int Size, int Width, int Height)> Ways(int size, int width, int height)
    {
        if (width <= _across && height <= _longest)
        {
            yield return (size, width, height);
        }

        if (width != height && height <= _across && width <= _longest)
        {
            yield return (size, height, width);
        }
    }

    private static int Eighths(Length length) => checked((int)(length.Ticks / (Length.TicksPerInch / 8)));
}
