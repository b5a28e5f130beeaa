using System.Globalization;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// A unit as it looks in its cell, its turn worked in, so that two units that look alike have equal forms however they
/// were entered.
/// </summary>
internal sealed record UnitForm
{
    public required UnitKind Kind { get; init; }

    /// <summary>Finished width as it lies.</summary>
    public required Length Width { get; init; }

    /// <summary>Finished height as it lies.</summary>
    public required Length Height { get; init; }

    /// <summary>
    /// Plain, template and the plain half of a pieced triangle [patch]; triangles [top, right, bottom, left]; geese [goose, left, right] seen along
    /// <see cref="Direction"/>; corners and square in a square [middle, upper left, upper right, lower right, lower left]; rails
    /// top to bottom (direction 0) or left to right (1); checkerboard row by row.
    /// </summary>
    public required IReadOnlyList<string?> Letters { get; init; }

    /// <summary>Quarter turns of geese (0 points up) and pieced triangles, 0 or 1 for rails; 0 otherwise.</summary>
    public int Direction { get; init; }

    /// <summary>Finished widths of the rails, in the order of the letters.</summary>
    public IReadOnlyList<Length> Widths { get; init; } = [];

    /// <summary>Patches in one row of a checkerboard.</summary>
    public int PatchColumns { get; init; }

    public Length Corner { get; init; }

    public Length CutWidth { get; init; }

    public Length CutHeight { get; init; }

    public int Count { get; init; } = 1;

    /// <summary>The nested block, turned and scaled already.</summary>
    public PlacedBlock? Inner { get; init; }

    /// <summary>
    /// The pieced half of a pieced triangle, scaled already: the units in its upper left half, and plain squares on the
    /// diagonal that only half is seen of. It is not turned: <see cref="Direction"/> says how it lies.
    /// </summary>
    public PlacedBlock? Half { get; init; }

    public int PatchRows => PatchColumns == 0 ? 0 : Letters.Count / PatchColumns;

    /// <summary>Equal for units that look alike in place.</summary>
    public string Key => string.Create(
        CultureInfo.InvariantCulture,
        $"{Kind}|{Direction}|{Width.Ticks}|{Height.Ticks}|{string.Join(',', Letters)}|{string.Join(',', Widths.Select(width => width.Ticks))}|{PatchColumns}|{Corner.Ticks}|{CutWidth.Ticks}|{CutHeight.Ticks}|{Count}|{Inner?.Key}|{Half?.Key}");

    /// <summary>What is made or cut as itself: a nested block opened up, a pieced triangle after the whole units of its half.</summary>
    public IEnumerable<UnitForm> Leaves() => this switch
    {
        { Inner: { } inner } => inner.Leaves(),
        { Half: { } half } => half.Units.Where(unit => !PiecedHalf.IsOnDiagonal(half, unit)).SelectMany(unit => unit.Form.Leaves()).Append(this),
        _ => [this],
    };

    /// <summary>The same unit turned by a quarter clockwise.</summary>
    public UnitForm Turned() => Kind switch
    {
        UnitKind.HalfSquareTriangle or UnitKind.QuarterSquareTriangle =>
            Swapped() with { Letters = [Letters[3], Letters[0], Letters[1], Letters[2]] },
        UnitKind.FlyingGeese or UnitKind.PiecedTriangle => Swapped() with { Direction = (Direction + 1) % 4 },
        UnitKind.FlippedCorners or UnitKind.SquareInASquare =>
            Swapped() with { Letters = [Letters[0], Letters[4], Letters[1], Letters[2], Letters[3]] },
        UnitKind.Rails when Direction == 0 =>
            Swapped() with { Direction = 1, Letters = [.. Letters.Reverse()], Widths = [.. Widths.Reverse()] },
        UnitKind.Rails => Swapped() with { Direction = 0 },
        UnitKind.Checkerboard => Swapped() with { Letters = TurnedPatches(), PatchColumns = PatchRows },
        UnitKind.Block => Swapped() with { Inner = Inner!.Turned() },
        _ => Swapped(),
    };

    /// <summary>One form for all turns of the unit: the one whose key sorts first. Geese and rails come out with direction 0.</summary>
    public UnitForm Canonical()
    {
        var best = this;
        var next = this;
        for (var quarter = 1; quarter < 4; quarter++)
        {
            next = next.Turned();
            if (string.CompareOrdinal(next.Key, best.Key) < 0)
            {
                best = next;
            }
        }

        return best;
    }

    private UnitForm Swapped() => this with { Width = Height, Height = Width };

    private string?[] TurnedPatches()
    {
        var turned = new string?[Letters.Count];
        for (var row = 0; row < PatchColumns; row++)
        {
            for (var column = 0; column < PatchRows; column++)
            {
                turned[(row * PatchRows) + column] = Letters[((PatchRows - 1 - column) * PatchColumns) + row];
            }
        }

        return turned;
    }
}
