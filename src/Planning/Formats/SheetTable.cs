using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>
/// What fits one sheet, cut in one direction first: for each state, the least height of strips that hold its pieces. Built in
/// the three stages of the cutting: stacks in a column, columns in a strip, strips on the sheet; each stage by dynamic
/// programming over all states, so that nothing is missed while <see cref="IsComplete"/>.
/// </summary>
internal sealed class SheetTable
{
    private const long MostSteps = 5_000_000;

    private readonly IReadOnlyList<CutPiece> pieces;
    private readonly StateSpace space;
    private readonly Lie[][] lies;
    private readonly long across;
    private readonly long up;
    private readonly long ruler;
    private readonly List<(long Height, int State, int[] Counts)> strips = [];
    private readonly long[] least;
    private readonly int[] choice;
    private long steps;

    public SheetTable(IReadOnlyList<CutPiece> pieces, StateSpace space, Length width, Length length, bool lengthwise, bool directional, Length longestStrip)
    {
        (this.pieces, this.space, Lengthwise) = (pieces, space, lengthwise);
        (across, up) = lengthwise ? (length.Ticks, width.Ticks) : (width.Ticks, length.Ticks);
        ruler = longestStrip.Ticks;
        lies = [.. pieces.Select(piece => Ways(piece, directional).ToArray())];
        FindStrips();
        (least, choice) = Cover([.. strips.Select(strip => (strip.Height, strip.Counts))]);
    }

    /// <summary>True when strips run along the sheet's length.</summary>
    public bool Lengthwise { get; }

    /// <summary>False when the work ran out before all strips were tried: what fits then fits, but more might.</summary>
    public bool IsComplete { get; private set; } = true;

    /// <summary>True when one sheet holds the state's pieces.</summary>
    public bool Holds(int state) => least[state] <= up;

    /// <summary>The strips that hold a state's pieces and no others.</summary>
    public IReadOnlyList<Strip> Layout(int state)
    {
        var result = new List<Strip>();
        while (state > 0)
        {
            var (height, _, counts) = strips[choice[state]];
            var rest = space.Less(state, counts);
            result.Add(StripOf(height, state - rest));
            state = rest;
        }

        return
        [
            .. result.GroupBy(strip => (strip.Height, string.Join(' ', strip.Columns.Select(column => $"{column.Repeat}({Pieces(column)})"))))
                .Select(group => group.First() with { Repeat = group.Count() })
                .OrderByDescending(strip => strip.Height),
        ];
    }

    private static string Pieces(Column column) => string.Join('+', column.Pieces.Select(piece => $"{piece.Piece}×{piece.Count}"));

    private Strip StripOf(long height, int state)
    {
        var stacks = Stacks(height);
        var (_, chosen) = Cover([.. stacks.Select(stack => (stack.Width, stack.Counts))]);
        var columns = new List<Column>();
        while (state > 0)
        {
            var stack = stacks[chosen[state]];
            var rest = space.Less(state, stack.Counts);
            var counts = space.Counts(state - rest);
            var stacked = Enumerable.Range(0, counts.Length).Where(size => counts[size] > 0).Select(size =>
            {
                var lie = LowestLie(size, stack.Width)!.Value;
                return new StackedPiece(size, Length.FromTicks(lie.Across), Length.FromTicks(lie.Up), lie.Turned, counts[size]);
            }).OrderByDescending(piece => piece.Width).ToList();
            columns.Add(new(stacked[0].Width, 1, stacked));
            state = rest;
        }

        var merged = columns
            .GroupBy(column => (column.Width, Pieces(column)))
            .Select(group => group.First() with { Repeat = group.Count() })
            .OrderByDescending(column => column.Width).ToList();
        var highest = merged.Max(column => column.Pieces.Aggregate(Length.Zero, (sum, piece) => sum + (piece.Height * piece.Count)));
        return new(highest, 1, merged);
    }

    private void FindStrips()
    {
        var lowest = Enumerable.Repeat(long.MaxValue, space.Count).ToArray();
        foreach (var height in StackHeights())
        {
            var stacks = Stacks(height);
            steps += (long)space.Count * stacks.Count;
            if (steps > MostSteps)
            {
                IsComplete = false;
                break;
            }

            var (width, _) = Cover([.. stacks.Select(stack => (stack.Width, stack.Counts))]);
            for (var state = 1; state < space.Count; state++)
            {
                if (width[state] > across)
                {
                    continue;
                }

                lowest[state] = Math.Min(lowest[state], height);
                if (lowest[state] == height && space.IsLargest(state, other => width[other] <= across))
                {
                    strips.Add((height, state, space.Counts(state)));
                }
            }
        }

        var most = (int)Math.Max(1, MostSteps / space.Count);
        if (strips.Count > most)
        {
            IsComplete = false;
            strips.RemoveRange(0, strips.Count - most);
        }
    }

