using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Glossary;

/// <summary>Small drawings for the glossary, made by the program's own drawing of blocks, projects and recipes.</summary>
internal static class TermDrawings
{
    private const int Small = 110;

    private static readonly IReadOnlyList<BlockFabric> Letters = [new("A", ""), new("B", ""), new("C", "")];

    /// <summary>One unit alone.</summary>
    public static string Unit(string title, UnitKind kind, IReadOnlyList<string?> fabrics, int wide = 4, int high = 4) => Draw(
        title,
        new Block(
            title,
            [Length.FromInches(wide)],
            [Length.FromInches(high)],
            Letters,
            [new Unit { Row = 0, Column = 0, Kind = kind, Fabrics = fabrics, Corner = kind == UnitKind.FlippedCorners ? Length.FromInches(2) : null }]));

    /// <summary>Squares in rows, such as a four-patch.</summary>
    public static string Squares(string title, int side) => Draw(
        title,
        new Block(
            title,
            [.. Enumerable.Repeat(Length.FromInches(2), side)],
            [.. Enumerable.Repeat(Length.FromInches(2), side)],
            Letters,
            [.. from row in Enumerable.Range(0, side) from column in Enumerable.Range(0, side) select new Unit { Row = row, Column = column, Kind = UnitKind.Plain, Fabrics = [(row + column) % 2 == 0 ? "B" : "A"] }]));

    /// <summary>A whole block, with one of its cells pointed out where asked.</summary>
    public static string Block(string title, GridArea? area = null, bool pressing = false) =>
        BlockDrawing.Svg(Star, new DrawingOptions { Width = Small, Title = title, Area = area, Pressing = pressing });

    /// <summary>The block in its usual colours and in others.</summary>
    public static string Colourways(string title) => BlockDrawing.Svg(Star, new DrawingOptions { Width = Small, Title = title }) +
        BlockDrawing.Svg(Star, new DrawingOptions { Width = Small, Title = title, Colours = new Dictionary<string, string> { ["A"] = "#DCCB9E", ["B"] = "#9C3A58" } });

    /// <summary>Blocks set together.</summary>
    public static string Project(string title, Project project) => ProjectDrawing.Svg(Star, project with { Fabrics = [new("C", ""), new("D", "")] }, new DrawingOptions { Width = Small + 30, Title = title });

    /// <summary>A strip with its sub-cuts: three squares, two rectangles, and what is left.</summary>
    public static string Recipe(string title)
    {
        var height = Length.FromInches(4.5m);
        return RecipeDrawing.Svg(
            new Strip(height, 1, [Stack(0, 4.5m, 4.5m, 3, 1), Stack(1, 2.5m, 4.5m, 2, 1)]),
            Length.FromInches(20),
            new RecipeOptions { Width = 240, Letter = "B", Title = title });

        Column Stack(int piece, decimal width, decimal tall, int repeat, int count) =>
            new(Length.FromInches(width), repeat, [new StackedPiece(piece, Length.FromInches(width), Length.FromInches(tall), false, count)]);
    }

    /// <summary>Cloth off the bolt, the selvages at its sides, with a strip across it.</summary>
    public static string Cloth(string title, string selvage, string width, string strip)
    {
        var id = SvgText.NextId();
        var svg = new SvgText();
        BlockDrawing.OpenDrawing(svg, id, 260, 130, null, title, title);
        svg.Empty("rect", ("x", "30"), ("y", "10"), ("width", "200"), ("height", "110"), ("fill", "#F1E9DC"), ("stroke", BlockDrawing.Ink));
        foreach (var edge in new[] { "30", "222" })
        {
            svg.Empty("rect", ("x", edge), ("y", "10"), ("width", "8"), ("height", "110"), ("fill", "#CBBFA9"), ("stroke", BlockDrawing.Ink), ("stroke-width", "0.6"));
        }

        svg.Empty("rect", ("x", "38"), ("y", "78"), ("width", "184"), ("height", "28"), ("fill", "#8FB0C4"), ("stroke", BlockDrawing.Ink), ("stroke-width", "0.9"));
        svg.Empty("path", ("d", "M40 58H220M40 58l6 -4M40 58l6 4M220 58l-6 -4M220 58l-6 4"), ("fill", "none"), ("stroke", BlockDrawing.Accent), ("stroke-width", "1.4"));
        BlockDrawing.Words(svg, "130", "50", 13, width);
        BlockDrawing.Words(svg, "130", "97", 13, strip);
        BlockDrawing.Words(svg, "44", "28", 13, selvage, "start");
        return svg.Close("svg").ToString();
    }

    /// <summary>Progress as a line of stitches: the first are sewn.</summary>
    public static string Stitches(string title) => Showing.Stitches.Line(5, 9, title).ToString()!;

    private static Block Star => Starters.Find("ohio-star")!.Block;

    private static string Draw(string title, Block block) => BlockDrawing.Svg(block, new DrawingOptions { Width = Small, Title = title });
}
