using KittingBee.Planning.Blocks;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>Writes fabric letters into patches, each on a small white disc so that it reads on any hatch.</summary>
internal static class PatchLetters
{
    private const decimal LeastRoom = 20m;

    public static void Draw(SvgText svg, IEnumerable<Patch> patches, DrawingFrame frame)
    {
        foreach (var patch in patches)
        {
            var xs = patch.Corners.Select(corner => frame.Of(corner.X)).ToList();
            var ys = patch.Corners.Select(corner => frame.Of(corner.Y)).ToList();
            var share = patch.Corners.Count == 3 ? 0.55m : 1m;
            if ((xs.Max() - xs.Min()) * share < LeastRoom || (ys.Max() - ys.Min()) * share < LeastRoom)
            {
                continue;
            }

            var (x, y) = (xs.Average(), ys.Average());
            svg.Empty("circle", ("cx", SvgText.Number(x)), ("cy", SvgText.Number(y)), ("r", "8"), ("fill", "#FFFFFF"), ("stroke", BlockDrawing.Ink), ("stroke-width", "0.6"));
            BlockDrawing.Words(svg, SvgText.Number(x), SvgText.Number(y + 4), 11, patch.Letter);
        }
    }
}
