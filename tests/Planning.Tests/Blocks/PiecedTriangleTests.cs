using KittingBee.Planning.Blocks;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>Half-square triangles of which one half is itself pieced.</summary>
public sealed class PiecedTriangleTests
{
    private static readonly CuttingRules Flipped = CutTriangles with { Methods = CutTriangles.Methods with { FlyingGeese = GeeseMethod.FlipCorners } };

    private static Unit Pieced(int row, int column, string letter, Block half, int turn = 0) =>
        Made(row, column, UnitKind.PiecedTriangle, turn, letter) with { Inner = half };

    /// <summary>The corner of Mother's Favorite, its pieced half up and left: D the large triangle, a small square of D and W in the corner.</summary>
    private static Block FavoriteCorner => Of(
        "Corner", Equal("2", 2), Equal("2", 2), "DBW", Half(0, 0, "WD", 180), Plain(0, 1, "W"), Plain(1, 0, "W"), Plain(1, 1, "W"));

    private static Block MothersFavorite()
    {
        // An edge: a blue goose patch with white corners and a white one with blue corners.
        var edge = Of(
            "Edge", Sides("4"), Equal("2", 2), "DBW", Made(0, 0, UnitKind.FlyingGeese, 0, "BWW"), Made(1, 0, UnitKind.FlyingGeese, 0, "WBB"));
        Unit Edge(int row, int column, int turn) => Made(row, column, UnitKind.Block, turn, "") with { Inner = edge };
        return Of(
            "Mother's Favorite", Equal("4", 3), Equal("4", 3), "DBW",
            Pieced(0, 0, "D", FavoriteCorner), Edge(0, 1, 0), Pieced(0, 2, "D", FavoriteCorner, 90),
            Edge(1, 0, 270), Plain(1, 1, "D"), Edge(1, 2, 90),
            Pieced(2, 0, "D", FavoriteCorner, 270), Edge(2, 1, 180), Pieced(2, 2, "D", FavoriteCorner, 180));
    }

    // allpeoplequilt.com, Mother's Favorite, 15 Apr 2019, 12 in. Dark blue: 2 squares 4 7/8 (4 triangles), 1 square 4 1/2,
    // 2 squares 2 7/8 (4 triangles). Blue: 4 of 2 1/2 x 4 1/2, 8 squares 2 1/2. White: 4 of 2 1/2 x 4 1/2, 6 squares 2 7/8
    // (12 triangles), 8 squares 2 1/2.
    [Fact]
    public void MothersFavorite_TwelveInches_IsAsPrinted()
    {
        var list = CutList(MothersFavorite(), Flipped);
        Assert.Equal(
            "D: 2 @ 4 7/8 x 4 7/8, 1 @ 4 1/2 x 4 1/2, 2 @ 2 7/8 x 2 7/8; "
            + "B: 4 @ 4 1/2 x 2 1/2, 8 @ 2 1/2 x 2 1/2; "
            + "W: 6 @ 2 7/8 x 2 7/8, 4 @ 4 1/2 x 2 1/2, 8 @ 2 1/2 x 2 1/2",
            InShort(list with { Fabrics = [.. list.Fabrics.Select(fabric => fabric with { Pieces = [.. fabric.Pieces.OrderByDescending(piece => piece.Height)] })] }));
        Assert.Equal(In("12 1/2"), list.UnfinishedWidth);
    }

    /// <summary>A quarter of Grand Right and Left: a square in the corner, small squares of two triangles along both legs, a triangle within.</summary>
    private static Block GrandQuarter => Of(
        "Quarter", Sides("1 1/2", "1 1/2", "1 1/2", "1 1/2"), Sides("1 1/2", "1 1/2", "1 1/2", "1 1/2"), "AMS",
        Plain(0, 0, "A"), Half(0, 1, "AS"), Half(0, 2, "AS"), Plain(0, 3, "S"),
        Half(1, 0, "AS"), Half(2, 0, "AS"), Plain(3, 0, "S"),
        Plain(1, 1, "M", 2, 2), Plain(1, 3, "A"), Plain(2, 3, "A"), Plain(3, 1, "A"), Plain(3, 2, "A"), Plain(3, 3, "A"));

