using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// How many seams a block is crossed by, and what they do to its size: with n seams across, seams that are each e too deep on
/// both sides make the block 2·n·e smaller (geometry).
/// </summary>
public static class SeamsAcross
{
    /// <summary>The most seams that any one row of the grid is crossed by, from left to right. Seams inside units that are trimmed to size do not count.</summary>
    public static int LeftToRight(Block block) =>
        block.Rows.Count == 0 ? 0 : Enumerable.Range(0, block.Rows.Count).Max(row => InRow(block, row));

    /// <summary>The most seams that any one column of the grid is crossed by, from top to bottom, counted likewise.</summary>
    public static int TopToBottom(Block block) => LeftToRight(OnItsSide(block));

    /// <summary>How much too deep each seam is (below zero: too shallow) where a block of <paramref name="right"/> size measures <paramref name="measured"/>; rounded to the nearest tick.</summary>
    public static Length TooDeep(Length right, Length measured, int seams) =>
        seams > 0
            ? Length.FromTicks((long)Math.Round((right - measured).Ticks / (2m * seams), MidpointRounding.AwayFromZero))
            : throw new ArgumentOutOfRangeException(nameof(seams), "At least one seam is needed.");

    /// <summary>What a block of <paramref name="right"/> size measures when each of its seams is <paramref name="tooDeep"/>.</summary>
    public static Length Measures(Length right, Length tooDeep, int seams) => right - (2 * seams * tooDeep);

    private static int InRow(Block block, int row)
    {
        var units = block.Units.Where(unit => unit.Row <= row && row < unit.Row + unit.RowSpan).ToList();
        return Math.Max(0, units.Count - 1) + units.Sum(Inside);
    }

    private static int Inside(Unit unit)
    {
        var sideways = unit.Turn is 90 or 270;
        return unit.Kind switch
        {
            UnitKind.Rails => sideways ? Math.Max(0, unit.Fabrics.Count - 1) : 0,
            UnitKind.Checkerboard when unit.Patches is { Count: > 0 } rows => Math.Max(0, (sideways ? rows.Count : rows[0].Count) - 1),
            UnitKind.Block when unit.Inner is { } inner => sideways ? LeftToRight(OnItsSide(inner)) : LeftToRight(inner),
            _ => 0,
        };
    }

    // Counting along rows of the block turned by a quarter is counting along its columns.
    private static Block OnItsSide(Block block) => block with
    {
        Columns = block.Rows,
        Rows = block.Columns,
        Units = [.. block.Units.Select(unit => unit with
        {
            Row = unit.Column, Column = unit.Row, RowSpan = unit.ColumnSpan, ColumnSpan = unit.RowSpan, Turn = (unit.Turn + 90) % 360,
        })],
    };
}
