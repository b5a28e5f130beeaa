using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>A straight seam inside a unit, from end to end.</summary>
/// <param name="From">One end, from the upper left corner of the unit or of the block.</param>
/// <param name="To">The other end.</param>
/// <param name="Left">The fabric on its left-hand side, seen from one end to the other.</param>
/// <param name="Right">The fabric on its right-hand side.</param>
/// <param name="Choice">Number of the choice that it follows, within its unit; seams of one number are pressed together.</param>
/// <param name="IsOpposite">True where it goes the other way than its choice says.</param>
/// <param name="Fixed">Where it is made so that it can be pressed one way only: whether to the right-hand side.</param>
internal sealed record UnitSeam(PatchPoint From, PatchPoint To, string Left, string Right, int Choice, bool IsOpposite = false, bool? Fixed = null)
{
    public bool IsLevel => From.Y == To.Y;

    public bool IsUpright => From.X == To.X;
}

/// <summary>
/// The seams inside units that pressing can choose, or has to reckon with: corners and skies are flipped outward and stay so; rows
/// of a checkerboard are pressed by turns, and both halves of an hourglass alike, so that they nest in themselves.
/// Seams inside nested blocks and inside the pieced half of a triangle are not among them.
/// </summary>
internal static class UnitSeams
{
    /// <summary>Stands for the fabrics of a pieced half, which are several.</summary>
    public const string PiecedHalf = "the pieced half";

    public static IEnumerable<UnitSeam> Of(UnitForm form)
    {
        var letters = form.Letters;
        PatchPoint[] corner =
            [new(Length.Zero, Length.Zero), new(form.Width, Length.Zero), new(form.Width, form.Height), new(Length.Zero, form.Height)];
        PatchPoint Corner(int place) => corner[(place + form.Direction) % 4];
        return form.Kind switch
        {
            UnitKind.HalfSquareTriangle => letters[0] == letters[3]
                ? [new(corner[3], corner[1], letters[0]!, letters[2]!, 0)]
                : [new(corner[0], corner[2], letters[0]!, letters[2]!, 0)],
            UnitKind.QuarterSquareTriangle => QuarterSquare([.. letters.Select(letter => letter!)], corner, Middle(corner[0], corner[2])),
            UnitKind.FlyingGeese =>
            [
                new(Corner(3), Middle(Corner(0), Corner(1)), letters[1]!, letters[0]!, 0, Fixed: false),
                new(Corner(2), Middle(Corner(0), Corner(1)), letters[0]!, letters[2]!, 0, Fixed: true),
            ],
            UnitKind.FlippedCorners => Corners(letters, corner, form.Corner),
            UnitKind.SquareInASquare => Corners(letters, corner, form.Width.DivideRoundingDown(2)),
            UnitKind.Rails => Rails(form),
            UnitKind.Checkerboard => Checkerboard(form),
            UnitKind.PiecedTriangle => [new(Corner(3), Corner(1), PiecedHalf, letters[0]!, 0, Fixed: true)],
            _ => [],
        };
    }

    private static IEnumerable<UnitSeam> QuarterSquare(IReadOnlyList<string> letters, PatchPoint[] corner, PatchPoint middle)
    {
        var parts = QuarterSquareParts.Of(letters);
        var first = parts[0].First;
        string Side(int side) => letters[(first + side) % 4];
        PatchPoint Corner(int place) => corner[(first + place) % 4];
        yield return new(Corner(0), Corner(2), Side(0), Side(2), 0);
        if (!parts[0].IsHalf)
        {
            yield return new(Corner(1), middle, Side(1), Side(0), 1);
        }

        if (parts.Count > 2)
        {
            yield return new(Corner(3), middle, Side(3), Side(2), 1);
        }
    }

    private static IEnumerable<UnitSeam> Corners(IReadOnlyList<string?> letters, PatchPoint[] corner, Length size)
    {
        for (var place = 0; place < 4; place++)
        {
            if (letters[place + 1] is { } letter)
            {
                var here = corner[place];
                var besideX = here with { X = here.X + (place is 0 or 3 ? size : -size) };
                var besideY = here with { Y = here.Y + (place is 0 or 1 ? size : -size) };
                var (from, to) = place is 0 or 2 ? (besideX, besideY) : (besideY, besideX);

                // Seen from its clockwise end, the corner lies to the right.
                yield return new(from, to, letters[0]!, letter, 0, Fixed: true);
            }
        }
    }

    private static IEnumerable<UnitSeam> Rails(UnitForm form)
    {
        var at = Length.Zero;
        for (var bar = 1; bar < form.Widths.Count; bar++)
        {
            at += form.Widths[bar - 1];
            yield return form.Direction == 0
                ? new(new(Length.Zero, at), new(form.Width, at), form.Letters[bar - 1]!, form.Letters[bar]!, bar - 1)
                : new(new(at, form.Height), new(at, Length.Zero), form.Letters[bar - 1]!, form.Letters[bar]!, bar - 1);
        }
    }

    private static IEnumerable<UnitSeam> Checkerboard(UnitForm form)
    {
        Length X(int column) => (form.Width * column).DivideRoundingDown(form.PatchColumns);
        Length Y(int row) => (form.Height * row).DivideRoundingDown(form.PatchRows);
        string At(int row, int column) => form.Letters[(row * form.PatchColumns) + column]!;
        for (var row = 0; row < form.PatchRows; row++)
        {
            for (var column = 1; column < form.PatchColumns; column++)
            {
                yield return new(new(X(column), Y(row + 1)), new(X(column), Y(row)), At(row, column - 1), At(row, column), 0, IsOpposite: row % 2 == 1);
            }

            if (row > 0)
            {
                yield return new(new(Length.Zero, Y(row)), new(form.Width, Y(row)), At(row - 1, 0), At(row, 0), row);
            }
        }
    }

    private static PatchPoint Middle(PatchPoint one, PatchPoint other) =>
        new((one.X + other.X).DivideRoundingDown(2), (one.Y + other.Y).DivideRoundingDown(2));
}