    // LLQG guild block of the month, July 2024 (llqg.org), Grand Right and Left, 12 in. Background: 2 of 6 7/8 cut once,
    // 4 squares 2, 8 of 2 3/8 cut once. Medium: 2 of 3 7/8 cut once. Small: 12 of 2 3/8 cut once (24 triangles).
    [Fact]
    public void GrandRightAndLeft_TwelveInches_IsAsPrinted()
    {
        var block = Of(
            "Grand Right and Left", Equal("6", 2), Equal("6", 2), "AMS",
            Pieced(0, 0, "A", GrandQuarter), Pieced(0, 1, "A", GrandQuarter, 90), Pieced(1, 1, "A", GrandQuarter, 180), Pieced(1, 0, "A", GrandQuarter, 270));
        var list = CutList(block, CutTriangles);
        Assert.Equal(
            "A: 2 @ 6 7/8 x 6 7/8, 8 @ 2 3/8 x 2 3/8, 4 @ 2 x 2; M: 2 @ 3 7/8 x 3 7/8; S: 12 @ 2 3/8 x 2 3/8",
            InShort(list));
        var triangles = list.Units.Single(unit => unit.Kind == UnitKind.HalfSquareTriangle);
        Assert.Equal((16, In("2")), (triangles.Count, triangles.TrimWidth)); // "16 HST trimmed to 2"
        var step = list.Steps.Single(step => step.Text.Contains("pieced triangles", StringComparison.Ordinal));
        Assert.Equal((4, In("6 1/2"), In("6 1/2")), (step.Times, step.Width, step.Height));
        Assert.Contains(
            "a column of (a row of A patch, A/S half-square triangle, A/S half-square triangle and S triangle), (a row of (a column of A/S half-square triangle and A/S half-square triangle) and M triangle) and S triangle",
            step.Text,
            StringComparison.Ordinal);
    }

    // A triangle is a quarter of the square it is cut from twice over, so an odd number leaves one (counted by hand).
    [Fact]
    public void OnePiecedTriangle_SaysThatTrianglesAreLeft()
    {
        var list = CutList(Of("One", Sides("4"), Sides("4"), "DBW", Pieced(0, 0, "B", FavoriteCorner)), CutTriangles);
        Assert.Equal("D: 1 @ 2 7/8 x 2 7/8; B: 1 @ 4 7/8 x 4 7/8; W: 2 @ 2 7/8 x 2 7/8", InShort(list));
        Assert.Contains("Triangles are left over", list.Units.Single(unit => unit.Kind == UnitKind.PiecedTriangle).Note?.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Half_IsScaledToItsCell()
    {
        var list = CutList(Of("Large", Equal("8", 2), Sides("8"), "DBW", Pieced(0, 0, "B", FavoriteCorner), Pieced(0, 1, "B", FavoriteCorner, 180)), CutTriangles);
        Assert.Equal("D: 1 @ 4 7/8 x 4 7/8; B: 1 @ 8 7/8 x 8 7/8; W: 3 @ 4 7/8 x 4 7/8", InShort(list));
    }

    [Fact]
    public void Written_AndRead_IsTheSame()
    {
        var text = BlockJson.Write(MothersFavorite());
        Assert.Contains("\"kind\": \"pieced-triangle\"", text, StringComparison.Ordinal);
        Assert.Equal(text, BlockJson.Write(BlockJson.Read(text).Block!));
        Assert.Contains("\"pieced-triangle\"", BlockSchema.Json, StringComparison.Ordinal);
    }

    public static TheoryData<Unit, string> Wrong => new()
    {
        { Made(0, 0, UnitKind.PiecedTriangle, 0, "D"), "lacks its block" },
        { Pieced(0, 0, "DW", FavoriteCorner), "has 2 fabrics; it needs one, that of the plain half" },
        { Pieced(0, 0, "D", FavoriteCorner with { Units = [Plain(0, 0, "W", 2, 1), Plain(0, 1, "W", 2, 1)] }), "lies across the diagonal" },
        { Pieced(0, 0, "D", FavoriteCorner with { Units = [Plain(0, 0, "W"), Half(0, 1, "WD"), Plain(1, 0, "W"), Plain(1, 1, "W")] }), "Only plain squares" },
        { Pieced(0, 0, "D", FavoriteCorner with { Rows = Equal("3", 2), Units = [Plain(0, 0, "W", 2, 2)] }), "Scaled, they must agree" },
        { Pieced(0, 0, "D", FavoriteCorner with { Units = [Pieced(0, 0, "W", FavoriteCorner), Plain(0, 1, "W"), Plain(1, 0, "W"), Plain(1, 1, "W")] }), "holds no pieced triangles" },
        { Pieced(0, 0, "D", FavoriteCorner with { Units = [Plain(0, 0, "W")] }), "gaps" },
    };

    [Theory]
    [MemberData(nameof(Wrong), DisableDiscoveryEnumeration = true)]
    public void Half_ThatCannotBeCutSo_IsRefused(Unit unit, string message) => Assert.Contains(
        BlockChecks.Check(Of("Wrong", Sides("4"), Sides("4"), "DBW", unit)), problem => problem.Message.Contains(message, StringComparison.Ordinal));
}
