using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Glossary;

/// <summary>A small drawing on paper, so that its ink shows on a dark screen too: cloth in the letters' own hatches, edges, arrows and a few words.</summary>
internal sealed class Sketch
{
    private const int Width = 240;
    private const int Height = 110;
    private readonly SvgText svg = new();
    private readonly string id = SvgText.NextId();

    public Sketch(string title)
    {
        BlockDrawing.OpenDrawing(svg, id, Width, Height, null, title, title);
        BlockDrawing.Define(svg, id, ["A", "B", "C"], new());
        svg.Empty("rect", ("width", SvgText.Number(Width)), ("height", SvgText.Number(Height)), ("rx", "4"), ("fill", "#FAF7F1"), ("stroke", "#8C8375"), ("stroke-width", "0.8"));
    }

    /// <summary>A piece of the fabric with this letter.</summary>
    public Sketch Cloth(string letter, int x, int y, int width, int height) => Box(x, y, width, height, $"url(#{id}-{letter})", null);

    /// <summary>Paper, a bag or a board.</summary>
    public Sketch Plain(int x, int y, int width, int height, string fill = "#FFFFFF") => Box(x, y, width, height, fill, null);

    /// <summary>Where something could be, or was.</summary>
    public Sketch Dashed(int x, int y, int width, int height) => Box(x, y, width, height, "none", "4 3");

    /// <summary>A seam: dashes that show on any hatch.</summary>
    public Sketch Seam(int x, int y, int width, int height)
    {
        Box(x, y, width, height, "none", null, "#FFFFFF", "3.2");
        return Box(x, y, width, height, "none", "5 4", BlockDrawing.Accent, "1.8");
    }

    public Sketch Line(string path, string stroke = BlockDrawing.Ink)
    {
        svg.Empty("path", ("d", path), ("fill", "none"), ("stroke", stroke), ("stroke-width", "1.6"), ("stroke-linecap", "round"), ("stroke-linejoin", "round"));
        return this;
    }

    /// <summary>How long something is, from left to right.</summary>
    public Sketch Across(int from, int to, int y) => Line($"M{from} {y}H{to}M{from} {y}l5 -4M{from} {y}l5 4M{to} {y}l-5 -4M{to} {y}l-5 4", BlockDrawing.Accent);

    /// <summary>An arrow from the foot upwards.</summary>
    public Sketch Up(int x, int from, int to) => Line($"M{x} {from}V{to}M{x} {to}l-4 5M{x} {to}l4 5", BlockDrawing.Accent);

    public Sketch Words(int x, int y, string words)
    {
        BlockDrawing.Words(svg, SvgText.Number(x), SvgText.Number(y), 13, words);
        return this;
    }

    public string Svg() => svg.ToString() + "</svg>";

    private Sketch Box(int x, int y, int width, int height, string fill, string? dashes, string stroke = BlockDrawing.Ink, string strong = "1.1")
    {
        svg.Empty(
            "rect", ("x", SvgText.Number(x)), ("y", SvgText.Number(y)), ("width", SvgText.Number(width)), ("height", SvgText.Number(height)),
            ("fill", fill), ("stroke", stroke), ("stroke-width", strong), ("stroke-dasharray", dashes));
        return this;
    }
}
