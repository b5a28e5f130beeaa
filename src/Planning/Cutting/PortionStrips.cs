using System.Numerics;
using System.Runtime.InteropServices;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// For every portion of a small demand, the lowest strip of one cloth that gives it, or the least of that cloth's length.
/// Stacks are taken up in the order of their heights: with all that are no higher than a strip, the least width of each
/// portion says whether the strip gives it. Lengths are counted in the measure that all sides have in common.
/// </summary>
internal sealed class PortionStrips<T>
    where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
{
    private const int MostStacks = 200_000;

    private readonly GroundTables _ground;
    private readonly Portions _portions;
    private readonly int[] _need;
    private readonly long _measure;
    private readonly long[] _columnWidths;
    private readonly int[][] _lowest;
    private readonly int[] _tall;

    private PortionStrips(GroundTables ground, Portions portions, int[] need, long measure)
    {
        (_ground, _portions, _need, _measure) = (ground, portions, need, measure);
        _columnWidths = [.. ground.Facings.Select(facing => facing.Width).Distinct().Order()];
        _lowest = [.. _columnWidths.Select(width => Enumerable.Range(0, need.Length).Select(size => LowestWay(size, width)).ToArray())];
        _tall = [.. Enumerable.Range(0, ground.Facings.Length).Where(facing => ground.Facings[facing].Height > ground.Longest).OrderBy(facing => ground.Facings[facing].Height)];
        Heights = new PortionTable<T>(portions);
        Lengths = new PortionTable<T>(portions);
    }

    /// <summary>Height of the lowest strip that gives a portion.</summary>
    public PortionTable<T> Heights { get; }

    /// <summary>Height of the strips, one or more, that give a portion from the least of the cloth's length, or more than is looked for.</summary>
    public PortionTable<T> Lengths { get; }

    /// <summary>The tables of one cloth, or null where they take more work than is allowed.</summary>
    /// <param name="ground">The cloth.</param>
    /// <param name="portions">Of the demand.</param>
    /// <param name="need">The demand by size.</param>
    /// <param name="measure">Ticks that all sides are whole multiples of.</param>
    /// <param name="most">Ticks of the cloth's length that a plan worth looking for takes at most.</param>
    /// <param name="needs">What a strip must be worth at least.</param>
    public static PortionStrips<T>? Of(GroundTables ground, Portions portions, int[] need, long measure, long most, StripNeeds needs)
    {
        var strips = new PortionStrips<T>(ground, portions, need, measure);
        return strips.FillHeights(most, needs) && strips.FillLengths(needs) ? strips : null;
    }

    public long TicksOf(T length) => long.CreateChecked(length) * _measure;

    /// <summary>Strips that give a portion from the least length.</summary>
    public List<Recipe> Read(int portion)
    {
        var strips = new List<Recipe>();
        while (portion > 0)
        {
            var (all, length) = (portion, Lengths[portion]);
            var next = _portions.Within(all).First(part => part > 0 && Heights.Has(part) && Heights[part] + Lengths[all - part] <= length);
            strips.Add(ReadStrip(next));
            portion -= next;
        }

        return strips;
    }

    private bool FillHeights(long most, StripNeeds needs)
    {
        if (Stacks(Math.Min(most, _tall.Length == 0 ? _ground.Longest : _ground.Facings[_tall[^1]].Height)) is not { } stacks)
        {
            return false;
        }

        if (needs.OfStacks(_ground, _columnWidths) is { } least)
        {
            stacks.RemoveAll(stack => needs.WorthOf(stack.Portion) < least[stack.Column][_ground.Tables.Heights.IndexAtMost(stack.Height)]);
        }

        var across = In(_ground.Ground.Across);
        var widths = new PortionTable<T>(_portions);
        var taken = 0;
        while (taken < stacks.Count && stacks[taken].Height <= _ground.Longest && !_portions.Work.IsSpent)
        {
            var height = stacks[taken].Height;
            taken = Take(stacks, taken, height, widths);
            Heights.LowerWhere(widths, across, In(height));
        }

        foreach (var facing in _tall.Where(facing => _ground.Facings[facing].Height <= most))
        {
            // Above the ruler only a strip with a piece of just that height; where more of it is cut than is wanted, it is spared.
            var (lie, height) = (_ground.Facings[facing], In(_ground.Facings[facing].Height));
            taken = Take(stacks, taken, lie.Height, widths);
            _portions.Work.Spend(_portions.Count);
            for (var portion = 0; portion < _portions.Count; portion++)
            {
                if (widths.Has(portion) && widths[portion] + In(lie.Width) <= across)
                {
                    var with = _portions.CountOf(portion, lie.Size) < _need[lie.Size] ? portion + _portions.StepOf(lie.Size) : portion;
                    Heights[with] = T.Min(Heights[with], height);
                    Heights[portion] = portion == 0 ? T.Zero : T.Min(Heights[portion], height);
                }
            }
        }

        Heights.Close(); // Stacks that are no use may give part of what useful ones give.
        return !_portions.Work.IsSpent;
    }

    /// <summary>Takes up the stacks from a place in the list on that are no higher than a strip; returns the place after the last.</summary>
    private int Take(List<PortionStack> stacks, int from, long height, PortionTable<T> widths)
    {
        for (; from < stacks.Count && stacks[from].Height <= height && !_portions.Work.IsSpent; from++)
        {
            // One that is no narrower than lower stacks with the same pieces, side by side, gains nothing.
            var width = In(stacks[from].Width);
            if (widths[stacks[from].Portion] > width)
            {
                widths.Offer(stacks[from].Portion, width);
            }
        }

        return from;
    }

    /// <summary>
    /// Portions by the last of their sizes and how many pieces they have of it: one strip gives some of those, the rest is known
    /// by then. Only strips to which nothing can be added are laid; what they give beyond a portion is left out after each step.
    /// </summary>
    private bool FillLengths(StripNeeds needs)
    {
        var least = new Dictionary<T, double>();
        for (var portion = 1; portion < _portions.Group; portion++)
        {
            if (Heights[portion] < Lengths[portion] && IsUseful(portion))
            {
                Lengths.Offer(portion, Heights[portion], below: 0);
            }
        }

        Lengths.Close(_portions.Group, _portions.Group);
        var beyond = new PortionTable<T>(_portions);
        foreach (var (step, need) in _portions.Outer)
        {
            Heights.ReadBeyond(beyond, step, step * (need + 1), step);
            for (var count = 1; count <= need && !_portions.Work.IsSpent; count++)
            {
                for (var portion = step; portion < step * (count + 1) && !_portions.Work.IsSpent; portion++)
                {
                    var own = portion / step;
                    var height = Heights[portion];
                    if (height < beyond[portion] && (own == count ? height < Lengths[portion] : height <= Lengths[portion] && height < Heights[portion + step]) && IsUseful(portion))
                    {
                        Lengths.Join(Lengths, portion, height, step, (count - own) * step);
                    }
                }

                Lengths.Close(step * (count + 1), step);
                for (var fewer = count; fewer > 0; fewer--)
                {
                    Lengths.LowerTo((fewer - 1) * step, fewer * step, step);
                }
            }
        }

        return !_portions.Work.IsSpent;

        bool IsUseful(int portion)
        {
            ref var known = ref CollectionsMarshal.GetValueRefOrAddDefault(least, Heights[portion], out var isKnown);
            known = isKnown ? known : needs.OfStrip(TicksOf(Heights[portion]));
            return needs.WorthOf(portion) >= known;
        }
    }

    /// <summary>Whole measures within a length.</summary>
    private T In(long ticks) => T.CreateChecked(ticks / _measure);

    /// <summary>The columns of a lowest strip: the tables once more for its pieces alone.</summary>
    private Recipe ReadStrip(int portion)
    {
        var (counts, height) = (_portions.Read(portion), TicksOf(Heights[portion]));
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
        var stacks = new PortionStrips<T>(_ground, part, counts, _measure).Stacks(height)!;
        var widths = new PortionTable<T>(part);
        foreach (var stack in stacks)
        {
            widths.Offer(stack.Portion, In(stack.Width));
        }

        if (widths[part.All] > In(across))
        {
            return null;
        }

        var row = new List<int[]>();
        for (var portion = part.All; portion > 0;)
        {
            var rest = portion;
            var stack = stacks.First(stack => part.Holds(rest, stack.Portion) && widths[rest - stack.Portion] + In(stack.Width) == widths[rest]);
            row.Add([.. part.Read(stack.Portion).SelectMany((count, size) => Enumerable.Repeat(_lowest[stack.Column][size], count))]);
            portion -= stack.Portion;
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
