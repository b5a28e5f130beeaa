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
    private readonly int[] _firstPlace;
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
        _firstPlace = [.. ColumnWidths.Select(widths.IndexAtMost)];
        _facingColumn = [.. facings.Select(facing => Array.BinarySearch(ColumnWidths, facing.Width))];
        _stack = new double[ColumnWidths.Length * heights.Count];
        _stackChoice = new ushort[_stack.Length];
        _row = new double[widths.Count];
        _rowChoice = new ushort[widths.Count];
        _useful = new int[ColumnWidths.Length];
        _worth = new double[facings.Length];
        Order = [.. Enumerable.Range(0, facings.Length).OrderBy(index => facings[index].Width)];
    }

    private StripTables(StripTables other)
    {
        Facings = other.Facings;
        Heights = other.Heights;
        Widths = other.Widths;
        ColumnWidths = other.ColumnWidths;
        Order = other.Order;
        _below = other._below;
        _left = other._left;
        _firstPlace = other._firstPlace;
        _facingColumn = other._facingColumn;
        _stack = new double[other._stack.Length];
        _stackChoice = new ushort[_stack.Length];
        _row = new double[Widths.Count];
        _rowChoice = new ushort[Widths.Count];
        _useful = new int[ColumnWidths.Length];
        _worth = new double[Facings.Length];
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

    /// <summary>Empty tables for the same ground, to be filled with other worths.</summary>
    public StripTables Twin() => new(this);

    /// <summary>Fills the stack table for pieces of these worths, by size; up to a height (an index) where that is given.</summary>
    public void Fill(ReadOnlySpan<double> worthBySize, int upTo = int.MaxValue)
    {
        if (_stack.Length == 0)
        {
            return; // A sheet that holds none of the pieces.
        }

        var count = Heights.Count;
        var filledTo = Math.Min(count, upTo == int.MaxValue ? count : upTo + 1);
        Array.Clear(_stack, 0, filledTo);
        Array.Clear(_stackChoice, 0, filledTo);
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
                        Array.Copy(_stack, filled * count, _stack, (filled + 1) * count, filledTo);
                        Array.Copy(_stackChoice, filled * count, _stackChoice, (filled + 1) * count, filledTo);
                    }
                }

                if (worth <= 0)
                {
                    continue;
                }

                var below = _below[index].AsSpan(0, filledTo);
                var stack = _stack.AsSpan(column * count, filledTo);
                var choice = _stackChoice.AsSpan(column * count, filledTo);
                for (var height = Heights.IndexAtMost(Facings[index].Height); height < below.Length; height++)
                {
                    var value = stack[below[height]] + worth;
                    if (value > stack[height])
                    {
                        stack[height] = value;
                        choice[height] = (ushort)(index + 1);
                    }
                }

                Steps += filledTo;
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
        var last = Widths.IndexAtMost(width);
        var row = _row.AsSpan(0, last + 1);
        var choice = _rowChoice.AsSpan(0, last + 1);
        row.Clear();
        choice.Clear();
        var useful = UsefulColumns(height, width);
        unchecked
        {
            for (var place = 0; place < useful; place++)
            {
                var column = _useful[place];
                var worth = _stack[(column * Heights.Count) + height];
                var left = _left[column].AsSpan(0, row.Length);
                for (var at = _firstPlace[column]; at < left.Length; at++)
                {
                    var value = row[left[at]] + worth;
                    if (value > row[at])
                    {
                        row[at] = value;
                        choice[at] = (ushort)(column + 1);
                    }
                }
            }

            Steps += (long)useful * row.Length;
        }

        return row[^1];
    }

    /// <summary>Worth of the best row of any width up to the one that <see cref="BestRow"/> was asked for last.</summary>
    public double RowWorth(long width) => _row[Widths.IndexAtMost(width)];

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
    private int UsefulColumns(int height, long width)
    {
        var useful = 0;
        var best = 0.0;
        for (var column = 0; column < ColumnWidths.Length && ColumnWidths[column] <= width; column++)
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
