using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// The pieced half of a pieced triangle: the upper left half of a square block, cut along the diagonal from lower left to upper
/// right. Whole units lie above the diagonal; on it stand plain squares, of which a triangle is seen; what lies below is not used.
/// </summary>
internal static class PiecedHalf
{
    /// <summary>Whether a unit of the block shows in the half, whole or as a triangle.</summary>
    public static bool IsSeen(Block block, Unit unit) => Place(block, unit) is not PlaceInHalf.Below;

    /// <summary>Where a unit lies; the block must be square and the unit on its grid.</summary>
    public static PlaceInHalf Place(Block block, Unit unit)
    {
        var side = PlacedBlock.Total(block.Columns);
        var left = PlacedBlock.Total(block.Columns.Take(unit.Column));
        var top = PlacedBlock.Total(block.Rows.Take(unit.Row));
        var right = left + PlacedBlock.Total(block.Columns.Skip(unit.Column).Take(unit.ColumnSpan));
        var bottom = top + PlacedBlock.Total(block.Rows.Skip(unit.Row).Take(unit.RowSpan));
        return right + bottom <= side ? PlaceInHalf.Above
            : left + top >= side ? PlaceInHalf.Below
            : left + bottom == side && right + top == side ? PlaceInHalf.OnDiagonal
            : PlaceInHalf.Across;
    }

    /// <summary>Whether a placed unit of the half stands on the diagonal; scaling may have moved its edges by a tick.</summary>
    public static bool IsOnDiagonal(PlacedBlock half, PlacedUnit unit) =>
        half.ColumnEdges[unit.Column + unit.ColumnSpan] + half.RowEdges[unit.Row + unit.RowSpan] > half.Width + unit.Form.Width.DivideRoundingDown(2);

    /// <summary>How the half is sewn together, innermost first: "a column of (a row of …) and B triangle".</summary>
    public static Sentence Sewing(PlacedBlock half) => Sewing(half, [.. half.Units]);

    private static Sentence Sewing(PlacedBlock half, List<PlacedUnit> units)
    {
        if (units is [var only])
        {
            return Name(half, only);
        }

        var columns = Parts(units, unit => unit.Column, unit => unit.Column + unit.ColumnSpan);
        var rows = Parts(units, unit => unit.Row, unit => unit.Row + unit.RowSpan);
        var parts = rows.Count > 1 ? rows : columns;
        if (parts.Count == 1)
        {
            return "the pieces as drawn, with a partial seam";
        }

        var sewn = Making.List(parts.Select(part => part.Count == 1 ? Sewing(half, part) : $"({Sewing(half, part)})"));
        return rows.Count > 1 ? (Sentence)$"a column of {sewn}" : $"a row of {sewn}";
    }

    /// <summary>Splits at every line that no unit reaches over.</summary>
    private static List<List<PlacedUnit>> Parts(List<PlacedUnit> units, Func<PlacedUnit, int> from, Func<PlacedUnit, int> to)
    {
        var parts = new List<List<PlacedUnit>>();
        var reach = int.MinValue;
        foreach (var unit in units.OrderBy(from))
        {
            if (from(unit) >= reach)
            {
                parts.Add([]);
            }

            parts[^1].Add(unit);
            reach = Math.Max(reach, to(unit));
        }

        return parts;
    }

    private static Sentence Name(PlacedBlock half, PlacedUnit unit)
    {
        var letters = string.Join('/', unit.Form.Letters.OfType<string>().Distinct());
        return IsOnDiagonal(half, unit) ? (Sentence)$"{letters} triangle"
            : unit.Form.Kind == UnitKind.Plain ? (Sentence)$"{letters} patch"
            : $"{letters} {UnitKinds.InWords(unit.Form.Kind)}";
    }
}

/// <summary>Where a unit lies in the block whose upper left half is used.</summary>
internal enum PlaceInHalf
{
    /// <summary>Wholly in the half.</summary>
    Above,

    /// <summary>A square with the diagonal as its own.</summary>
    OnDiagonal,

    /// <summary>Not in the half.</summary>
    Below,

    /// <summary>Partly in the half: it cannot be cut so.</summary>
    Across,
}
