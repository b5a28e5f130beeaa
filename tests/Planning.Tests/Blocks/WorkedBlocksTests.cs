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

    // quilterscache.com, ChurnDashBlock, Oct 1998, 12 in: triangles from 4 7/8 squares, strip set of 2 1/2 x 18 cut every 4 1/2,
    // centre 4 1/2; unfinished 12 1/2.
    [Fact]
    public void ChurnDash_TwelveInchesStripPieced_IsAsPrinted()
    {
        var list = CutList(ChurnDash("4", "2"), new() { Methods = new() { Rails = PatchMethod.StripPieced, Trim = TrimMethod.Exact } });
        Assert.Equal("A: 2 @ 4 7/8 x 4 7/8; B: 2 @ 4 7/8 x 4 7/8, 1 @ 18 x 2 1/2; C: 1 @ 4 1/2 x 4 1/2, 1 @ 18 x 2 1/2", InShort(list));
        Assert.Equal(In("12 1/2"), list.UnfinishedWidth);
        Assert.Contains("cut 4 segments 4½″ wide", string.Join(' ', list.Steps.Select(step => step.Text)), StringComparison.Ordinal);
    }

    // americanhomestead.blogspot.com, July 2011, 12 in, bars as patches: 4 + 4 of 2 1/2 x 4 1/2, centre 4 1/2. (Its triangles are
    // cut 5 1/4; ours are cut 5 and trimmed to the same 4 1/2.)
    [Fact]
    public void ChurnDash_TwelveInchesOversize_HasThePrintedBars()
    {
        var list = CutList(ChurnDash("4", "2"));
        Assert.Equal("A: 2 @ 5 x 5; B: 2 @ 5 x 5, 4 @ 4 1/2 x 2 1/2; C: 1 @ 4 1/2 x 4 1/2, 4 @ 4 1/2 x 2 1/2", InShort(list));
        Assert.Equal(In("4 1/2"), list.Units.First(unit => unit.Kind == UnitKind.HalfSquareTriangle).TrimWidth);
    }

    private static Block OhioStar(string third) => Of(
        "Ohio Star",
        Equal(third, 3),
        Equal(third, 3),
        "AB",
        Plain(0, 0, "A"),
        Plain(0, 2, "A"),
        Plain(2, 0, "A"),
        Plain(2, 2, "A"),
        Plain(1, 1, "B"),
        Quarter(0, 1, "ABAB"),
        Quarter(1, 0, "BABA", 90),
        Quarter(1, 2, "BABA"),
        Quarter(2, 1, "ABAB", 180));

    // allpeoplequilt.com, ohio-star-quilt-block, 14 June 2017, 10 1/2 in: blue 2 squares 4 3/4, 4 squares 4; orange 2 squares
    // 4 3/4, 1 square 4; pairs become hourglasses of 4; unfinished 11.
    [Fact]
    public void OhioStar_TenAndAHalfInches_IsAsPrinted()
    {
        var list = CutList(OhioStar("3 1/2"), Exact);
        Assert.Equal("A: 2 @ 4 3/4 x 4 3/4, 4 @ 4 x 4; B: 2 @ 4 3/4 x 4 3/4, 1 @ 4 x 4", InShort(list));
        Assert.Equal((In("11"), 4, In("4")), (list.UnfinishedWidth, list.Units[0].Count, list.Units[0].TrimWidth));
    }

    // quiltcg.com, 3 Apr 2015, 12 in: 4 squares 4 1/2 and 1 square 4 1/2; 2 + 2 squares 5 1/4 cut twice (8 + 8).
    [Fact]
    public void OhioStar_TwelveInches_IsAsPrinted() => Assert.Equal(
        "A: 2 @ 5 1/4 x 5 1/4, 4 @ 4 1/2 x 4 1/2; B: 2 @ 5 1/4 x 5 1/4, 1 @ 4 1/2 x 4 1/2",
        InShort(CutList(OhioStar("4"), CutTriangles)));

    // Corner squares by block size: delawarequilts.com/BOMs/OhioStarVariation.
    [Theory]
    [InlineData("1", "1 1/2")]
    [InlineData("2", "2 1/2")]
    [InlineData("3", "3 1/2")]
    [InlineData("4", "4 1/2")]
    public void OhioStar_OfEachPublishedSize_HasThePrintedCorners(string third, string corner) =>
        Assert.Contains($"4 @ {corner} x {corner}; B", InShort(CutList(OhioStar(third), Exact)), StringComparison.Ordinal);

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
