namespace KittingBee.Planning.Cutting;

/// <summary>
/// Builds strips that cut no more of a size than is still wanted. The tables know no such limit, so a strip is built a
/// column at a time: the densest columns of the best row are taken as often as the need allows, then the rest of the row is
/// asked for anew, without the sizes that are used up.
/// </summary>
internal sealed class BoundedRecipes
{
    private readonly GroundTables _ground;
    private readonly StripTables _all;
    private readonly StripTables _rest;
    private readonly int[] _need;
    private readonly int[] _left;
    private readonly double[] _worth;
    private readonly double[] _restWorth;

    private readonly double[] _area;
    private readonly double[] _density;
    private readonly int[] _densest;

    public BoundedRecipes(GroundTables ground)
    {
        _ground = ground;
        _all = ground.Tables.Twin();
        _rest = ground.Tables.Twin();
        _need = new int[ground.SizeCount];
        _left = new int[ground.SizeCount];
        _worth = new double[ground.SizeCount];
        _restWorth = new double[ground.SizeCount];
        _density = new double[ground.SizeCount];
        _densest = new int[ground.SizeCount];
        _area = new double[ground.SizeCount];
        Array.Fill(_area, 1);
        foreach (var facing in _all.Facings)
        {
            _area[facing.Size] = (double)facing.Width * facing.Height;
        }
    }

    public long Steps => _all.Steps + _rest.Steps;

    /// <summary>Sets what is wanted and what it is worth.</summary>
    public void Prepare(ReadOnlySpan<double> worth, ReadOnlySpan<int> need)
    {
        need.CopyTo(_need);
        for (var size = 0; size < _worth.Length; size++)
        {
            _worth[size] = need[size] > 0 ? worth[size] : 0;
        }

        _all.Fill(_worth);
        for (var size = 0; size < _worth.Length; size++)
        {
            _density[size] = -_worth[size] / _area[size];
            _densest[size] = size;
        }

        Array.Sort(_density, _densest);
    }

    /// <summary>No strip of this height, an index of the tables, is worth more, bounded or not.</summary>
    public double MostWorth(int height, int forced = -1) => forced < 0
        ? _all.BestRow(height, _ground.Ground.Across)
        : _all.WorthOf(forced) + _all.BestRow(height, _ground.Ground.Across - _all.Facings[forced].Width);

    /// <summary>
    /// A quick bound on the worth of a strip within the need: the densest column all along, or the area filled with the
    /// pieces that are worth most for theirs, whichever is less.
    /// </summary>
    public double WorthBound(int height, int forced = -1)
    {
        var row = forced < 0
            ? _all.RowBound(height, _ground.Ground.Across)
            : _all.WorthOf(forced) + _all.RowBound(height, _ground.Ground.Across - _all.Facings[forced].Width);
        var area = (double)_all.Heights.Sums[height] * _ground.Ground.Across;
        var filled = 0.0;
        foreach (var size in _densest)
        {
            if (_need[size] <= 0)
            {
                continue;
            }

            var wanted = _need[size] * _area[size];
            if (wanted >= area)
            {
                filled += area / _area[size] * _worth[size];
                break;
            }

            area -= wanted;
            filled += _need[size] * _worth[size];
        }

        return Math.Min(row, filled);
    }

    /// <summary>A strip of at most this height within the need, worth as much as is found; null when nothing fits.</summary>
    public Recipe? Build(int height, int forced = -1)
    {
        _need.CopyTo(_left, 0);
        var stacks = new List<int[]>();
        var width = _ground.Ground.Across;
        if (forced >= 0)
        {
            stacks.Add([forced]);
            width -= _all.Facings[forced].Width;
            _left[_all.Facings[forced].Size]--;
        }

        _all.BestRow(height, width);
        var whole = TakeRow(_all, height, ref width, stacks);
        while (!whole)
        {
            for (var size = 0; size < _left.Length; size++)
            {
                _restWorth[size] = _left[size] > 0 ? _worth[size] : 0;
            }

            _rest.Fill(_restWorth, height);
            whole = _rest.BestRow(height, width) <= 0 || TakeRow(_rest, height, ref width, stacks);
        }

        return stacks.Count == 0 ? null : _ground.Make(stacks);
    }

    /// <summary>
    /// Takes columns of the row found last, densest kind first, for as long as the need lasts; true when all of them were
    /// taken. Where not even the first can be taken whole, it is taken without what is too much, so that something always is.
    /// </summary>
    private bool TakeRow(StripTables tables, int height, ref long width, List<int[]> stacks)
    {
        var row = tables.ReadRow(width);
        row.Sort((one, other) => (tables.StackWorth(other, height) / tables.ColumnWidths[other]).CompareTo(tables.StackWorth(one, height) / tables.ColumnWidths[one]) is var order && order != 0
            ? order
            : one.CompareTo(other));
        var taken = 0;
        var last = -1;
        var missed = -1;
        int[] stack = [];
        foreach (var column in row)
        {
            if (column == missed)
            {
                continue;
            }

            if (column != last)
            {
                stack = tables.ReadStack(column, height);
                last = column;
            }

            if (!TryTake(stack))
            {
                missed = column;
                if (taken > 0)
                {
                    continue;
                }

                stack = Clip(stack);
                if (stack.Length == 0)
                {
                    continue;
                }

                TryTake(stack);
                stacks.Add(stack);
                width -= stack.Max(facing => tables.Facings[facing].Width);
                return false;
            }

            stacks.Add([.. stack]);
            width -= tables.ColumnWidths[column];
            taken++;
        }

        return taken == row.Count;
    }

    private int[] Clip(int[] stack)
    {
        var kept = new List<int>(stack.Length);
        foreach (var facing in stack)
        {
            var size = _all.Facings[facing].Size;
            if (kept.Count(other => _all.Facings[other].Size == size) < _left[size])
            {
                kept.Add(facing);
            }
        }

        return [.. kept];
    }

    private bool TryTake(int[] stack)
    {
        for (var index = 0; index < stack.Length; index++)
        {
            if (--_left[_all.Facings[stack[index]].Size] < 0)
            {
                for (; index >= 0; index--)
                {
                    _left[_all.Facings[stack[index]].Size]++;
                }

                return false;
            }
        }

        return true;
    }
}
