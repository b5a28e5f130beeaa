using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>Draws a block as SVG, the same for screen and paper.</summary>
public static class BlockDrawing
{
    internal const string Ink = "#23211E";
    internal const string Accent = "#9A3324";

    /// <summary>
    /// The drawing of a block. What can be drawn of a block with problems is drawn; an empty frame where that is nothing.
    /// </summary>
    public static string Svg(Block block, DrawingOptions? options = null)
    {
        options ??= new();
        var patches = BlockPatches.Of(block);
        var id = options.Id ?? SvgText.NextId();
        var wide = patches.Width.IsPositive ? patches.Width : Length.FromInches(1);
        var frame = new DrawingFrame(wide, options.Width);
        var height = patches.Height.IsPositive ? frame.Of(patches.Height) : options.Width;
        var caption = options.Scale is null ? 0m : 22m;
        var svg = new SvgText();
        OpenDrawing(svg, id, options.Width, height + caption, PaperSize(options, patches.Width), options.Title ?? block.Name, Describe(block, patches, options));
        Define(svg, id, patches.Patches.Select(patch => patch.Letter), options);
        DrawPatches(svg, id, patches, frame);
        if (options.Letters)
        {
            PatchLetters.Draw(svg, patches.Patches, frame);
        }

        svg.Empty("rect", ("width", SvgText.Number(options.Width)), ("height", SvgText.Number(height)), ("fill", "none"), ("stroke", Ink), ("stroke-width", "1.6"));
        if (options.Pressing && patches.Patches.Count > 0)
        {
            PressingArrows.Draw(svg, block, patches, frame);
        }

        if (options.Area is { } area && patches.Patches.Count > 0)
        {
            PointOut(svg, area, patches, frame, height);
        }

        if (options.Scale is { } scale)
        {
            Words(svg, SvgText.Number(options.Width / 2m), SvgText.Number(height + 17), 13, Say($"{LengthText.Write(patches.Width, options.Sizes)} × {LengthText.Write(patches.Height, options.Sizes)} finished, scale 1 : {scale}"));
        }

        return svg.Close("svg").ToString();
    }

    internal static void OpenDrawing(SvgText svg, string id, decimal width, decimal height, string? paperWidth, string title, string description)
    {
        svg.Open(
            "svg",
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("viewBox", $"-1 -1 {SvgText.Number(width + 2)} {SvgText.Number(height + 2)}"),
            ("width", paperWidth ?? SvgText.Number(width + 2)),
            ("height", paperWidth is null ? SvgText.Number(height + 2) : null),
            ("role", "img"),
            ("aria-labelledby", $"{id}-title {id}-desc"),
            ("font-family", "system-ui, 'Segoe UI', Roboto, 'Liberation Sans', sans-serif"));
        svg.Open("title", ("id", id + "-title")).Words(title).Close("title");
        svg.Open("desc", ("id", id + "-desc")).Words(description).Close("desc");
    }

    internal static void Define(SvgText svg, string id, IEnumerable<string> letters, DrawingOptions options)
    {
        svg.Open("defs");
        foreach (var letter in letters.Distinct().Order(StringComparer.Ordinal))
        {
            Hatches.Define(svg, $"{id}-{letter}", letter, options.ColourOf(letter), options.OnWhite);
        }

        svg.Close("defs");
    }

    internal static void DrawPatch(SvgText svg, string id, Patch patch, DrawingFrame frame) => svg.Empty(
        "polygon",
        ("points", frame.Points(patch.Corners)),
        ("fill", $"url(#{id}-{patch.Letter})"),
        ("stroke-dasharray", patch.IsTemplate ? "4 2" : null));

    internal static void Words(SvgText svg, string x, string y, decimal size, string words, string anchor = "middle") => svg
        .Open("text", ("x", x), ("y", y), ("font-size", SvgText.Number(size)), ("font-weight", "600"), ("fill", Ink), ("text-anchor", anchor))
        .Words(words)
        .Close("text");

    private static void DrawPatches(SvgText svg, string id, BlockPatches patches, DrawingFrame frame)
    {
        svg.Open("g", ("stroke", Ink), ("stroke-width", "0.9"), ("stroke-linejoin", "round"));
        foreach (var patch in patches.Patches)
        {
            DrawPatch(svg, id, patch, frame);
        }

        svg.Close("g");
    }

    /// <summary>A veil over everything else, and a strong outline that shows without colour.</summary>
    private static void PointOut(SvgText svg, GridArea area, BlockPatches patches, DrawingFrame frame, decimal height)
    {
        var columns = patches.ColumnEdges.Count - 1;
        var rows = patches.RowEdges.Count - 1;
        var left = frame.Of(patches.ColumnEdges[Math.Clamp(area.Column, 0, columns)]);
        var right = frame.Of(patches.ColumnEdges[Math.Clamp(area.Column + area.ColumnSpan, 0, columns)]);
        var top = frame.Of(patches.RowEdges[Math.Clamp(area.Row, 0, rows)]);
        var bottom = frame.Of(patches.RowEdges[Math.Clamp(area.Row + area.RowSpan, 0, rows)]);
        string N(decimal value) => SvgText.Number(value);
        svg.Empty(
            "path",
            ("d", $"M0 0H{N(frame.Width)}V{N(height)}H0ZM{N(left)} {N(top)}V{N(bottom)}H{N(right)}V{N(top)}Z"),
            ("fill", "#FFFFFF"),
            ("fill-opacity", "0.75"),
            ("fill-rule", "evenodd"));
        svg.Empty(
            "rect", ("x", N(left)), ("y", N(top)), ("width", N(right - left)), ("height", N(bottom - top)), ("fill", "none"), ("stroke", Accent), ("stroke-width", "3"));
    }

    private static string? PaperSize(DrawingOptions options, Length width) =>
        options.Scale is { } scale && scale > 0 ? SvgText.Number(width.Inches * (options.Width + 2) / (options.Width * scale)) + "in" : null;

    private static string Describe(Block block, BlockPatches patches, DrawingOptions options)
    {
        if (patches.Patches.Count == 0)
        {
            return Say("Nothing can be drawn yet.");
        }

        var fabrics = block.Fabrics
            .Select(fabric => (fabric.Letter, fabric.Name, Count: patches.Patches.Count(patch => patch.Letter == fabric.Letter)))
            .Where(fabric => fabric.Count > 0)
            .Select(fabric => (fabric.Count == 1 ? Say($"1 patch of {fabric.Letter} {fabric.Name}") : Say($"{fabric.Count} patches of {fabric.Letter} {fabric.Name}")).TrimEnd());
        return Say($"{LengthText.Write(patches.Width, options.Sizes)} by {LengthText.Write(patches.Height, options.Sizes)} finished, a grid of {block.Columns.Count} by {block.Rows.Count}: {string.Join(", ", fabrics)}.");
    }
}

/// <summary>From finished lengths to the units of a drawing.</summary>
internal sealed record DrawingFrame(Length Whole, decimal Width)
{
    public decimal Of(Length length) => length.Ticks * Width / Whole.Ticks;

    public string Points(IEnumerable<PatchPoint> corners) =>
        string.Join(' ', corners.Select(corner => $"{SvgText.Number(Of(corner.X))},{SvgText.Number(Of(corner.Y))}"));
}
