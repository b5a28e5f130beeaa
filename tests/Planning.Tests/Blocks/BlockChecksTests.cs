using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class BlockChecksTests
{
    private static readonly Block Inner = Of("Inner", Sides("2"), Sides("1"), "A", Plain(0, 0, "A"));

    /// <summary>A row of 3 in by 4 in and 4 in by 4 in cells, the first unit given.</summary>
    private static Block Row(Unit first) => Of("Row", Sides("3", "4"), Sides("4"), "AB", first, Plain(0, 1, "A"));

    private static Block Square(Unit first) => Of("Row", Sides("4", "4"), Sides("4"), "AB", first, Plain(0, 1, "A"));

    private static Block Good => Square(Plain(0, 0, "B"));

    public static TheoryData<Block, string, string> BadBlocks() => new()
    {
        { Row(Half(0, 0, "AB")), "units[0]", "Unit 1 (half-square triangle at row 1, column 1) is 3″ by 4″; it needs a square cell. Make the column 4″ wide or choose another unit." },
        { Row(Quarter(0, 0, "ABAB")), "units[0]", "Unit 1 (quarter-square triangle at row 1, column 1) is 3″ by 4″; it needs a square cell." },
        { Row(Made(0, 0, UnitKind.SquareInASquare, 0, "AB")), "units[0]", "(square in a square at row 1, column 1) is 3″ by 4″; it needs a square cell." },
        { Row(Made(0, 0, UnitKind.FlyingGeese, 0, "ABB")), "units[0]", "turned by 0 it needs a cell twice as wide as high" },
        { Of("Goose", Sides("4"), Sides("2"), "AB", Made(0, 0, UnitKind.FlyingGeese, 90, "ABB")), "units[0]", "turned by 90 it needs a cell twice as high as wide" },
        { Square(Half(0, 0, "AB", 45)), "units[0].turn", "is turned by 45. Use 0, 90, 180 or 270" },
        { Square(Half(0, 0, "AB", -90)), "units[0].turn", "is turned by -90" },
        { Square(Half(0, 0, "A")), "units[0].fabrics", "has 1 fabrics; it needs two." },
        { Square(Plain(0, 0, "C")), "units[0].fabrics[0]", "uses fabric C, which the block does not list. List it or use one of A, B." },
        { Square(Half(0, 0, "A.")), "units[0].fabrics[1]", "lacks a fabric" },
        { Square(Made(0, 0, UnitKind.SquareInASquare, 0, "ABB")), "units[0].fabrics", "has 3 fabrics; it needs two or five." },
        { Square(Made(0, 0, UnitKind.FlippedCorners, 0, "AB")), "units[0].fabrics", "it needs five: the base and four corners" },
        { Square(Made(0, 0, UnitKind.FlippedCorners, 0, "A....") with { Corner = In("1") }), "units[0].fabrics", "has no corner to flip" },
        { Square(Made(0, 0, UnitKind.FlippedCorners, 0, "AB...")), "units[0].corner", "lacks the finished size of its corners" },
        { Square(Made(0, 0, UnitKind.FlippedCorners, 0, "AB...") with { Corner = In("4 1/8") }), "units[0].corner", "corners of 4⅛″; on 4″ by 4″ they may be at most 4″" },
        { Square(Made(0, 0, UnitKind.FlippedCorners, 0, "ABB..") with { Corner = In("2 1/8") }), "units[0].corner", "they may be at most 2″" },
        { Square(Made(0, 0, UnitKind.Rails, 0, "A")), "units[0].fabrics", "has 1 fabrics; it needs 2 to 24" },
        { Square(Made(0, 0, UnitKind.Rails, 0, "AB") with { Widths = Sides("1", "2") }), "units[0].widths", "has bars that come to 3″; the cell takes 4″" },
        { Square(Made(0, 0, UnitKind.Rails, 0, "AB") with { Widths = Sides("4") }), "units[0].widths", "has 1 widths for 2 fabrics" },
        { Square(Made(0, 0, UnitKind.Rails, 0, "AB") with { Widths = [In("5"), -In("1")] }), "units[0].widths", "a bar without width" },
        { Square(Made(0, 0, UnitKind.Checkerboard, 0, "")), "units[0].patches", "has no patches" },
        { Square(Made(0, 0, UnitKind.Checkerboard, 0, "") with { Patches = [["A", "B"], ["A"]] }), "units[0].patches[1]", "has 2 patches in its first row and 1 in row 2" },
        { Square(Made(0, 0, UnitKind.Checkerboard, 0, "") with { Patches = [["A", "Q"]] }), "units[0].patches[0][1]", "uses fabric Q" },
        { Square(Made(0, 0, UnitKind.Checkerboard, 0, "AB") with { Patches = [["A"]] }), "units[0].fabrics", "takes no \"fabrics\"" },
        { Square(Made(0, 0, UnitKind.Checkerboard, 0, "") with { Patches = [[.. Enumerable.Repeat("A", 25)]] }), "units[0].patches", "the most is 24 each way" },
        { Square(Made(0, 0, UnitKind.Block, 0, "")), "units[0].inner", "lacks its block" },
        { Square(Made(0, 0, UnitKind.Block, 0, "") with { Inner = Inner }), "units[0].inner", "is 4″ by 4″, but its own block is 2″ by 1″. Scaled, they must agree" },
        { Square(Made(0, 0, UnitKind.Block, 0, "") with { Inner = Of("Inner", Sides("2"), Sides("2"), "C", Plain(0, 0, "C")) }), "units[0].inner.fabrics", "uses fabric C, which the block around it does not list" },
        { Square(Made(0, 0, UnitKind.Block, 0, "") with { Inner = Of("Inner", Sides("2"), Sides("2"), "A", Half(0, 0, "AQ")) }), "units[0].inner.units[0].fabrics[1]", "Unit 1 (half-square triangle at row 1, column 1) uses fabric Q" },
        { Square(Made(0, 0, UnitKind.Template, 0, "A")), "units[0].cutWidth", "needs \"cutWidth\"" },
        { Square(Made(0, 0, UnitKind.Template, 0, "A") with { CutWidth = In("1"), CutHeight = In("1"), Count = 0 }), "units[0].count", "has a count of 0" },
        { Square(Plain(0, 0, "A") with { Corner = In("1") }), "units[0].corner", "belongs to patches with flipped corners only" },
        { Good with { Units = [Plain(0, 0, "A")] }, "units", "Row 1 has a gap at column 2. Put a unit there or let a neighbour span it." },
        { Good with { Units = [Plain(0, 0, "A", 1, 2), Plain(0, 1, "A")] }, "units[1]", "Unit 2 (plain patch at row 1, column 2) overlaps unit 1 (plain patch at row 1, column 1) at row 1, column 2." },
        { Good with { Units = [Plain(0, 0, "A", 1, 2), Plain(1, 0, "A")] }, "units[1]", "reaches below the last row, 1" },
        { Good with { Units = [Plain(0, 0, "A", 1, 2), Plain(0, 1, "A", 1, int.MaxValue)] }, "units[1]", "reaches past the last column, 2" },
        { Good with { Units = [Plain(0, 0, "A", 1, 2), Plain(-1, 0, "A")] }, "units[1]", "lies outside the grid" },
        { Good with { Units = [Plain(0, 0, "A", 1, 2), Plain(0, 0, "A", 0, 1)] }, "units[1]", "spans 0 rows and 1 columns" },
        { Good with { Units = [] }, "units", "has no units" },
        { Good with { Units = [.. Enumerable.Repeat(Plain(0, 0, "A"), 401)] }, "units", "has 401 units; the most is 400" },
        { Good with { Name = " " }, "name", "has no name" },
        { Good with { Name = new string('x', 201) }, "name", "has 201 letters" },
        { Good with { Rows = [] }, "rows", "has no rows" },
        { Good with { Columns = Equal("1", 25) }, "columns", "has 25 columns; the most is 24" },
        { Good with { Rows = [Length.Zero] }, "rows[0]", "The height of row 1 is 0″; it must be more than 0 and at most 200″." },
        { Good with { Columns = Sides("201", "1") }, "columns[0]", "The width of column 1 is 201″" },
        { Good with { Columns = Sides("150", "150") }, "columns", "come to 300″ together" },
        { Good with { Fabrics = [] }, "fabrics", "has no fabrics" },
        { Good with { Fabrics = [new("a", "")] }, "fabrics[0].letter", "is \"a\". Use one capital letter" },
        { Good with { Fabrics = [new("A", ""), new("A", "")] }, "fabrics[1].letter", "Two fabrics have the letter A" },
    };

    [Theory]
    [MemberData(nameof(BadBlocks))]
    public void Block_ThatIsBad_NamesUnitCellAndRemedy(Block block, string field, string part)
    {
        var problems = BlockChecks.Check(block);
        var problem = Assert.Single(problems, problem => problem.Field == field);
        Assert.Contains(part, problem.Message, StringComparison.Ordinal);
        Assert.Equal(problems[0], problem);

        // What can be drawn is drawn without an error, and no cut list comes of it.
        _ = BlockPatches.Of(block);
        Assert.Null(CutLists.For(block, new()).CutList);
    }

    [Fact]
    public void Block_NestedTooDeep_IsRefused()
    {
        var block = Of("Deepest", Sides("1"), Sides("1"), "A", Plain(0, 0, "A"));
        for (var depth = 0; depth < 3; depth++)
        {
            block = Of("Around", Sides("1"), Sides("1"), "A", new Unit { Row = 0, Column = 0, Kind = UnitKind.Block, Inner = block });
        }

        Assert.Empty(BlockChecks.Check(block));
        block = Of("Around", Sides("1"), Sides("1"), "A", new Unit { Row = 0, Column = 0, Kind = UnitKind.Block, Inner = block });
        Assert.Contains("more than 4 deep", Assert.Single(BlockChecks.Check(block)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Block_WithTooManyUnitsInAll_IsRefused()
    {
        var inner = Of("Inner", Equal("1", 20), Equal("1", 20), "A", [.. Enumerable.Range(0, 400).Select(cell => Plain(cell / 20, cell % 20, "A"))]);
        var block = Of("Outer", Equal("4", 3), Sides("4"), "A", [.. Enumerable.Range(0, 3).Select(column => new Unit { Row = 0, Column = column, Kind = UnitKind.Block, Inner = inner })]);
        Assert.Contains("more than 1000 units", Assert.Single(BlockChecks.Check(block)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Template_InAScaledBlock_IsRefused()
    {
        var inner = Of("Inner", Sides("2"), Sides("2"), "A", Made(0, 0, UnitKind.Template, 0, "A") with { CutWidth = In("3"), CutHeight = In("3") });
        Block Outer(string side) => Of("Outer", Sides(side), Sides(side), "A", new Unit { Row = 0, Column = 0, Kind = UnitKind.Block, Inner = inner });
        Assert.Empty(BlockChecks.Check(Outer("2")));
        Assert.Contains("does not scale", Assert.Single(BlockChecks.Check(Outer("4"))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Gaps_AreToldInOneSentence_AfterAUnitsOwnFault()
    {
        var empty = Of("Wide", Equal("2", 5), Equal("2", 5), "A", Plain(0, 0, "Z"));
        var problems = BlockChecks.Check(empty);
        Assert.Equal(2, problems.Count);
        Assert.Contains("Z", problems[0].Message, StringComparison.Ordinal);
        Assert.Equal(
            "The grid has 24 gaps: row 1, column 2; row 1, column 3; row 1, column 4; row 1, column 5; and 20 more. Put a unit at each or let a neighbour span it.",
            problems[1].Message);
    }

    [Theory]
    [InlineData("1/4", "0.01", 1, "40", "cuttingStep")]
    [InlineData("1/4", "1/8", 1, "121", "usableWidth")]
    [InlineData("0", "1/8", 1, "40", "seamAllowance")]
    [InlineData("2", "1/8", 1, "40", "seamAllowance")]
    [InlineData("1/4", "0", 1, "40", "cuttingStep")]
    [InlineData("1/4", "2", 1, "40", "cuttingStep")]
    [InlineData("1/4", "1/8", 0, "40", "blocksPerKit")]
    [InlineData("1/4", "1/8", 1001, "40", "blocksPerKit")]
    [InlineData("1/4", "1/8", 1, "0", "usableWidth")]
    public void Rules_OutOfRange_NameTheirField(string seam, string step, int blocks, string width, string field)
    {
        var rules = new CuttingRules { SeamAllowance = In(seam), CuttingStep = In(step), BlocksPerKit = blocks, UsableWidth = In(width) };
        var result = CutLists.For(Good, rules);
        Assert.Null(result.CutList);
        Assert.Equal(field, Assert.Single(result.Problems).Field);
    }

    [Fact]
    public void Rules_WithTheFinestSteps_AreGood()
    {
        Assert.Empty(CuttingRulesChecks.Check(new() { CuttingStep = In("1/32") }));
        Assert.Empty(CuttingRulesChecks.Check(new() { CuttingStep = Length.FromMillimetres(0.5m), Metric = true, UsableWidth = In("120") }));
    }
}
