using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace KittingBee.Planning.Cutting;

/// <summary>A number for every portion of a demand, the least found so far, in cells as narrow as the numbers allow.</summary>
internal sealed class PortionTable<T>
    where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
{
    /// <summary>More than any number that counts; the sum of two such still has room in a cell.</summary>
    public static readonly T Never = T.MaxValue >> 1;

    /// <summary>Masks of larger groups are made anew each time.</summary>
    private const int MostKept = 1_024;

    private readonly Portions _portions;
    private readonly T[] _cells;
    private readonly T[]?[] _masks;

    /// <summary>Nothing costs nothing, all else is never.</summary>
    public PortionTable(Portions portions)
    {
        _portions = portions;
        _cells = new T[portions.Count + portions.Group]; // Beyond the last, room for whole blocks that begin within a group.
        _masks = new T[]?[portions.Group];
        Array.Fill(_cells, Never);
        _cells[0] = T.Zero;
    }

    private PortionTable(PortionTable<T> other) => (_portions, _cells, _masks) = (other._portions, [.. other._cells], other._masks);

    public T this[int portion]
    {
        get => _cells[portion];
        set => _cells[portion] = value;
    }

    public bool Has(int portion) => _cells[portion] < Never;

    public PortionTable<T> Copy() => new(this);

    /// <summary>
    /// Lets a portion be taken any number of times for a cost: every entry is lowered to what it comes to with one more of it,
    /// in rising order, so that the entry it builds on has been lowered before.
    /// </summary>
    /// <param name="portion">What is added; not nothing.</param>
    /// <param name="cost">What it costs.</param>
    /// <param name="below">Only to portions of sizes of a smaller step, beyond the first group.</param>
    public void Offer(int portion, T cost, int below = int.MaxValue)
    {
        // Cells of one block are read before any of them is written.
        for (var times = portion < Portions.Block ? _portions.TimesOf(portion) : 1; times > 0; times--)
        {
            Join(this, portion, cost, below);
        }
    }

    /// <summary>Lowers the entries to a portion at a cost and the rest from another table.</summary>
    /// <param name="rest">What the rest costs.</param>
    /// <param name="portion">The portion.</param>
    /// <param name="cost">What it costs.</param>
    /// <param name="below">Beyond the first group, the rest has only sizes of a smaller step,</param>
    /// <param name="start">and with them this portion.</param>
    public void Join(PortionTable<T> rest, int portion, T cost, int below = int.MaxValue, int start = 0)
    {
        Span<(int Step, int Room)> room = stackalloc (int, int)[32];
        var sizes = _portions.RoomBeside(portion, below, room);
        var adds = new Adds(MaskOf(portion % _portions.Group), cost);
        ref var from = ref rest._cells[start];
        ref var to = ref _cells[start + portion];
        var groups = 1L;
        if (_portions.OuterIsBinary)
        {
            var free = 0;
            foreach (var (step, _) in room[..sizes])
            {
                (free, groups) = (free | step, groups * 2);
            }

            JoinBinary(ref to, ref from, free, adds);
        }
        else
        {
            groups = JoinEach(ref to, ref from, room[..sizes], adds);
        }

        _portions.Work.Spend(1 + (groups * _portions.Group / Portions.Block));
    }

    /// <summary>Lowers every entry to a value where another table's is no more than <paramref name="most"/>.</summary>
    public void LowerWhere(PortionTable<T> other, T most, T value)
    {
        ref var to = ref MemoryMarshal.GetArrayDataReference(_cells);
        ref var from = ref MemoryMarshal.GetArrayDataReference(other._cells);
        var (limit, lower) = (Vector256.Create(most), Vector256.Create(value));
        for (var cell = 0; cell < _portions.Count; cell += Vector256<T>.Count)
        {
            var before = Vector256.LoadUnsafe(ref to, (nuint)cell);
            var isMet = Vector256.LessThanOrEqual(Vector256.LoadUnsafe(ref from, (nuint)cell), limit);
            Vector256.ConditionalSelect(isMet, Vector256.Min(before, lower), before).StoreUnsafe(ref to, (nuint)cell);
        }

        _portions.Work.Spend(_portions.Count / Portions.Block);
    }

    /// <summary>Lowers every entry to the least of the portions that it lies within: what gives more gives it, too.</summary>
    public void Close() => Close(_portions.Count, int.MaxValue);

    /// <summary>The same among the portions up to a multiple of a size's step, by the sizes before it.</summary>
    public void Close(int to, int below)
    {
        foreach (var (with, without, length) in _portions.Neighbours(0, to, below))
        {
            LowerTo(without, with, length);
        }

        _portions.Work.Spend(to / Portions.Block);
    }

    /// <summary>Lowers entries to those of as many cells elsewhere.</summary>
    public void LowerTo(int cells, int others, int length) => Lower(_cells.AsSpan(cells, length), _cells.AsSpan(others, length));

    /// <summary>For every portion the least entry of those that have one piece more.</summary>
    public PortionTable<T> Beyond()
    {
        var beyond = new PortionTable<T>(_portions);
        ReadBeyond(beyond, 0, _portions.Count, int.MaxValue);
        return beyond;
    }

    /// <summary>For every portion from one multiple of a size's step to another, the least entry of those that have one piece more of the sizes before it.</summary>
    public void ReadBeyond(PortionTable<T> beyond, int from, int to, int below)
    {
        Array.Fill(beyond._cells, Never, from, to - from);
        foreach (var (with, without, length) in _portions.Neighbours(from, to, below))
        {
            Lower(beyond._cells.AsSpan(without, length), _cells.AsSpan(with, length));
        }

        _portions.Work.Spend((to - from) / Portions.Block);
    }

    private static void Lower(Span<T> to, ReadOnlySpan<T> from)
    {
        var at = 0;
        for (; at <= to.Length - Vector256<T>.Count; at += Vector256<T>.Count)
        {
            Vector256.Min(Vector256.Create<T>(to[at..]), Vector256.Create(from[at..])).CopyTo(to[at..]);
        }

        for (; at < to.Length; at++)
        {
            to[at] = T.Min(to[at], from[at]);
        }
    }

    /// <summary>Joins groups of which each further size adds one bit to the number.</summary>
    private static void JoinBinary(ref T to, ref T from, int free, in Adds adds)
    {
        var group = 0;
        do
        {
            adds.To(ref to, ref from, group);
            group = (group - free) & free;
        }
        while (group != 0);
    }

    private static long JoinEach(ref T to, ref T from, ReadOnlySpan<(int Step, int Room)> room, in Adds adds)
    {
        Span<int> at = stackalloc int[room.Length];
        at.Clear();
        var groups = 0L;
        for (var group = 0; ;)
        {
            adds.To(ref to, ref from, group);
            groups++;
            var carry = 0;
            while (carry < room.Length && at[carry] == room[carry].Room)
            {
                group -= at[carry] * room[carry].Step;
                at[carry++] = 0;
            }

            if (carry == room.Length)
            {
                return groups;
            }

            at[carry]++;
            group += room[carry].Step;
        }
    }

    /// <summary>Within a group, nothing where a portion of it leaves room for another, else never.</summary>
    private T[] MaskOf(int portion)
    {
        if (_masks[portion] is { } kept)
        {
            return kept;
        }

        var mask = new T[_portions.Group];
        for (var cell = 0; cell < mask.Length; cell++)
        {
            mask[cell] = _portions.LeavesRoom(cell, portion) ? T.Zero : Never;
        }

        return mask.Length <= MostKept ? _masks[portion] = mask : mask;
    }

    /// <summary>What is added to each cell of a group.</summary>
    private readonly struct Adds(T[] mask, T cost)
    {
        private readonly Vector256<T> _first = Vector256.Max(Vector256.Create(mask.AsSpan()), Vector256.Create(cost));

        public void To(ref T to, ref T from, int group)
        {
            var sum = Vector256.LoadUnsafe(ref from, (nuint)group) + _first;
            Vector256.Min(Vector256.LoadUnsafe(ref to, (nuint)group), sum).StoreUnsafe(ref to, (nuint)group);
            for (var cell = Vector256<T>.Count; cell < mask.Length; cell += Vector256<T>.Count)
            {
                sum = Vector256.LoadUnsafe(ref from, (nuint)(group + cell)) + Vector256.Max(Vector256.LoadUnsafe(ref mask[0], (nuint)cell), Vector256.Create(cost));
                Vector256.Min(Vector256.LoadUnsafe(ref to, (nuint)(group + cell)), sum).StoreUnsafe(ref to, (nuint)(group + cell));
            }
        }
    }
}
