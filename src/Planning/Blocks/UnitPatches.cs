using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Outlines of the patches of one unit.</summary>
internal static class UnitPatches
{
    /// <summary>The patches of a unit whose cell starts at a point.</summary>
    public static IEnumerable<Patch> Of(UnitForm form, Length left, Length top, int number)
    {
        if (form.Inner is { } inner)
        {
            return inner.Units.SelectMany(unit =>
                Of(unit.Form, left + inner.ColumnEdges[unit.Column], top + inner.RowEdges[unit.Row], number));
        }

        return Outlines(form).Select(outline => new Patch(
            outline.Letter,
            [.. outline.Corners.Select(corner => new PatchPoint(left + corner.X, top + corner.Y))],
            number,
            form.Kind == UnitKind.Template));
    }

    private static IEnumerable<(string Letter, IReadOnlyList<PatchPoint> Corners)> Outlines(UnitForm form) => form.Kind switch
    {
        UnitKind.HalfSquareTriangle => HalfSquare(form),
        UnitKind.QuarterSquareTriangle => QuarterSquare(form),
        UnitKind.FlyingGeese => Geese(form),
        UnitKind.FlippedCorners => Corners(form, form.Corner, form.Corner),
        UnitKind.SquareInASquare => Corners(form, form.Width.DivideRoundingDown(2), form.Height.DivideRoundingDown(2)),
        UnitKind.Rails => Rails(form),
        UnitKind.Checkerboard => Checkerboard(form),
        UnitKind.PiecedTriangle => Pieced(form),
        _ => [(form.Letters[0]!, Rectangle(Length.Zero, Length.Zero, form.Width, form.Height))],
    };

    private static IEnumerable<(string, IReadOnlyList<PatchPoint>)> HalfSquare(UnitForm form)
    {
        var corner = CornersOf(form);
        var seamFromLowerLeft = form.Letters[0] == form.Letters[3];
        return seamFromLowerLeft
            ? [(form.Letters[0]!, [corner[0], corner[1], corner[3]]), (form.Letters[2]!, [corner[1], corner[2], corner[3]])]
            : [(form.Letters[0]!, [corner[0], corner[1], corner[2]]), (form.Letters[2]!, [corner[0], corner[2], corner[3]])];
    }

    private static IEnumerable<(string, IReadOnlyList<PatchPoint>)> QuarterSquare(UnitForm form)
    {
        var corner = CornersOf(form);
        var middle = new PatchPoint(form.Width.DivideRoundingDown(2), form.Height.DivideRoundingDown(2));
        foreach (var part in QuarterSquareParts.Of([.. form.Letters.Select(letter => letter!)]))
        {
            var third = part.IsHalf ? corner[(part.First + 2) % 4] : middle;
            yield return (part.Letter, [corner[part.First], corner[(part.First + 1) % 4], third]);
        }
    }

    private static IEnumerable<(string, IReadOnlyList<PatchPoint>)> Geese(UnitForm form)
    {
        // Seen along its direction, the goose points up from a far edge to the middle of a near one.
        var corner = CornersOf(form);
        PatchPoint Corner(int place) => corner[(place + form.Direction) % 4];
        var (upperLeft, upperRight) = (Corner(0), Corner(1));
        var point = new PatchPoint(
            (upperLeft.X + upperRight.X).DivideRoundingDown(2), (upperLeft.Y + upperRight.Y).DivideRoundingDown(2));
        return
        [
            (form.Letters[0]!, [point, Corner(2), Corner(3)]),
            (form.Letters[1]!, [upperLeft, point, Corner(3)]),
            (form.Letters[2]!, [point, upperRight, Corner(2)]),
        ];
    }

