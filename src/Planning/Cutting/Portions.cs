namespace KittingBee.Planning.Cutting;

/// <summary>
/// All portions of a small demand: every choice of none up to all of the pieces wanted of each size, each known by one
/// number. Five sizes of four pieces make 3,125, twenty sizes of one piece a million; the best that can be done with each
/// is found from those within it. The counts of the first few sizes together fill a group of cells of a table, whole blocks
/// that a processor takes in one go, so some numbers are no portion.
/// </summary>
internal sealed class Portions
{
    /// <summary>Cells of a table that are worked on at once.</summary>
    public const int Block = 16;

    /// <summary>Pairs of portions, one within the other, before a demand is given up as too large.</summary>
    private const double MostPairs = 2e8;

    /// <summary>The same of few pieces for each block of work allowed: there a proof is worth more, and most pairs are never looked at.</summary>
    private const double PairsForWorkOnFew = 20;
    private const int FewPieces = 24;

    private readonly int[] _need;
    private readonly int[] _step;
    private readonly int[] _order;
    private readonly int _inGroup;
    private readonly int _groupUsed;

    private Portions(int[] need, int[] order, PortionWork work)
    {
        (_need, _order, Work) = (need, order, work);
        _step = new int[need.Length];
        var count = 1;
        for (var place = 0; place < order.Length; place++)
        {
            _step[order[place]] = count;
            count = checked(count * (need[order[place]] + 1));
            if (Group == 0 && (count >= Block || place == order.Length - 1))
            {
                (_inGroup, _groupUsed) = (place + 1, count);
                Group = count = GroupOf(count);
            }
        }

        Count = count;
        All = need.Select((wanted, size) => wanted * _step[size]).Sum();
        OuterIsBinary = int.IsPow2(Group) && order.Skip(_inGroup).All(size => need[size] <= 1);
    }

    /// <summary>Cells of a table.</summary>
    public int Count { get; }

    /// <summary>The whole demand; 0 is nothing.</summary>
    public int All { get; }

    /// <summary>Cells of a group: whole blocks.</summary>
    public int Group { get; }

    /// <summary>True where beyond the group each size is wanted once, so that the groups of a table count in binary.</summary>
    public bool OuterIsBinary { get; }

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

        // The sizes of most pieces share a group, so that beyond it as many as may be are wanted once.
        return count > most || pairs > (need.Sum(wanted => (long)wanted) <= FewPieces ? PairsForWorkOnFew * work.Most : MostPairs) ? null : new Portions([.. need], [.. Enumerable.Range(0, need.Length).OrderByDescending(size => need[size])], work);
    }

    /// <summary>What every portion is worth, where a piece of each size is worth so much.</summary>
    public double[] WorthOf(double[] worth)
    {
        var sums = new double[Count];
        foreach (var size in _order)
        {
            var step = _step[size];
            for (var cell = step; cell < step * (_need[size] + 1); cell++)
            {
                sums[cell] = sums[cell - step] + worth[size];
            }
        }

        return sums;
    }

    /// <summary>What one piece of a size adds to a portion's number.</summary>
    public int StepOf(int size) => _step[size];

    public int CountOf(int portion, int size) => (_step[size] < Group ? portion % Group : portion) / _step[size] % (_need[size] + 1);

    public int[] Read(int portion) => [.. Enumerable.Range(0, _need.Length).Select(size => CountOf(portion, size))];

    /// <summary>True where a portion has at least as many of each size as another.</summary>
    public bool Holds(int portion, int other)
    {
        for (var size = 0; size < _need.Length; size++)
        {
            if (CountOf(portion, size) < CountOf(other, size))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>True where a group's cell, a portion of the first sizes, leaves room in the demand for another.</summary>
    public bool LeavesRoom(int cell, int other)
    {
        for (var place = 0; place < _inGroup; place++)
        {
            var size = _order[place];
            if (CountOf(cell, size) + CountOf(other, size) > _need[size])
            {
                return false;
            }
        }

        return cell < _groupUsed;
    }

    /// <summary>How often a portion goes into the demand.</summary>
    public int TimesOf(int portion) => Enumerable.Range(0, _need.Length)
        .Where(size => CountOf(portion, size) > 0)
        .Min(size => _need[size] / CountOf(portion, size));

    /// <summary>The sizes beyond the group, in the order of their steps.</summary>
    public IEnumerable<(int Step, int Need)> Outer => _order.Skip(_inGroup).Where(size => _need[size] > 0).Select(size => (_step[size], _need[size]));

    /// <summary>Beyond the group, how many pieces of each size a portion leaves of the demand.</summary>
    /// <param name="portion">The portion.</param>
    /// <param name="below">Only sizes of a smaller step.</param>
    /// <param name="room">Filled in.</param>
    /// <returns>How many sizes there are.</returns>
    public int RoomBeside(int portion, int below, Span<(int Step, int Room)> room)
    {
        var sizes = 0;
        for (var place = _inGroup; place < _order.Length && _step[_order[place]] < below; place++)
        {
            var (size, step) = (_order[place], _step[_order[place]]);
            var left = _need[size] - (portion / step % (_need[size] + 1));
            if (left > 0)
            {
                room[sizes++] = (step, left);
            }
        }

        return sizes;
    }

    /// <summary>
    /// Runs of cells side by side: those from the first number on have one piece of a size more than those from the second
    /// on. The runs of more pieces come first.
    /// </summary>
    /// <param name="from">First cell looked at: nothing, or with a size's step for <paramref name="below"/>, a multiple of that.</param>
    /// <param name="to">End of the cells looked at, likewise.</param>
    /// <param name="below">Only sizes of a smaller step.</param>
    public IEnumerable<(int With, int Without, int Length)> Neighbours(int from, int to, int below)
    {
        for (var place = 0; place < _order.Length && _step[_order[place]] < below; place++)
        {
            var (step, need) = (_step[_order[place]], _need[_order[place]]);
            var (apart, used) = place < _inGroup ? (Group, _groupUsed) : (to - from, to - from);
            for (var start = from; start < to; start += apart)
            {
                for (var at = start; at < start + used; at += step * (need + 1))
                {
                    for (var count = need; count > 0; count--)
                    {
                        yield return (at + (count * step), at + ((count - 1) * step), step);
                    }
                }
            }
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

    private static int GroupOf(int cells) => (cells + Block - 1) / Block * Block;
}

/// <summary>Work done on tables of portions, in blocks looked at, with its limit.</summary>
internal sealed class PortionWork(long most, CancellationToken clock)
{
    public long Most { get; } = most;

    public long Done { get; private set; }

    public bool IsSpent => Done > Most || clock.IsCancellationRequested;

    public void Spend(long blocks) => Done += blocks;
}
