using KittingBee.Planning.Blocks;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>The pieces of a pattern that has no drawing of its own: each size once, side by side and to one scale, so that a list has something to know it by.</summary>
public static class PiecesDrawing
{
    /// <summary>More sizes than these make no picture that can be told from another.</summary>
    private const int Most = 16;

    private const decimal Gap = 0.06m;

    // How much wider than the widest piece a row may be; the first under which the rows are no taller than wide.
    private static readonly decimal[] Rows = [1, 1.25m, 1.5m, 2, 2.5m, 3, 4, 6];

    /// <summary>Draws a square of the given width in pixels.</summary>
    public static string Svg(CutList list, int width)
    {
        var pieces = list.Fabrics
            .SelectMany(fabric => fabric.Pieces.Select(piece => new Laid(fabric.Letter, piece.Width.Inches, piece.Height.Inches)))
            .OrderByDescending(piece => piece.Height).ThenByDescending(piece => piece.Width).Take(Most).ToList();
        if (pieces.Count == 0)
        {
            return "";
        }

        var widest = pieces.Max(piece => piece.Width);
        var gap = Gap * pieces.Max(piece => decimal.Max(piece.Width, piece.Height));
        var (placed, across, down) = Rows.Select(share => Lay(pieces, widest * share, gap)).FirstOrDefault(rows => rows.Down <= rows.Across, Lay(pieces, widest * Rows[^1], gap));
        var scale = (width - 2) / decimal.Max(across, down);
        var (left, top) = ((width - (across * scale)) / 2, (width - (down * scale)) / 2);

        var id = SvgText.NextId();
        var pixels = SvgText.Number(width);
        var svg = new SvgText();
        svg.Open("svg", ("width", pixels), ("height", pixels), ("viewBox", $"0 0 {pixels} {pixels}"), ("aria-hidden", "true"), ("focusable", "false"));
        svg.Open("defs");
        foreach (var letter in pieces.Select(piece => piece.Letter).Distinct())
        {
            Hatches.Define(svg, id + letter, letter, FabricLook.Of(letter).Colour, onWhite: false);
        }

        svg.Close("defs");
        foreach (var piece in placed)
        {
            svg.Empty(
                "rect", ("x", SvgText.Number(left + (piece.X * scale))), ("y", SvgText.Number(top + (piece.Y * scale))), ("width", SvgText.Number(piece.Width * scale)),
                ("height", SvgText.Number(piece.Height * scale)), ("fill", $"url(#{id}{piece.Letter})"), ("stroke", BlockDrawing.Ink));
        }

        return svg.Close("svg").ToString();
    }

    private static (List<Laid> Placed, decimal Across, decimal Down) Lay(List<Laid> pieces, decimal most, decimal gap)
    {
        var placed = new List<Laid>();
        var (x, y, tallest, across) = (0m, 0m, 0m, 0m);
        foreach (var piece in pieces)
        {
            if (x > 0 && x + piece.Width > most)
            {
                (x, y, tallest) = (0, y + tallest + gap, 0);
            }

            placed.Add(piece with { X = x, Y = y });
            across = decimal.Max(across, x + piece.Width);
            tallest = decimal.Max(tallest, piece.Height);
            x += piece.Width + gap;
        }

        return (placed, across, y + tallest);
    }

    private sealed record Laid(string Letter, decimal Width, decimal Height, decimal X = 0, decimal Y = 0);
}
