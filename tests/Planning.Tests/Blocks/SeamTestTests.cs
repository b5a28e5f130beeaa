using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class SeamTestTests
{
    private static readonly Length Quarter = Length.FromInches(0, 1, 4);

    [Theory]
    // J. Cahoon, quiltcentric.com, 16 Sept 2012: three strips of 1 1/2 in come out 3 1/2 in wide; quilted-connections.com: centre 1 in.
    [InlineData(3, 1.5, 3.5, 1)]
    // traceypereira.blogspot.com: three 5 in squares, centre 4 1/2 in.
    [InlineData(3, 5, 14, 4.5)]
    // katherineskreationz.com: three 2 in squares come out at 5 in.
    [InlineData(3, 2, 5, 1.5)]
    // onwilliamsstreet.com: two 3 in squares joined measure 5 1/2 in.
    [InlineData(2, 3, 5.5, 2.5)]
    public void JoinedStrips_MeasureAsPublished(int strips, double width, double joined, double inner)
    {
        var test = new SeamTest(strips, Length.FromInches((decimal)width), Quarter);

        Assert.Equal(Length.FromInches((decimal)joined), test.JoinedWidth);
        Assert.Equal(Length.FromInches((decimal)inner), test.InnerWidth);
    }

    [Fact]
    public void FourSeamsThatLoseAnEighth_TakeHalfAnInch()
    {
        // quilted-connections.com: 1/8 in off at each of 4 seams is 1/2 in off the block; 1/8 in at a seam is 1/16 in too deep on each side.
        Assert.Equal(Length.FromInches(12), SeamsAcross.Measures(Length.FromInches(12, 1, 2), Length.FromInches(0, 1, 16), 4));
        Assert.Equal(Length.FromInches(0, 1, 16), SeamsAcross.TooDeep(Length.FromInches(12, 1, 2), Length.FromInches(12), 4));
    }

    [Theory]
    [InlineData("plain", "plain", "plain", 2)]
    [InlineData("half", "plain", "half", 2)]
    [InlineData("four-patch", "plain", "four-patch", 4)]
    [InlineData("bars across", "plain", "plain", 2)]
    [InlineData("bars upright", "plain", "plain", 4)]
    public void SeamsAcross_CountsWhatIsNotTrimmed(string first, string second, string third, int seams)
    {
        var block = new Block(
            "Row",
            [Length.FromInches(3), Length.FromInches(3), Length.FromInches(3)],
            [Length.FromInches(3)],
            [new("A", "ground"), new("B", "star")],
            [Unit(0, first), Unit(1, second), Unit(2, third)]);

        Assert.Equal(seams, SeamsAcross.LeftToRight(block));
    }

    [Fact]
    public void SeamsAcross_OfABlockInABlock_CountsTheInnerSeams()
    {
        var inner = new Block("Inner", [Length.FromInches(1), Length.FromInches(1), Length.FromInches(1)], [Length.FromInches(3)], [], [
            Unit(0, "plain"), Unit(1, "plain"), Unit(2, "plain"),
        ]);
        Unit Nested(int turn) => new() { Row = 0, Column = 0, Kind = UnitKind.Block, Inner = inner, Turn = turn };
        Block Outer(int turn) => new("Outer", [Length.FromInches(3), Length.FromInches(3)], [Length.FromInches(3)], [], [Nested(turn), Unit(1, "plain")]);

        Assert.Equal(3, SeamsAcross.LeftToRight(Outer(0)));
        Assert.Equal(1, SeamsAcross.LeftToRight(Outer(90)));
    }

    private static Unit Unit(int column, string what) => what switch
    {
        "half" => new() { Row = 0, Column = column, Kind = UnitKind.HalfSquareTriangle, Fabrics = ["A", "B"] },
        "four-patch" => new() { Row = 0, Column = column, Kind = UnitKind.Checkerboard, Patches = [["A", "B"], ["B", "A"]] },
        "bars across" => new() { Row = 0, Column = column, Kind = UnitKind.Rails, Fabrics = ["A", "B", "A"] },
        "bars upright" => new() { Row = 0, Column = column, Kind = UnitKind.Rails, Fabrics = ["A", "B", "A"], Turn = 90 },
        _ => new() { Row = 0, Column = column, Kind = UnitKind.Plain, Fabrics = ["A"] },
    };
}
