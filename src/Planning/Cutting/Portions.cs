namespace KittingBee.Planning.Cutting;

/// <summary>
/// All portions of a small demand: every choice of none up to all of the pieces wanted of each size, each known by one
/// number. Where sizes repeat there are few of them (five sizes of four pieces make 3,125), and the best that can be done
/// with each is found from those within it.
/// </summary>
internal sealed class Portions
{
    /// <summary>More than any length, width or cost.</summary>
    public const long Never = long.MaxValue / 4;

    private readonly int[] _need;
    private readonly int[] _step;
    private readonly int[] _order;

    private Portions(int[] need, int[] order, PortionWork work)
    {
        (_need, _order, Work) = (need, order, work);
        _step = new int[need.Length];
        Count = 1;
        foreach (var size in order)
        {
            _step[size] = Count;
            Count *= need[size] + 1;
        }
    }

    /// <summary>How many there are; the last is the whole demand, the first is nothing.</summary>
    public int Count { get; }

    public PortionWork Work { get; }

    /// <summary>The portions of a demand, or null where there are more than <paramref name="most"/> or already their pairs, one within the other, are too many.</summary>
    public static Portions? Of(int[] need, int most, PortionWork work)
    {
        var (count, pairs) = (1.0, 1.0);
        foreach (var wanted in need)
        {
            count *= wanted + 1.0;
            pairs *= (wanted + 1.0) * (wanted + 2.0) / 2;
        }

        // The size of most pieces comes first, so that what is next to each other in a table is gone through in one go.
        return count > most || pairs > work.Most ? null : new Portions([.. need], [.. Enumerable.Range(0, need.Length).OrderByDescending(size => need[size])], work);
    }

    public long[] NewTable()
    {
        var table = new long[Count];
        Array.Fill(table, Never);
        table[0] = 0;
        return table;
    }

    /// <summary>What every portion is worth, where a piece of each size is worth so much.</summary>
    public double[] WorthOf(double[] worth)
    {
        var sums = new double[Count];
        for (var portion = 1; portion < Count; portion++)
        {
            var size = Array.Find(_order, size => CountOf(portion, size) > 0);
            sums[portion] = sums[portion - _step[size]] + worth[size];
        }

        return sums;
    }

    /// <summary>What one piece of a size adds to a portion's number.</summary>
    public int StepOf(int size) => _step[size];

    public int CountOf(int portion, int size) => portion / _step[size] % (_need[size] + 1);

    public int[] Read(int portion) => [.. Enumerable.Range(0, _need.Length).Select(size => CountOf(portion, size))];

    /// <summary>
    /// Lets a portion be taken any number of times for a cost: every table entry is lowered to what it comes to with one more
    /// of it, in rising order, so that the entry it builds on has been lowered before.
    /// </summary>
    /// <param name="table">Least cost by portion.</param>
    /// <param name="portion">What is added; not nothing.</param>
    /// <param name="cost">What it costs.</param>
    /// <param name="limit">Costs above it count as never.</param>
    /// <param name="mark">Written for every entry that is lowered.</param>
    /// <param name="first">Marks of the first time an entry is reached, or null.</param>
    /// <param name="last">Marks of the last time, or null.</param>
    public void Offer(long[] table, int portion, long cost, long limit, int mark = 0, int[]? first = null, int[]? last = null) =>
        Spread(table, table, portion, cost, limit, mark, first, last);

    /// <summary>Lowers the entries of one table to a portion at a cost and the rest from another table.</summary>
    public void Join(long[] table, long[] rest, int portion, long cost, long limit) => Spread(table, rest, portion, cost, limit, 0, null, null);

    private void Spread(long[] table, long[] rest, int portion, long cost, long limit, int mark, int[]? first, int[]? last)
    {
        Span<int> room = stackalloc int[_order.Length];
        Span<int> at = stackalloc int[_order.Length];
        at.Clear();
        var cells = 1L;
        for (var place = 0; place < room.Length; place++)
        {
            room[place] = _need[_order[place]] - CountOf(portion, _order[place]);
            cells *= room[place] + 1;
        }

        Work.Spend(cells + room.Length);
        for (var start = 0; ;)
        {
            for (var from = start; from <= start + room[0]; from++)
            {
                var value = rest[from] + cost;
                if (value < table[from + portion] && value <= limit)
                {
                    if (first is not null && table[from + portion] == Never)
                    {
                        first[from + portion] = mark;
                    }

                    if (last is not null)
                    {
                        last[from + portion] = mark;
                    }

                    table[from + portion] = value;
                }
            }

            var carry = 1;
            while (carry < room.Length && at[carry] == room[carry])
            {
                start -= at[carry] * _step[_order[carry]];
                at[carry++] = 0;
            }

            if (carry == room.Length)
            {
                return;
            }

            at[carry]++;
            start += _step[_order[carry]];
        }
    }

    /// <summary>The portions within a portion, itself and nothing among them, in rising order.</summary>
    public IEnumerable<int> Within(int portion)
    {
        var counts = Read(portion);
        var at = new int[counts.Length];
        for (var index = 0; ;)
        {
            yield return index;
            var carry = 0;
            while (carry < at.Length && at[_order[carry]] == counts[_order[carry]])
            {
                index -= at[_order[carry]] * _step[_order[carry]];
                at[_order[carry++]] = 0;
            }

            if (carry == at.Length)
            {
                yield break;
            }

            at[_order[carry]]++;
            index += _step[_order[carry]];
        }
    }
}

/// <summary>Work done on tables of portions, in entries looked at, with its limit.</summary>
internal sealed class PortionWork(long most, CancellationToken clock)
{
    public long Most { get; } = most;

    public long Done { get; private set; }

    public bool IsSpent => Done > Most || clock.IsCancellationRequested;

    public void Spend(long entries) => Done += entries;
}
