using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Builds strips that cut no more of a size than is still wanted. The tables know no such limit, so a strip is built a
/// column at a time: the densest column of the best row is taken as often as the need allows, then the rest of the row is
/// asked for anew.
/// </summary>
internal sealed class BoundedRecipes
{
    private readonly GroundTables _ground;
    private readonly int[] _left;
    private readonly double[] _worth;

    public BoundedRecipes(GroundTables ground)
    {
        _ground = ground;
        _left = new int[ground.SizeCount];
        _worth = new double[ground.SizeCount];
    }

    /// <summary>A strip of at most this height (an index of the tables), worth as much as can be found, within the need; null when nothing fits.</summary>
    public Recipe? Build(int height, ReadOnlySpan<int> need, ReadOnlySpan<double> worth, int forced = -1)
    {
        need.CopyTo(_left);
        worth.CopyTo(_worth);
        var stacks = new List<int[]>();
        var width = _ground.Ground.Across;
        var tables = _ground.Tables;
        if (forced >= 0)
        {
            stacks.Add([forced]);
            width -= tables.Facings[forced].Width;
            _left[tables.Facings[forced].Size]--;
        }

        while (true)
        {
            for (var size = 0; size < _left.Length; size++)
            {
                if (_left[size] == 0)
                {
                    _worth[size] = 0;
                }
            }

            tables.Fill(_worth);
            if (tables.BestRow(height, width) <= 0)
            {
                break;
            }

            // Densest first: what is left over at the end is then the least dense.
            var row = tables.ReadRow(width);
            var column = row.MaxBy(one => tables.StackWorth(one, height) / tables.ColumnWidths[one]);
            var copies = row.Count(one => one == column);
            var stack = Clip(tables.ReadStack(column, height), out var clipped);
            for (var copy = 0; copy < copies; copy++)
            {
                if (!TryTake(stack))
                {
                    break;
                }

                stacks.Add([.. stack]);
                width -= tables.ColumnWidths[column];
                if (clipped)
                {
                    break;
                }
            }
        }

        return stacks.Count == 0 ? null : _ground.Make(stacks);
    }

    private int[] Clip(int[] stack, out bool clipped)
    {
        var taken = new Dictionary<int, int>();
        var kept = stack.Where(facing =>
        {
            var size = _ground.Facings[facing].Size;
            taken[size] = taken.GetValueOrDefault(size) + 1;
            return taken[size] <= _left[size];
        }).ToArray();
        clipped = kept.Length < stack.Length;
        return kept;
    }

    private bool TryTake(int[] stack)
    {
        for (var index = 0; index < stack.Length; index++)
        {
            if (--_left[_ground.Facings[stack[index]].Size] < 0)
            {
                for (; index >= 0; index--)
                {
                    _left[_ground.Facings[stack[index]].Size]++;
                }

                return false;
            }
        }

        return true;
    }
}