    private static IEnumerable<(string, IReadOnlyList<PatchPoint>)> Corners(UnitForm form, Length across, Length down)
    {
        var corner = CornersOf(form);
        var middle = new List<PatchPoint>();
        for (var place = 0; place < 4; place++)
        {
            var here = corner[place];
            if (form.Letters[place + 1] is not { } letter)
            {
                Add(middle, here);
                continue;
            }

            var inX = place is 0 or 3 ? across : -across;
            var inY = place is 0 or 1 ? down : -down;
            var besideX = here with { X = here.X + inX };
            var besideY = here with { Y = here.Y + inY };

            // Clockwise, the outline comes up the side at the upper left and lower right, and along it at the other two.
            var (before, after) = place is 0 or 2 ? (besideY, besideX) : (besideX, besideY);
            Add(middle, before);
            Add(middle, after);
            yield return (letter, [here, after, before]);
        }

        if (middle.Count > 1 && middle[0] == middle[^1])
        {
            middle.RemoveAt(middle.Count - 1);
        }

        if (middle.Count > 2)
        {
            yield return (form.Letters[0]!, middle);
        }
    }

    private static void Add(List<PatchPoint> outline, PatchPoint point)
    {
        if (outline.Count == 0 || outline[^1] != point)
        {
            outline.Add(point);
        }
    }

    private static IEnumerable<(string, IReadOnlyList<PatchPoint>)> Rails(UnitForm form)
    {
        var start = Length.Zero;
        var whole = form.Direction == 0 ? form.Height : form.Width;
        for (var bar = 0; bar < form.Widths.Count; bar++)
        {
            // The last bar ends at the edge, whatever rounding up to the tick has added.
            var end = bar == form.Widths.Count - 1 ? whole : start + form.Widths[bar];
            yield return (form.Letters[bar]!, form.Direction == 0
                ? Rectangle(Length.Zero, start, form.Width, end)
                : Rectangle(start, Length.Zero, end, form.Height));
            start = end;
        }
    }

    private static IEnumerable<(string, IReadOnlyList<PatchPoint>)> Checkerboard(UnitForm form)
    {
        for (var place = 0; place < form.Letters.Count; place++)
        {
            var (row, column) = Math.DivRem(place, form.PatchColumns);
            yield return (form.Letters[place]!, Rectangle(
                Part(form.Width, column, form.PatchColumns),
                Part(form.Height, row, form.PatchRows),
                Part(form.Width, column + 1, form.PatchColumns),
                Part(form.Height, row + 1, form.PatchRows)));
        }
    }

    /// <summary>The half as it lies at direction 0, each point turned with the unit.</summary>
    private static IEnumerable<(string, IReadOnlyList<PatchPoint>)> Pieced(UnitForm form)
    {
        var half = form.Half!;
        var side = form.Width;
        foreach (var unit in half.Units)
        {
            var (left, top) = (half.ColumnEdges[unit.Column], half.RowEdges[unit.Row]);
            if (PiecedHalf.IsOnDiagonal(half, unit))
            {
                // Cornered on the diagonal itself, whatever rounding up to the tick has added.
                yield return (unit.Form.Letters[0]!, [Turned(new(left, top)), Turned(new(side - top, top)), Turned(new(left, side - left))]);
                continue;
            }

            foreach (var (letter, corners) in Outlines(unit.Form))
            {
                yield return (letter, [.. corners.Select(corner => Turned(new(left + corner.X, top + corner.Y)))]);
            }
        }

        yield return (form.Letters[0]!, [Turned(new(side, Length.Zero)), Turned(new(side, side)), Turned(new(Length.Zero, side))]);

        PatchPoint Turned(PatchPoint point)
        {
            for (var quarter = 0; quarter < form.Direction; quarter++)
            {
                point = new(side - point.Y, point.X);
            }

            return point;
        }
    }

    private static Length Part(Length whole, int index, int parts) => (whole * index).DivideRoundingDown(parts);

    private static PatchPoint[] CornersOf(UnitForm form) => Rectangle(Length.Zero, Length.Zero, form.Width, form.Height);

    private static PatchPoint[] Rectangle(Length left, Length top, Length right, Length bottom) =>
        [new(left, top), new(right, top), new(right, bottom), new(left, bottom)];
}
