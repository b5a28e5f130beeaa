namespace KittingBee.Planning.Cutting;

/// <summary>
/// Dynamic programs over one ground (Gilmore and Gomory 1965, three stages): the best stack for every column width and
/// height, then the best row of such stacks for a strip of any height. Values are the worth of a piece of each size;
/// pieces may be taken any number of times. Filled once, the tables answer for all heights.
/// </summary>
internal sealed class StripTables
{
    private readonly TablePlaces _up;
    private readonly TablePlaces _across;
    private readonly TableStep[] _below;
    private readonly TableStep[] _left;
    private readonly int[] _facingColumn;
    private readonly double[] _stack;
    private readonly long[] _stackChoice;
    private readonly int[] _filledIn;
    private readonly RowTable _row;
    private readonly int[] _useful;
    private readonly double[] _usefulWorth;
    private readonly double[] _worth;

    public StripTables(Facing[] facings, ReachableSums heights, ReachableSums widths)
    {
        Facings = facings;
        Heights = heights;
        Widths = widths;
        ColumnWidths = [.. facings.Select(facing => facing.Width).Distinct().Order()];
        _up = new TablePlaces(heights, facings.Select(facing => facing.Height));
        _across = new TablePlaces(widths, ColumnWidths);
        _below = [.. facings.Select(facing => _up.StepOf(facing.Height))];
        _left = [.. ColumnWidths.Select(_across.StepOf)];
        _facingColumn = [.. facings.Select(facing => Array.BinarySearch(ColumnWidths, facing.Width))];
        _stack = new double[ColumnWidths.Length * _up.Count];
        _stackChoice = new long[_stack.Length];
        _filledIn = new int[ColumnWidths.Length];
        _row = new RowTable(_across, _left);
        _useful = new int[ColumnWidths.Length];
        _usefulWorth = new double[ColumnWidths.Length];
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
        _up = other._up;
        _across = other._across;
        _below = other._below;
        _left = other._left;
        _facingColumn = other._facingColumn;
        _stack = new double[other._stack.Length];
        _stackChoice = new long[_stack.Length];
        _filledIn = new int[ColumnWidths.Length];
        _row = new RowTable(_across, _left);
        _useful = new int[ColumnWidths.Length];
        _usefulWorth = new double[ColumnWidths.Length];
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

        var count = _up.Count;
        var top = upTo == int.MaxValue ? Heights.Count - 1 : upTo;
        var filledTo = _up.OfSum(top) + 1;
        Array.Clear(_stack, 0, filledTo);
        Array.Clear(_stackChoice, 0, filledTo);
        var (last, at) = (0, 0);
        foreach (var index in Order)
        {
            var worth = worthBySize[Facings[index].Size];
            _worth[index] = worth;
            if (worth <= 0)
            {
                continue;
            }

            // A column that gets no piece of its own holds what the one before it does, and is not copied.
            var column = _facingColumn[index];
            if (column > last)
            {
                Array.Copy(_stack, last * count, _stack, column * count, filledTo);
                Array.Copy(_stackChoice, last * count, _stackChoice, column * count, filledTo);
                for (; at < column; at++)
                {
                    _filledIn[at] = last;
                }

                last = column;
            }

            _below[index].Take(_stack.AsSpan(column * count, filledTo), _stackChoice.AsSpan(column * count, filledTo), worth, index + 1);
            Steps += top + 1;
        }

        Array.Fill(_filledIn, last, at, _filledIn.Length - at);
    }

    /// <summary>Worth of one piece lying so, as filled in last.</summary>
    public double WorthOf(int facing) => _worth[facing];

    /// <summary>An upper bound on what a row of this height and width can be worth: the densest column all along.</summary>
    public double RowBound(int height, long width)
    {
        var densest = 0.0;
        for (var column = 0; column < ColumnWidths.Length; column++)
        {
            densest = Math.Max(densest, StackWorth(column, height) / ColumnWidths[column]);
        }

        Steps += ColumnWidths.Length;
        return densest * width;
    }

    /// <summary>The worth of the best row of a strip of this height and width. The choice is kept for <see cref="ReadRow"/>.</summary>
    public double BestRow(int height, long width)
    {
        var useful = UsefulColumns(height, width);
        Steps += (long)useful * (Widths.IndexAtMost(width) + 1);
        return _row.Fill(_useful.AsSpan(0, useful), _usefulWorth, _across.At(width));
    }

    /// <summary>Worth of the best row of any width up to the one that <see cref="BestRow"/> was asked for last.</summary>
    public double RowWorth(long width) => _row.WorthAt(_across.At(width));

    /// <summary>The columns of the row that <see cref="BestRow"/> found last for this height and width: indices of column widths.</summary>
    public List<int> ReadRow(long width)
    {
        var columns = new List<int>();
        for (var at = _across.At(width); _row.ColumnAt(at) is >= 0 and var column; at = _left[column].From(at))
        {
            columns.Add(column);
        }

        return columns;
    }

    /// <summary>Worth of the best stack in a column of this width and height.</summary>
    public double StackWorth(int column, int height) => _stack[(_filledIn[column] * _up.Count) + _up.OfSum(height)];

    /// <summary>Facings of the best stack in a column of this width and height.</summary>
    public int[] ReadStack(int column, int height)
    {
        var facings = new List<int>();
        var start = _filledIn[column] * _up.Count;
        var at = _up.OfSum(height);
        while (at >= 0 && _stackChoice[start + at] != 0)
        {
            var facing = (int)_stackChoice[start + at] - 1;
            facings.Add(facing);
            at = _below[facing].From(at);
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
            var worth = StackWorth(column, height);
            if (worth > best)
            {
                best = worth;
                _usefulWorth[useful] = worth;
                _useful[useful++] = column;
            }
        }

        return useful;
    }
}
