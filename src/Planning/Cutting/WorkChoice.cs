using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// A strip that the search for less work may cut. Its repeats are put one above another, as many rows to a strip as the ruler
/// allows and as takes least work: the cloth and the pieces stay the same, and there are fewer strips to cut off and to sub-cut.
/// </summary>
internal sealed class WorkChoice
{
    /// <summary>Strokes fall in steps of the number of layers; over this many repeats the steps are evened out.</summary>
    private const int ManyRepeats = 60;

    /// <summary>Strokes come first; recipes are counted in parts of one.</summary>
    private const long Stroke = 1_000;

    private readonly GroundTables _tables;
    private readonly CuttingModel _model;
    private readonly Dictionary<int, (long Work, int Rows)> _best = [];
    private readonly List<(Layout Layout, Strip Strip)> _rows = [];
    private readonly List<(int[] Wanted, WorkChoice Choice)> _clipped = [];
    private double _even = -1;

    public WorkChoice(CuttingModel model, GroundTables tables, Layout layout)
    {
        (_model, _tables, Layout) = (model, tables, layout);
        Sizes = [.. Enumerable.Range(0, layout.Yield.Length).Where(size => layout.Yield[size] > 0)];
        Counts = [.. Sizes.Select(size => layout.Yield[size])];
    }

    public Layout Layout { get; }

    /// <summary>Sizes that it gives, and how many pieces of each.</summary>
    public int[] Sizes { get; }

    public int[] Counts { get; }

    /// <summary>Strokes of one repeat among many.</summary>
    public double Even => _even >= 0 ? _even : _even = (double)WorkOf(ManyRepeats) / ManyRepeats / Stroke;

    /// <summary>Strokes and recipes of all repeats, cut in strips of as many rows as takes least: strokes in thousands, recipes in ones.</summary>
    public long WorkOf(int times) => Best(times).Work;

    /// <summary>The repeats as they take least work.</summary>
    public IEnumerable<LayoutUse> Write(int times)
    {
        while (times > 0)
        {
            var rows = Best(times).Rows;
            yield return new LayoutUse(OfRows(rows).Layout, times / rows);
            times %= rows;
        }
    }

    private (long Work, int Rows) Best(int times)
    {
        if (times == 0)
        {
            return (0, 1);
        }

        if (!_best.TryGetValue(times, out var best))
        {
            best = (long.MaxValue, 1);
            for (var rows = 1; rows <= times && (rows == 1 || rows * Layout.Height <= _tables.Longest); rows++)
            {
                var strokes = Strokes.OfBoltStrip(OfRows(rows).Strip with { Repeat = times / rows }, _model.Request.Layers);
                var work = (Stroke * strokes) + 1 + Best(times % rows).Work;
                best = work < best.Work ? (work, rows) : best;
            }

            _best.Add(times, best);
        }

        return best;
    }

    /// <summary>The same columns so many rows high.</summary>
    private (Layout Layout, Strip Strip) OfRows(int rows)
    {
        while (_rows.Count < rows)
        {
            var count = _rows.Count + 1;
            var stacks = Layout.Strips[0].Stacks.SelectMany(stack => Enumerable.Range(0, stack.Repeat)
                .Select(_ => Enumerable.Repeat(stack.Facings, count).SelectMany(facings => facings).ToArray()));
            var recipe = _tables.Make(stacks);
            var layout = count == 1 ? Layout : Layout.OfStrip(Layout.Ground, recipe, (double)recipe.Height / Length.TicksPerInch);
            _rows.Add((layout, SimpleLayouts.Write(layout.Strips[0], _tables, _model)));
        }

        return _rows[rows - 1];
    }

    /// <summary>How often it can be cut without a piece too many.</summary>
    public int TimesWithin(int[] left)
    {
        var times = int.MaxValue;
        for (var index = 0; index < Sizes.Length; index++)
        {
            times = Math.Min(times, Math.Max(0, left[Sizes[index]]) / Counts[index]);
        }

        return times;
    }

    /// <summary>Takes so many repeats off what is wanted; gives them back where the number is below zero.</summary>
    public void Take(int[] left, int times)
    {
        for (var index = 0; index < Sizes.Length; index++)
        {
            left[Sizes[index]] -= Counts[index] * times;
        }
    }

    /// <summary>The strip without what is not wanted.</summary>
    public WorkChoice Clip(int[] left)
    {
        var wanted = new int[Sizes.Length];
        for (var index = 0; index < wanted.Length; index++)
        {
            wanted[index] = Math.Clamp(left[Sizes[index]], 0, Counts[index]);
        }

        foreach (var (known, choice) in _clipped)
        {
            if (known.AsSpan().SequenceEqual(wanted))
            {
                return choice;
            }
        }

        var made = new WorkChoice(_model, _tables, Cut(wanted));
        _clipped.Add((wanted, made));
        return made;
    }

    private Layout Cut(int[] wanted)
    {
        var still = new int[Layout.Yield.Length];
        for (var index = 0; index < wanted.Length; index++)
        {
            still[Sizes[index]] = wanted[index];
        }

        var stacks = new List<int[]>();
        foreach (var stack in Layout.Strips[0].Stacks)
        {
            for (var repeat = 0; repeat < stack.Repeat; repeat++)
            {
                stacks.Add([.. stack.Facings.Where(facing => still[_tables.Facings[facing].Size]-- > 0)]);
            }
        }

        // Without the tall piece that made it one, a strip may be higher than the ruler: then it is cut whole.
        var strip = _tables.Make(stacks);
        var isTooHigh = strip.Height > _tables.Longest && !strip.Stacks.Any(stack => stack.Facings.Any(facing => _tables.Facings[facing].Height == strip.Height));
        return isTooHigh ? Layout : Layout.OfStrip(Layout.Ground, strip, (double)strip.Height / Length.TicksPerInch);
    }
}
