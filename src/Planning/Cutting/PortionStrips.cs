namespace KittingBee.Planning.Cutting;

/// <summary>
/// For every portion of a small demand, the lowest strip of one cloth that gives it, or the least of that cloth's length.
/// Stacks are taken up in the order of their heights: with all that are no higher than a strip, the least width of each
/// portion says whether the strip gives it.
/// </summary>
internal sealed class PortionStrips
{
    private const int MostStacks = 200_000;

    private readonly GroundTables _ground;
    private readonly Portions _portions;
    private readonly int[] _need;
    private readonly long[] _columnWidths;
    private readonly int[][] _lowest;
    private readonly int[] _tall;

    private PortionStrips(GroundTables ground, Portions portions, int[] need)
    {
        (_ground, _portions, _need) = (ground, portions, need);
        _columnWidths = [.. ground.Facings.Select(facing => facing.Width).Distinct().Order()];
        _lowest = [.. _columnWidths.Select(width => Enumerable.Range(0, need.Length).Select(size => LowestWay(size, width)).ToArray())];
        _tall = [.. Enumerable.Range(0, ground.Facings.Length).Where(facing => ground.Facings[facing].Height > ground.Longest).OrderBy(facing => ground.Facings[facing].Height)];
        Heights = portions.NewTable();
        Lengths = portions.NewTable();
    }

    /// <summary>Height of the lowest strip that gives a portion.</summary>
    public long[] Heights { get; }

    /// <summary>Height of the strips, one or more, that give a portion from the least of the cloth's length.</summary>
    public long[] Lengths { get; }

    /// <summary>The tables of one cloth, or null where they take more work than is allowed.</summary>
    /// <param name="ground">The cloth.</param>
    /// <param name="portions">Of the demand.</param>
    /// <param name="need">The demand by size.</param>
    /// <param name="isUseful">False for a portion in a strip of so many ticks that no plan worth looking for has.</param>
    public static PortionStrips? Of(GroundTables ground, Portions portions, int[] need, Func<int, long, bool> isUseful)
    {
        var strips = new PortionStrips(ground, portions, need);
        return strips.FillHeights() && strips.FillLengths(isUseful) ? strips : null;
    }

    /// <summary>Strips that give a portion from the least length.</summary>
    public List<Recipe> Read(int portion)
    {
        var strips = new List<Recipe>();
        while (portion > 0)
        {
            var next = _portions.Within(portion).First(part => part > 0 && Heights[part] < Portions.Never && Heights[part] + Lengths[portion - part] == Lengths[portion]);
            strips.Add(ReadStrip(next));
            portion -= next;
        }

        return strips;
    }

    private bool FillHeights()
    {
        if (Stacks(_tall.Length == 0 ? _ground.Longest : _ground.Facings[_tall[^1]].Height) is not { } stacks)
        {
            return false;
        }

        var across = _ground.Ground.Across;
        var widths = _portions.NewTable();
        var reached = new int[_portions.Count];
        var taken = Take(stacks, 0, _ground.Longest, widths, reached);
        for (var portion = 1; portion < widths.Length; portion++)
        {
            Heights[portion] = widths[portion] == Portions.Never ? Portions.Never : stacks[reached[portion]].Height;
        }

        foreach (var facing in _tall)
        {
            // Above the ruler only a strip with a piece of just that height; where more of it is cut than is wanted, it is spared.
            var lie = _ground.Facings[facing];
            taken = Take(stacks, taken, lie.Height, widths, reached);
            _portions.Work.Spend(widths.Length);
            for (var portion = 0; portion < widths.Length; portion++)
            {
                if (widths[portion] + lie.Width <= across)
                {
                    var with = _portions.CountOf(portion, lie.Size) < _need[lie.Size] ? portion + _portions.StepOf(lie.Size) : portion;
                    Heights[with] = Math.Min(Heights[with], lie.Height);
                    Heights[portion] = Math.Min(Heights[portion], portion == 0 ? 0 : lie.Height);
                }
            }
        }

        return !_portions.Work.IsSpent;
    }

    /// <summary>Takes up the stacks from a place in the list on that are no higher than a strip; returns the place after the last.</summary>
    private int Take(List<PortionStack> stacks, int from, long height, long[] widths, int[] reached)
    {
        for (; from < stacks.Count && stacks[from].Height <= height && !_portions.Work.IsSpent; from++)
        {
            // One that is no narrower than lower stacks with the same pieces, side by side, gains nothing.
            if (widths[stacks[from].Portion] > stacks[from].Width)
            {
                _portions.Offer(widths, stacks[from].Portion, stacks[from].Width, _ground.Ground.Across, from, reached);
            }
        }

        return from;
    }

