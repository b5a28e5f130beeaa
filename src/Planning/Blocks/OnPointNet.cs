using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// Squares on point with strips of equal width between and around them. With blocks of side f and strips of width w, the next
/// square in a row is (f + w)√2 away, and the tips of the outermost cornerstones touch the edge, so the whole is
/// (n(f + w) + w)√2 across for n squares. A side triangle finishes with legs of f + w, a corner triangle with a hypotenuse of
/// f + 2w. Points are rounded to the tick; nothing is cut from them.
/// </summary>
internal sealed class OnPointNet(Length side, Length strip, Length left, Length top)
{
    /// <summary>From the edge to the middle of the outermost squares.</summary>
    private readonly Length inset = Diagonal(side + (strip * 2));

    /// <summary>Half the way from one square to the next in a row.</summary>
    private readonly Length half = Diagonal(side + strip);

    public static Length Across(Length side, Length strip, int squares) => CutSizes.TimesRootTwo(((side + strip) * squares) + strip);

    public Length Across(int squares) => Across(side, strip, squares);

    /// <summary>The middle of a square, by half steps: even places are outer rows and columns, odd ones lie between.</summary>
    public PatchPoint Middle(int x, int y) => new(left + inset + (half * x), top + inset + (half * y));

    public PatchPoint[] Square(PatchPoint middle) => Rectangle(middle, -side, side, -side, side);

    /// <summary>The four strips around a square.</summary>
    public IEnumerable<PatchPoint[]> Sashes(PatchPoint middle)
    {
        var outer = side + (strip * 2);
        return
        [
            Rectangle(middle, -side, side, -outer, -side),
            Rectangle(middle, side, outer, -side, side),
            Rectangle(middle, -side, side, side, outer),
            Rectangle(middle, -outer, -side, -side, side),
        ];
    }

    /// <summary>Cornerstones at the right and foot of a square; at its left and head too where no square comes before.</summary>
    public IEnumerable<PatchPoint[]> Cornerstones(PatchPoint middle, bool leftmost, bool topmost)
    {
        var outer = side + (strip * 2);
        yield return Rectangle(middle, side, outer, side, outer);
        yield return Rectangle(middle, -outer, -side, side, outer);
        if (leftmost)
        {
            yield return Rectangle(middle, -outer, -side, -outer, -side);
        }

        if (topmost)
        {
            yield return Rectangle(middle, side, outer, -outer, -side);
        }
    }

    /// <summary>Side triangles, then the four corners.</summary>
    public IEnumerable<PatchPoint[]> Triangles(int across, int down)
    {
        var (right, bottom) = (left + Across(across), top + Across(down));
        for (var x = 1; x < 2 * (across - 1); x += 2)
        {
            var middle = Middle(x, 0).X;
            yield return [new(middle - half, top), new(middle + half, top), new(middle, top + half)];
            yield return [new(middle, bottom - half), new(middle + half, bottom), new(middle - half, bottom)];
        }

        for (var y = 1; y < 2 * (down - 1); y += 2)
        {
            var middle = Middle(0, y).Y;
            yield return [new(left, middle - half), new(left + half, middle), new(left, middle + half)];
            yield return [new(right, middle - half), new(right, middle + half), new(right - half, middle)];
        }

        yield return [new(left, top), new(left + inset, top), new(left, top + inset)];
        yield return [new(right - inset, top), new(right, top), new(right, top + inset)];
        yield return [new(right, bottom - inset), new(right, bottom), new(right - inset, bottom)];
        yield return [new(left, bottom - inset), new(left + inset, bottom), new(left, bottom)];
    }

    /// <summary>
    /// A rectangle turned by an eighth, clockwise; its sides are given twice as far from the middle as they are, to keep halves
    /// whole. The first direction goes down to the right, the second down to the left.
    /// </summary>
    private static PatchPoint[] Rectangle(PatchPoint middle, Length from, Length to, Length start, Length end) =>
        [Turned(middle, from, start), Turned(middle, to, start), Turned(middle, to, end), Turned(middle, from, end)];

    private static PatchPoint Turned(PatchPoint middle, Length right, Length leftward) =>
        new(middle.X + HalfDiagonal(right - leftward), middle.Y + HalfDiagonal(right + leftward));

    private static Length HalfDiagonal(Length twice) =>
        (twice < Length.Zero ? -Diagonal(-twice) : Diagonal(twice)).DivideRoundingDown(2);

    private static Length Diagonal(Length length) => CutSizes.DividedByRootTwo(length);
}
