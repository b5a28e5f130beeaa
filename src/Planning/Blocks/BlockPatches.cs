using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>A point of a drawing, from the block's upper left corner, finished size.</summary>
public readonly record struct PatchPoint(Length X, Length Y);

/// <summary>One patch of a block as it shows when finished.</summary>
/// <param name="Letter">Its fabric.</param>
/// <param name="Corners">Its corners clockwise.</param>
/// <param name="Unit">The number of its unit in the outermost block, from 1.</param>
/// <param name="IsTemplate">True for a cell whose shape is not drawn, only hatched.</param>
public sealed record Patch(string Letter, IReadOnlyList<PatchPoint> Corners, int Unit, bool IsTemplate)
{
    /// <summary>Twice the finished area, in square ticks.</summary>
    public Int128 TwiceArea
    {
        get
        {
            Int128 sum = 0;
            for (var index = 0; index < Corners.Count; index++)
            {
                var (one, next) = (Corners[index], Corners[(index + 1) % Corners.Count]);
                sum += ((Int128)one.X.Ticks * next.Y.Ticks) - ((Int128)next.X.Ticks * one.Y.Ticks);
            }

            return sum;
        }
    }
}

/// <summary>The patches of a block and its finished size, for drawing.</summary>
/// <param name="Width">Finished width of the grid.</param>
/// <param name="Height">Finished height of the grid.</param>
/// <param name="ColumnEdges">Distance of each grid line from the left, the first 0.</param>
/// <param name="RowEdges">Distance of each grid line from the top, the first 0.</param>
/// <param name="Patches">Each patch once.</param>
public sealed record BlockPatches(
    Length Width, Length Height, IReadOnlyList<Length> ColumnEdges, IReadOnlyList<Length> RowEdges, IReadOnlyList<Patch> Patches)
{
    private static readonly BlockPatches Nothing = new(Length.Zero, Length.Zero, [], [], []);

    /// <summary>
    /// The patches of a block. Of a block with problems, the units without one are drawn; nothing at all where the grid
    /// or the fabrics are wrong.
    /// </summary>
    public static BlockPatches Of(Block block)
    {
        var fields = BlockChecks.Check(block).Select(problem => problem.Field).ToList();
        var bad = fields.Select(UnitOf).OfType<int>().ToHashSet();
        if (fields.Any(field => UnitOf(field) is null && field is not ("units" or "name")) || block.Units.Count is 0 or > BlockLimits.Units)
        {
            return Nothing;
        }

        var placed = PlacedBlock.Of(block, index => !bad.Contains(index));
        var patches = new List<Patch>();
        foreach (var unit in placed.Units)
        {
            patches.AddRange(UnitPatches.Of(unit.Form, placed.ColumnEdges[unit.Column], placed.RowEdges[unit.Row], unit.Number));
        }

        return new(placed.Width, placed.Height, placed.ColumnEdges, placed.RowEdges, patches);
    }

    /// <summary>The unit that a problem's field names: 3 for <c>units[3].turn</c>.</summary>
    private static int? UnitOf(string field)
    {
        const string Start = "units[";
        return field.StartsWith(Start, StringComparison.Ordinal)
            && int.TryParse(field.AsSpan(Start.Length, field.IndexOf(']', StringComparison.Ordinal) - Start.Length), out var index)
                ? index
                : null;
    }
}