    private bool FillLengths(Func<int, long, bool> isUseful)
    {
        for (var portion = 1; portion < Heights.Length && !_portions.Work.IsSpent; portion++)
        {
            if (Heights[portion] < Lengths[portion] && isUseful(portion, Heights[portion]))
            {
                _portions.Offer(Lengths, portion, Heights[portion], _ground.Ground.Along);
            }
        }

        return !_portions.Work.IsSpent;
    }

    /// <summary>The columns of a lowest strip: the tables once more for its pieces alone.</summary>
    private Recipe ReadStrip(int portion)
    {
        var (counts, height) = (_portions.Read(portion), Heights[portion]);
        if (height <= _ground.Longest)
        {
            return _ground.Make(ReadRow(counts, height, _ground.Ground.Across)!);
        }

        foreach (var facing in _tall.Where(facing => _ground.Facings[facing].Height == height))
        {
            var rest = counts.ToArray();
            rest[_ground.Facings[facing].Size] = Math.Max(0, rest[_ground.Facings[facing].Size] - 1);
            if (ReadRow(rest, height, _ground.Ground.Across - _ground.Facings[facing].Width) is { } row)
            {
                return _ground.Make(row.Prepend([facing]));
            }
        }

        throw new InvalidOperationException("A strip of the tables cannot be read back.");
    }

    private List<int[]>? ReadRow(int[] counts, long height, long across)
    {
        var part = Portions.Of(counts, int.MaxValue, new PortionWork(long.MaxValue, CancellationToken.None))!;
        var stacks = new PortionStrips(_ground, part, counts).Stacks(height)!;
        var (widths, last) = (part.NewTable(), new int[part.Count]);
        for (var index = 0; index < stacks.Count; index++)
        {
            part.Offer(widths, stacks[index].Portion, stacks[index].Width, across, index, last: last);
        }

        if (widths[^1] == Portions.Never)
        {
            return null;
        }

        var row = new List<int[]>();
        for (var portion = part.Count - 1; portion > 0; portion -= stacks[last[portion]].Portion)
        {
            var stack = stacks[last[portion]];
            row.Add([.. part.Read(stack.Portion).SelectMany((count, size) => Enumerable.Repeat(_lowest[stack.Column][size], count))]);
        }

        return row;
    }

    /// <summary>Every stack of wanted pieces up to a height, lowest first; null where there are too many.</summary>
    private List<PortionStack>? Stacks(long most)
    {
        var stacks = new List<PortionStack>();
        for (var column = 0; column < _columnWidths.Length; column++)
        {
            if (!Stack(stacks, column, 0, 0, 0, column == 0, most))
            {
                return null;
            }
        }

        stacks.Sort();
        return stacks;
    }

    private bool Stack(List<PortionStack> stacks, int column, int size, int portion, long height, bool isOwn, long most)
    {
        if (size == _need.Length)
        {
            // Without a piece that lies lower for the column's width, a narrower column is as good.
            if (isOwn && portion > 0)
            {
                stacks.Add(new PortionStack(height, _columnWidths[column], portion, column));
            }

            return stacks.Count <= MostStacks;
        }

        var way = _lowest[column][size];
        var isLower = column == 0 || way != _lowest[column - 1][size];
        for (var count = 0; count <= _need[size]; count++)
        {
            _portions.Work.Spend(1);
            if (count > 0 && (way < 0 || (height += _ground.Facings[way].Height) > most))
            {
                break;
            }

            if (_portions.Work.IsSpent || !Stack(stacks, column, size + 1, portion + (count * _portions.StepOf(size)), height, isOwn || (count > 0 && isLower), most))
            {
                return false;
            }
        }

        return true;
    }

    private int LowestWay(int size, long width) => Enumerable.Range(0, _ground.Facings.Length)
        .Where(facing => _ground.Facings[facing].Size == size && _ground.Facings[facing].Width <= width)
        .OrderBy(facing => _ground.Facings[facing].Height).ThenBy(facing => _ground.Facings[facing].Width)
        .FirstOrDefault(-1);

    /// <summary>A stack of pieces, each lying its lowest way for the column.</summary>
    private readonly record struct PortionStack(long Height, long Width, int Portion, int Column) : IComparable<PortionStack>
    {
        public int CompareTo(PortionStack other) =>
            Height != other.Height ? Height.CompareTo(other.Height)
            : Width != other.Width ? Width.CompareTo(other.Width)
            : Portion.CompareTo(other.Portion);
    }
}
