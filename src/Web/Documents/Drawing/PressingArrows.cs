using KittingBee.Planning.Blocks;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>Draws the pressing plan: an arrow across each seam on the side it is pressed to; two bars where it is pressed open.</summary>
internal static class PressingArrows
{
    private const decimal Reach = 9m;

    public static void Draw(SvgText svg, Block block, BlockPatches patches, DrawingFrame frame)
    {
        if (BlockChecks.Check(block).Count > 0)
        {
            return;
        }

        var plan = PressingPlan.For(block);
        foreach (var seam in plan.UnitSeams)
        {
            Arrow(svg, seam, frame);
        }

        foreach (var seam in plan.Seams)
        {
            var (lines, across) = seam.IsUpright ? (patches.RowEdges, patches.ColumnEdges) : (patches.ColumnEdges, patches.RowEdges);
            var line = frame.Of(across[seam.Line]);

            // An arrow for each cell along the seam, so that long seams are told as well as short ones.
            for (var cell = seam.From; cell < seam.To; cell++)
            {
                var middle = (frame.Of(lines[cell]) + frame.Of(lines[cell + 1])) / 2;
                Arrow(svg, seam, line, middle);
            }
        }
    }

    private static void Arrow(SvgText svg, PressedSeam seam, decimal line, decimal along)
    {
        if (seam.Press == PressTo.Open)
        {
            Path(svg, seam.IsUpright, [(line - 3, along - 6), (line - 3, along + 6)]);
            Path(svg, seam.IsUpright, [(line + 3, along - 6), (line + 3, along + 6)]);
            return;
        }

        var way = seam.Press is PressTo.Right or PressTo.Down ? 1 : -1;
        Path(svg, seam.IsUpright, [(line - (3 * way), along), (line + (Reach * way), along)]);
        Path(svg, seam.IsUpright, [(line + ((Reach - 5) * way), along - 4), (line + (Reach * way), along), (line + ((Reach - 5) * way), along + 4)]);
    }

    /// <summary>A small arrow across the middle of a seam inside a unit.</summary>
    private static void Arrow(SvgText svg, PressedUnitSeam seam, DrawingFrame frame)
    {
        var (fromX, fromY, toX, toY) = (frame.Of(seam.From.X), frame.Of(seam.From.Y), frame.Of(seam.To.X), frame.Of(seam.To.Y));
        var (alongX, alongY) = (toX - fromX, toY - fromY);
        var length = (decimal)Math.Sqrt((double)((alongX * alongX) + (alongY * alongY)));
        if (length == 0)
        {
            return;
        }

        (alongX, alongY) = (alongX / length, alongY / length);
        var way = seam.ToRight ? 1 : -1;
        var (acrossX, acrossY) = (-alongY * way, alongX * way);
        (decimal, decimal) Point(decimal across, decimal along) => (
            ((fromX + toX) / 2) + (acrossX * across) + (alongX * along), ((fromY + toY) / 2) + (acrossY * across) + (alongY * along));
        Path(svg, upright: true, [Point(-2, 0), Point(6, 0)]);
        Path(svg, upright: true, [Point(3, -3), Point(6, 0), Point(3, 3)]);
    }

    /// <summary>Drawn twice, white below ink, so that it reads on any hatch.</summary>
    private static void Path(SvgText svg, bool upright, IReadOnlyList<(decimal Across, decimal Along)> points)
    {
        var path = "M" + string.Join('L', points.Select(point => upright
            ? $"{SvgText.Number(point.Across)} {SvgText.Number(point.Along)}"
            : $"{SvgText.Number(point.Along)} {SvgText.Number(point.Across)}"));
        foreach (var (colour, width) in new[] { ("#FFFFFF", "5"), (BlockDrawing.Ink, "2") })
        {
            svg.Empty("path", ("d", path), ("fill", "none"), ("stroke", colour), ("stroke-width", width), ("stroke-linecap", "round"), ("stroke-linejoin", "round"));
        }
    }
}
