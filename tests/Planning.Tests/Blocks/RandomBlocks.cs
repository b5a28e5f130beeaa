using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>Makes random good blocks from a seed: any grid, any spans (also such that no seam runs across), any kind that fits.</summary>
internal sealed class RandomBlocks(int seed)
{
    private static readonly string[] Letters = ["A", "B", "C", "D"];
    private readonly Random random = new(seed);

    /// <summary>Sides are whole multiples of ½ in, so that halves are on the quarter and every cut size is on the step.</summary>
    public Block Next(int mostCells = 5, int depth = 1)
    {
        var columns = Sides(mostCells);
        var rows = Sides(mostCells);
        var units = new List<Unit>();
        var taken = new bool[rows.Count, columns.Count];
        for (var row = 0; row < rows.Count; row++)
        {
            for (var column = 0; column < columns.Count; column++)
            {
                if (!taken[row, column])
                {
                    units.Add(UnitAt(row, column, rows, columns, taken, depth));
                }
            }
        }

        return new("Random", columns, rows, [.. Letters.Select(letter => new BlockFabric(letter, "fabric " + letter))], [.. units.OrderBy(_ => random.Next())]);
    }

    private List<Length> Sides(int most)
    {
        // Often all alike, as in real blocks, so that square and two-to-one units occur.
        var count = random.Next(1, most + 1);
        var same = Half(random.Next(2, 9));
        var alike = random.Next(3) > 0;
        return [.. Enumerable.Range(0, count).Select(_ => alike ? same : Half(random.Next(2, 9)))];
    }

    private static Length Half(int halves) => Length.FromInches(0, halves, 2);

    private Unit UnitAt(int row, int column, List<Length> rows, List<Length> columns, bool[,] taken, int depth)
    {
        var (rowSpan, columnSpan) = (1, 1);
        for (var tries = random.Next(4); tries > 0; tries--)
        {
            if (random.Next(2) == 0 && IsFree(taken, row, column, rowSpan + 1, columnSpan))
            {
                rowSpan++;
            }
            else if (IsFree(taken, row, column, rowSpan, columnSpan + 1))
            {
                columnSpan++;
            }
        }

        for (var r = row; r < row + rowSpan; r++)
        {
            for (var c = column; c < column + columnSpan; c++)
            {
                taken[r, c] = true;
            }
        }

        var width = PlacedBlock.Total(columns.Skip(column).Take(columnSpan));
        var height = PlacedBlock.Total(rows.Skip(row).Take(rowSpan));
        return Kind(width, height, depth) with { Row = row, Column = column, RowSpan = rowSpan, ColumnSpan = columnSpan };
    }

    private static bool IsFree(bool[,] taken, int row, int column, int rowSpan, int columnSpan)
    {
        if (row + rowSpan > taken.GetLength(0) || column + columnSpan > taken.GetLength(1))
        {
            return false;
        }

        for (var r = row; r < row + rowSpan; r++)
        {
            for (var c = column; c < column + columnSpan; c++)
            {
                if (taken[r, c])
                {
                    return false;
                }
            }
        }

        return true;
    }

    private Unit Kind(Length width, Length height, int depth)
    {
        var turn = random.Next(4) * 90;
        var (across, down) = turn % 180 == 0 ? (width, height) : (height, width);
        var square = width == height;
        return random.Next(11) switch
        {
            0 or 1 when square => New(UnitKind.HalfSquareTriangle, turn, Some(2)),
            2 when square => New(UnitKind.QuarterSquareTriangle, turn, random.Next(2) == 0 ? Some(4) : [.. Repeat(Some(2))]),
            3 when square => New(UnitKind.SquareInASquare, turn, Some(random.Next(2) == 0 ? 2 : 5)),
            4 when across == down * 2 => New(UnitKind.FlyingGeese, turn, Some(3)),
            5 => Corners(turn, Length.Min(width, height)),
            6 when down > Length.FromInches(1) => New(UnitKind.Rails, turn, Some(2)) with { Widths = [Half(1), down - Half(1)] },
            7 => New(UnitKind.Checkerboard, turn, []) with { Patches = Patches(across, down) },
            8 when depth > 0 => Nested(turn, across, down, depth),
            9 when square => Pieced(turn, width),
            _ => New(UnitKind.Plain, turn, Some(1)),
        };
    }