    /// <summary>For each state, the least total of parts that hold it together, and the part to take first; far too large where it cannot be held.</summary>
    private (long[] Least, int[] Choice) Cover((long Size, int[] Counts)[] parts)
    {
        var result = new long[space.Count];
        var first = new int[space.Count];
        for (var state = 1; state < space.Count; state++)
        {
            result[state] = long.MaxValue / 2;
            for (var part = 0; part < parts.Length; part++)
            {
                var rest = space.Less(state, parts[part].Counts);
                if (rest != state && result[rest] + parts[part].Size < result[state])
                {
                    (result[state], first[state]) = (result[rest] + parts[part].Size, part);
                }
            }
        }

        return (result, first);
    }

    /// <summary>All heights that a stack can have, from low to high: no other strip height can be needed.</summary>
    private SortedSet<long> StackHeights()
    {
        var heights = new SortedSet<long>();
        foreach (var width in ColumnWidths())
        {
            var sums = new HashSet<long> { 0 };
            for (var size = 0; size < lies.Length; size++)
            {
                if (LowestLie(size, width) is { } lie)
                {
                    sums.UnionWith(sums.SelectMany(sum => Enumerable.Range(1, space.Caps[size]).Select(count => sum + (count * lie.Up)).TakeWhile(sum => sum <= Math.Min(up, ruler))).ToList());
                    heights.Add(lie.Up);
                }
            }

            heights.UnionWith(sums);
        }

        heights.RemoveWhere(height => height == 0 || height > up);
        return heights;
    }

    /// <summary>Stacks that a strip of this height can hold, none of which holds less in a column as wide as another's.</summary>
    private List<(long Width, int[] Counts)> Stacks(long height)
    {
        var found = new List<(long Width, int[] Counts)>();
        foreach (var width in ColumnWidths())
        {
            var limit = Math.Min(height, ruler);
            Pile(width, 0, limit, new int[lies.Length], counts => Keep(width, counts));

            // A piece taller than the ruler has a strip of its own height, so it stands alone.
            for (var size = 0; size < lies.Length; size++)
            {
                if (LowestLie(size, width) is { } lie && lie.Up > limit && lie.Up <= height)
                {
                    var alone = new int[lies.Length];
                    alone[size] = 1;
                    Keep(width, alone);
                }
            }
        }

        return found;

        // Widths come in ascending order, so one kept before is never wider.
        void Keep(long width, int[] counts)
        {
            if (counts.Any(count => count > 0) && !found.Any(other => Covers(other.Counts, counts)))
            {
                found.RemoveAll(other => other.Width == width && Covers(counts, other.Counts));
                found.Add((width, counts));
            }
        }
    }

    private void Pile(long width, int size, long room, int[] counts, Action<int[]> keep)
    {
        if (size == lies.Length)
        {
            keep([.. counts]);
            return;
        }

        var most = LowestLie(size, width) is { } lie ? (int)Math.Min(space.Caps[size], room / lie.Up) : 0;
        for (var count = most; count >= 0; count--)
        {
            counts[size] = count;
            Pile(width, size + 1, room - (count > 0 ? count * LowestLie(size, width)!.Value.Up : 0), counts, keep);
        }

        counts[size] = 0;
    }

    private IEnumerable<long> ColumnWidths() => lies.SelectMany(ways => ways).Select(lie => lie.Across).Where(width => width <= across).Distinct().Order();

    /// <summary>How a piece lies lowest in a column, or null where it is too wide.</summary>
    private Lie? LowestLie(int size, long width)
    {
        Lie? lowest = null;
        foreach (var lie in lies[size])
        {
            if (lie.Across <= width && (lowest is null || lie.Up < lowest.Value.Up))
            {
                lowest = lie;
            }
        }

        return lowest;
    }

    private IEnumerable<Lie> Ways(CutPiece piece, bool directional)
    {
        var plain = Lengthwise ? new Lie(piece.Height.Ticks, piece.Width.Ticks, false) : new Lie(piece.Width.Ticks, piece.Height.Ticks, false);
        yield return plain;
        if (piece.MayTurn && !directional && piece.Width != piece.Height)
        {
            yield return new Lie(plain.Up, plain.Across, true);
        }
    }

    private static bool Covers(int[] one, int[] other)
    {
        for (var size = 0; size < one.Length; size++)
        {
            if (one[size] < other[size])
            {
                return false;
            }
        }

        return true;
    }

    private readonly record struct Lie(long Across, long Up, bool Turned);
}
