namespace KittingBee.Planning.Cutting;

/// <summary>
/// Dynamic programs over one ground (Gilmore and Gomory 1965, three stages): the best stack for every column width and
/// height, then the best row of such stacks for a strip of any height. Values are the worth of a piece of each size;
/// pieces may be taken any number of times. Filled once, the tables answer for all heights.
/// </summary>
internal sealed class StripTables
{
    private readonly int[][] _below;
    private readonly int[][] _left;
    private readonly int[] _facingColumn;
    private readonly double[] _stack;
    private readonly ushort[] _stackChoice;
    private readonly double[] _row;
    private readonly ushort[] _rowChoice;
    private readonly int[] _useful;
    private readonly double[] _worth;

    public StripTables(Facing[] facings, ReachableSums heights, ReachableSums widths)
    {
        Facings = facings;
        Heights = heights;
        Widths = widths;
        ColumnWidths = [.. facings.Select(facing => facing.Width).Distinct().Order()];
        _below = [.. facings.Select(facing => heights.Before(facing.Height))];
        _left = [.. ColumnWidths.Select(widths.Before)];
        _facingColumn = [.. facings.Select(facing => Array.BinarySearch(ColumnWidths, facing.Width))];
        _stack = new double[ColumnWidths.Length * heights.Count];
        _stackChoice = new ushort[_stack.Length];
        _row = new double[widths.Count];
        _rowChoice = new ushort[widths.Count];
        _useful = new int[ColumnWidths.Length];
        _worth = new double[facings.Length];
        Order = [.. Enumerable.Range(0, facings.Length).OrderBy(index => facings[index].Width)];
    }

    public Facing[] Facings { get; }

    /// <summary>Places up the strip; each but the first is a height that a strip may have.</summary>
    public ReachableSums Heights { get; }

    public ReachableSums Widths { get; }

    /// <summary>Distinct widths of facings, rising; a column is as wide as its widest piece.</summary>
    public long[] ColumnWidths { get; }

    /// <summary>Basic steps taken so far: the measure of work that limits are set in.</summary>
    public long Steps { get; private set; }

    private int[] Order { get; }

    /// <summary>Fills the stack table for pieces of these worths, by size.</summary>
    public void Fill(double[] worthBySize)
    {
        var count = Heights.Count;
        Array.Clear(_stack);
        Array.Clear(_stackChoice);
        unchecked
        {
            var filled = -1;
            foreach (var index in Order)
            {
                var worth = worthBySize[Facings[index].Size];
                _worth[index] = worth;
                var column = _facingColumn[index];
                for (; filled < column; filled++)
                {
                    if (filled >= 0)
                    {
                        Array.Copy(_stack, filled * count, _stack, (filled + 1) * count, count);
                        Array.Copy(_stackChoice, filled * count, _stackChoice, (filled + 1) * count, count);
                    }
                }

                if (worth <= 0)
                {
                    continue;
                }

                var below = _below[index];
                var start = column * count;
                for (var height = 1; height < count; height++)
                {
                    var under = below[height];
                    if (under >= 0 && _stack[start + under] + worth > _stack[start + height])
                    {
                        _stack[start + height] = _stack[start + under] + worth;
                        _stackChoice[start + height] = (ushort)(index + 1);
                    }
                }

                Steps += count;
            }
        }
    }

    /// <summary>Worth of one piece lying so, as filled in last.</summary>
    public double WorthOf(int facing) => _worth[facing];

    /// <summary>An upper bound on what a row of this height and width can be worth: the densest column all along.</summary>
    public double RowBound(int height, long width)
    {
        var densest = 0.0;
        for (var column = 0; column < ColumnWidths.Length; column++)
        {
            densest = Math.Max(densest, _stack[(column * Heights.Count) + height] / ColumnWidths[column]);
        }

        Steps += ColumnWidths.Length;
        return densest * width;
    }

    /// <summary>The worth of the best row of a strip of this height and width. The choice is kept for <see cref="ReadRow"/>.</summary>
    public double BestRow(int height, long width)
    {
        var count = Heights.Count;
        var last = Widths.IndexAtMost(width);
        Array.Clear(_row, 0, last + 1);
        Array.Clear(_rowChoice, 0, last + 1);
        var useful = UsefulColumns(height);
        unchecked
        {
            for (var place = 0; place < useful; place++)
            {
                var column = _useful[place];
                var worth = _stack[(column * count) + height];
                var left = _left[column];
                for (var at = Widths.IndexAtMost(ColumnWidths[column]); at <= last; at++)
                {
                    var value = _row[left[at]] + worth;
                    if (value > _row[at])
                    {
                        _row[at] = value;
                        _rowChoice[at] = (ushort)(column + 1);
                    }
                }
            }

            Steps += (long)useful * last;
        }

        return _row[last];
    }

    /// <summary>The columns of the row that <see cref="BestRow"/> found last for this height and width: indices of column widths.</summary>
    public List<int> ReadRow(long width)
    {
        var columns = new List<int>();
        var at = Widths.IndexAtMost(width);
        while (at > 0)
        {
            if (_rowChoice[at] == 0)
            {
                break;
            }

            columns.Add(_rowChoice[at] - 1);
            at = _left[_rowChoice[at] - 1][at];
        }

        return columns;
    }

    /// <summary>Worth of the best stack in a column of this width and height.</summary>
    public double StackWorth(int column, int height) => _stack[(column * Heights.Count) + height];

    /// <summary>Facings of the best stack in a column of this width and height.</summary>
    public int[] ReadStack(int column, int height)
    {
        var facings = new List<int>();
        var start = column * Heights.Count;
        while (height >= 0 && _stackChoice[start + height] != 0)
        {
            var facing = _stackChoice[start + height] - 1;
            facings.Add(facing);
            height = _below[facing][height];
        }

        return [.. facings];
    }

    /// <summary>Columns wider than another that is worth as much never help; the rest go into the row table.</summary>
    private int UsefulColumns(int height)
    {
        var useful = 0;
        var best = 0.0;
        for (var column = 0; column < ColumnWidths.Length; column++)
        {
            var worth = _stack[(column * Heights.Count) + height];
            if (worth > best)
            {
                best = worth;
                _useful[useful++] = column;
            }
        }

        return useful;
    }
}