    private static Unit New(UnitKind kind, int turn, IReadOnlyList<string?> fabrics) => new() { Row = 0, Column = 0, Kind = kind, Turn = turn, Fabrics = fabrics };

    private string[] Some(int count) => [.. Enumerable.Range(0, count).Select(_ => Letters[random.Next(Letters.Length)])];

    private static IEnumerable<string> Repeat(string[] letters) => [.. letters, .. letters];

    private Unit Corners(int turn, Length side)
    {
        string?[] letters = [Some(1)[0], .. Enumerable.Range(0, 4).Select(_ => random.Next(2) == 0 ? null : Some(1)[0])];
        letters[random.Next(1, 5)] ??= "B";
        return New(UnitKind.FlippedCorners, turn, letters) with { Corner = side.DivideRoundingDown(2) };
    }

    /// <summary>As many patches as leave sides on the eighth.</summary>
    private List<IReadOnlyList<string>> Patches(Length across, Length down)
    {
        var eighth = Length.FromInches(0, 1, 8);
        int Parts(Length side) => new[] { 1, 2, 3, 4 }.Where(parts => side.IsMultipleOf(eighth * parts)).OrderBy(_ => random.Next()).First();
        var columns = Parts(across);
        return [.. Enumerable.Range(0, Parts(down)).Select(_ => (IReadOnlyList<string>)Some(columns))];
    }

    private Unit Nested(int turn, Length across, Length down, int depth)
    {
        // Drawn at its own size: splitting a cell anew keeps the ratio exact. Half the time drawn at double size, to be scaled.
        var scale = random.Next(2) + 1;
        var inner = Next(3, depth - 1);
        var columns = Split(across * scale, inner.Columns.Count);
        var rows = Split(down * scale, inner.Rows.Count);
        var plain = inner.Units.Select(unit => New(UnitKind.Plain, 0, Some(1)) with
        {
            Row = unit.Row, Column = unit.Column, RowSpan = unit.RowSpan, ColumnSpan = unit.ColumnSpan,
        });
        return New(UnitKind.Block, turn, []) with { Inner = inner with { Columns = columns, Rows = rows, Units = [.. plain] } };
    }

    /// <summary>A half of steps of any sizes that mirror each other; a larger square may stand on the diagonal.</summary>
    private Unit Pieced(int turn, Length side)
    {
        var step = side.DivideRoundingDown(4);
        var large = random.Next(2) == 0;
        IReadOnlyList<Length> columns = large ? [step, step, step * 2] : [step, step, step, step];
        var units = new List<Unit>();
        for (var row = 0; row < columns.Count; row++)
        {
            for (var column = 0; column < columns.Count; column++)
            {
                var triangles = row + column < columns.Count - 1 && columns[column] == columns[columns.Count - 1 - row] && random.Next(2) == 0;
                units.Add((triangles ? New(UnitKind.HalfSquareTriangle, random.Next(4) * 90, Some(2)) : New(UnitKind.Plain, 0, Some(1))) with { Row = row, Column = column });
            }
        }

        return New(UnitKind.PiecedTriangle, turn, Some(1)) with
        {
            Inner = new("Half", columns, Mirrored(columns), [.. Letters.Select(letter => new BlockFabric(letter, letter))], units),
        };
    }

    private static List<Length> Mirrored(IReadOnlyList<Length> sides) => [.. sides.Reverse()];

    private static List<Length> Split(Length whole, int parts)
    {
        var quarter = Length.FromInches(0, 1, 4);
        if (whole < quarter * parts)
        {
            throw new InvalidOperationException("The cell is too small to split.");
        }

        return [.. Enumerable.Repeat(quarter, parts - 1), whole - (quarter * (parts - 1))];
    }
}
