using KittingBee.Planning.Blocks;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>Published blocks, entered as blocks: the whole cut list must come out as printed.</summary>
public sealed class WorkedBlocksTests
{
    // allpeoplequilt.com, nine-patch-quilt-block, 2 Apr 2019: 5 + 4 squares 2 1/2; unfinished 6 1/2.
    [Fact]
    public void NinePatch_SixInches_IsAsPrinted()
    {
        var block = Of("Nine-Patch", Sides("6"), Sides("6"), "AB", new Unit
        {
            Row = 0,
            Column = 0,
            Kind = UnitKind.Checkerboard,
            Patches = [["A", "B", "A"], ["B", "A", "B"], ["A", "B", "A"]],
        });
        var list = CutList(block);
        Assert.Equal("A: 5 @ 2 1/2 x 2 1/2; B: 4 @ 2 1/2 x 2 1/2", InShort(list));
        Assert.Equal(In("6 1/2"), list.UnfinishedWidth);
    }

    private static Block ChurnDash(string third, string bar) => Of(
        "Churn Dash",
        Sides(third, third, third),
        Sides(third, third, third),
        "ABC",
        Half(0, 0, "AB"),
        Half(0, 2, "AB", 90),
        Half(2, 2, "AB", 180),
        Half(2, 0, "AB", 270),
        Made(0, 1, UnitKind.Rails, 0, "CB") with { Widths = Sides(bar, bar) },
        Made(1, 2, UnitKind.Rails, 90, "CB"),
        Made(2, 1, UnitKind.Rails, 180, "CB"),
        Made(1, 0, UnitKind.Rails, 270, "CB"),
        Plain(1, 1, "C"));

    // allpeoplequilt.com, churn-dash-quilt-block, 5 Dec 2013. A: 2 squares 2 7/8 cut once. B: 2 squares 2 7/8 cut once,
    // 4 of 1 1/2 x 2 1/2. C: 1 square 2 1/2, 4 of 1 1/2 x 2 1/2.
    [Fact]
    public void ChurnDash_SixInches_IsAsPrinted() => Assert.Equal(
        "A: 2 @ 2 7/8 x 2 7/8; B: 2 @ 2 7/8 x 2 7/8, 4 @ 2 1/2 x 1 1/2; C: 1 @ 2 1/2 x 2 1/2, 4 @ 2 1/2 x 1 1/2",
        InShort(CutList(ChurnDash("2", "1"), CutTriangles)));

    // A block from common practice, no source: 4 x 4 units of 3 1/2 in finished; eight half-square triangles from 4 1/2 in
    // squares (four, two and two of three fabrics) trimmed to 4 in, eight 4 in plain squares of the third fabric, two with one 2 in stitch-and-flip corner.
    [Fact]
    public void SixteenUnits_FromCommonPractice_AreExactlyThesePieces()
    {
        var corner = Made(1, 1, UnitKind.FlippedCorners, 0, "CD...") with { Corner = In("1 1/2") };
        var block = Of(
            "Sixteen",
            Equal("3 1/2", 4),
            Equal("3 1/2", 4),
            "ABCD",
            Half(0, 0, "AC"),
            Half(0, 1, "CA"),
            Half(0, 2, "AC", 90),
            Half(0, 3, "AB", 90),
            Half(1, 0, "AB", 180),
            Half(2, 0, "BA"),
            Half(3, 0, "BA", 270),
            Half(3, 3, "AC"),
            corner,
            corner with { Row = 2, Column = 2, Turn = 180 },
            Plain(1, 2, "C"),
            Plain(1, 3, "C"),
            Plain(2, 1, "C"),
            Plain(2, 3, "C"),
            Plain(3, 1, "C"),
            Plain(3, 2, "C"));
        var list = CutList(block);
        Assert.Equal(In("14 1/2"), list.UnfinishedWidth);
        Assert.Equal(In("14 1/2"), list.UnfinishedHeight);

        // The 4 1/2 in squares: four of one fabric, two of each of two others.
        Assert.Equal("A: 4 @ 4 1/2 x 4 1/2; B: 2 @ 4 1/2 x 4 1/2; C: 2 @ 4 1/2 x 4 1/2, 8 @ 4 x 4; D: 2 @ 2 x 2", InShort(list));
        var triangles = list.Units.Where(unit => unit.Kind == UnitKind.HalfSquareTriangle).ToList();
        Assert.Equal([4, 4], triangles.Select(unit => unit.Count));
        Assert.All(triangles, unit => Assert.Equal((In("4"), 0), (unit.TrimWidth, unit.LeftOver)));
    }

    [Fact]
    public void Block_WrittenAndRead_IsTheSame()
    {
        var block = ChurnDash("2", "1");
        var reading = BlockJson.Read(BlockJson.Write(block));
        Assert.Empty(reading.Problems);
        Assert.Equal(BlockJson.Write(block), BlockJson.Write(reading.Block!));
        Assert.Equal(InShort(CutList(block)), InShort(CutList(reading.Block!)));
    }
}
