using KittingBee.Planning.Blocks;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>More published blocks: log cabins, pinwheels and the blocks of whole quilts.</summary>
public sealed class WorkedQuiltsTests
{
    /// <summary>A centre and logs around it, clockwise from the top, each one cell deep.</summary>
    private static Block LogCabin(int centre, string letters, string logs)
    {
        var side = centre + (logs.Length / 2);
        var start = logs.Length / 4;
        var units = new List<Unit> { Plain(start, start, letters[..1], centre, centre) };
        var (top, left, bottom, right) = (start, start, start + centre, start + centre);
        foreach (var (index, letter) in logs.Index())
        {
            units.Add((index % 4) switch
            {
                0 => Plain(--top, left, letter.ToString(), 1, right - left),
                1 => Plain(top, right++, letter.ToString(), bottom - top, 1),
                2 => Plain(bottom++, left, letter.ToString(), 1, right - left),
                _ => Plain(top, --left, letter.ToString(), bottom - top, 1),
            });
        }

        return Of("Log Cabin", Equal("1", side), Equal("1", side), letters, [.. units]);
    }

    // allpeoplequilt.com, log cabin option 1, 18 Dec 2013, 11 in: centre 1 1/2; lights 1 1/2 x 10 1/2 … 2 1/2 and one 1 1/2
    // square; darks 1 1/2 x 11 1/2 … 2 1/2.
    [Fact]
    public void LogCabin_ElevenInches_IsAsPrinted() => Assert.Equal(
        "C: 1 @ 1 1/2 x 1 1/2; "
        + "L: 1 @ 10 1/2 x 1 1/2, 1 @ 9 1/2 x 1 1/2, 1 @ 8 1/2 x 1 1/2, 1 @ 7 1/2 x 1 1/2, 1 @ 6 1/2 x 1 1/2, 1 @ 5 1/2 x 1 1/2, 1 @ 4 1/2 x 1 1/2, 1 @ 3 1/2 x 1 1/2, 1 @ 2 1/2 x 1 1/2, 1 @ 1 1/2 x 1 1/2; "
        + "D: 1 @ 11 1/2 x 1 1/2, 1 @ 10 1/2 x 1 1/2, 1 @ 9 1/2 x 1 1/2, 1 @ 8 1/2 x 1 1/2, 1 @ 7 1/2 x 1 1/2, 1 @ 6 1/2 x 1 1/2, 1 @ 5 1/2 x 1 1/2, 1 @ 4 1/2 x 1 1/2, 1 @ 3 1/2 x 1 1/2, 1 @ 2 1/2 x 1 1/2",
        InShort(CutList(LogCabin(1, "CLD", "LLDDLLDDLLDDLLDDLLDD"))));

    // allpeoplequilt.com, log cabin option 2, 2 Apr 2019, 9 in: centre 3 1/2; 1 1/2 wide: black 8 1/2, 7 1/2, 6 1/2, 5 1/2, 4 1/2,
    // 3 1/2; orange 5 1/2, 4 1/2; pink 7 1/2, 6 1/2; purple 9 1/2, 8 1/2; unfinished 9 1/2.
    [Fact]
    public void LogCabin_NineInches_IsAsPrinted()
    {
        var list = CutList(LogCabin(3, "CBOPU", "BBOOBBPPBBUU"));
        Assert.Equal(
            "C: 1 @ 3 1/2 x 3 1/2; B: 1 @ 8 1/2 x 1 1/2, 1 @ 7 1/2 x 1 1/2, 1 @ 6 1/2 x 1 1/2, 1 @ 5 1/2 x 1 1/2, 1 @ 4 1/2 x 1 1/2, 1 @ 3 1/2 x 1 1/2; "
            + "O: 1 @ 5 1/2 x 1 1/2, 1 @ 4 1/2 x 1 1/2; P: 1 @ 7 1/2 x 1 1/2, 1 @ 6 1/2 x 1 1/2; U: 1 @ 9 1/2 x 1 1/2, 1 @ 8 1/2 x 1 1/2",
            InShort(list));
        Assert.Equal(In("9 1/2"), list.UnfinishedWidth);

        // One log after the other: twelve joins.
        Assert.Equal(12, list.Steps.Count);
    }

    // LLQG guild block of the month, July 2023, 12 in. Background: 8 squares 2 1/2; 4 of 2 7/8 cut once; 2 of 4 7/8 cut once;
    // 1 of 5 1/4 cut twice. Red: 4 of 2 7/8 cut once. Blue: 4 of 2 7/8 cut once; 1 of 5 1/4 cut twice.
    [Fact]
    public void RollingPinwheel_TwelveInches_IsAsPrinted()
    {
        Unit Edge(int row, int column, int turn) => Quarter(row, column, "AAAB", turn) with { RowSpan = 2, ColumnSpan = 2 };
        var block = Of(
            "Rolling Pinwheel",
            Equal("2", 6),
            Equal("2", 6),
            "ARB",
            Plain(0, 0, "A"), Half(0, 1, "AR"), Half(1, 0, "AB"), Plain(1, 1, "A"),
            Plain(0, 4, "A"), Half(0, 5, "AR", 90), Half(1, 4, "AB", 90), Plain(1, 5, "A"),
            Plain(4, 0, "A"), Half(4, 1, "AR", 180), Half(5, 0, "AB", 180), Plain(5, 1, "A"),
            Plain(4, 4, "A"), Half(4, 5, "AR", 270), Half(5, 4, "AB", 270), Plain(5, 5, "A"),
            Half(2, 2, "RB", 90), Half(2, 3, "RB", 180), Half(3, 3, "RB", 270), Half(3, 2, "RB"),
            Edge(0, 2, 0), Edge(2, 4, 90), Edge(4, 2, 180), Edge(2, 0, 270));
        var list = CutList(block, CutTriangles);
        Assert.Equal(
            "A: 1 @ 5 1/4 x 5 1/4, 2 @ 4 7/8 x 4 7/8, 4 @ 2 7/8 x 2 7/8, 8 @ 2 1/2 x 2 1/2; R: 4 @ 2 7/8 x 2 7/8; B: 1 @ 5 1/4 x 5 1/4, 4 @ 2 7/8 x 2 7/8",
            InShort(list));
        Assert.Equal(In("12 1/2"), list.UnfinishedWidth);
    }

    // Sharon Stroud, 17 Feb 2012, 9 in, 20 blocks. Each: background 2 squares 3 7/8 cut once and 4 squares 3 1/2; design 2 squares
    // 3 7/8 cut once and 1 square 3 1/2. For 20: background 40 + 80, design 40 + 20.
    [Theory]
    [InlineData(1, "A: 2 @ 3 7/8 x 3 7/8, 4 @ 3 1/2 x 3 1/2; B: 2 @ 3 7/8 x 3 7/8, 1 @ 3 1/2 x 3 1/2")]
    [InlineData(20, "A: 40 @ 3 7/8 x 3 7/8, 80 @ 3 1/2 x 3 1/2; B: 40 @ 3 7/8 x 3 7/8, 20 @ 3 1/2 x 3 1/2")]
    public void ShooFly_NineInches_IsAsPrinted(int blocks, string pieces)
    {
        var block = Of(
            "Shoo Fly",
            Equal("3", 3),
            Equal("3", 3),
            "AB",
            Half(0, 0, "AB"), Plain(0, 1, "A"), Half(0, 2, "AB", 90),
            Plain(1, 0, "A"), Plain(1, 1, "B"), Plain(1, 2, "A"),
            Half(2, 0, "AB", 270), Plain(2, 1, "A"), Half(2, 2, "AB", 180));
        Assert.Equal(pieces, InShort(CutList(block, CutTriangles with { BlocksPerKit = blocks })));
        Assert.Equal(pieces, InShort(CutList(block, Exact with { BlocksPerKit = blocks })));
    }

    // allpeoplequilt.com, Built-to-Order runner, 11 Oct 2022, five 9 in blocks: coral 10 and cream 10 squares 3 7/8 (20 triangle
    // squares, 3 1/2); teal 10, floral 10, yellow 5 squares 3 1/2.
    [Fact]
    public void RunnerBlocks_FiveOfNineInches_AreAsPrinted()
    {
        var block = Of(
            "Runner",
            Equal("3", 3),
            Equal("3", 3),
            "ABTFY",
            Half(0, 0, "AB"), Plain(0, 1, "T"), Half(0, 2, "AB", 90),
            Plain(1, 0, "F"), Plain(1, 1, "Y"), Plain(1, 2, "F"),
            Half(2, 0, "AB", 270), Plain(2, 1, "T"), Half(2, 2, "AB", 180));
        var list = CutList(block, Exact with { BlocksPerKit = 5 });
        Assert.Equal("A: 10 @ 3 7/8 x 3 7/8; B: 10 @ 3 7/8 x 3 7/8; T: 10 @ 3 1/2 x 3 1/2; F: 10 @ 3 1/2 x 3 1/2; Y: 5 @ 3 1/2 x 3 1/2", InShort(list));
        Assert.Equal((20, In("3 1/2")), (list.Units[0].Count, list.Units[0].TrimWidth));
    }

    // modernquiltingbyb.com, Feb 2015, 35 blocks of 8 in: 4 of 2 1/2 x 4 1/2 each of two colours; 140 in all of each.
    [Fact]
    public void Windmill_ThirtyFiveOfEightInches_IsAsPrinted()
    {
        var block = Of(
            "Windmill",
            Equal("4", 2),
            Equal("4", 2),
            "AB",
            Made(0, 0, UnitKind.Rails, 0, "AB"), Made(0, 1, UnitKind.Rails, 90, "AB"), Made(1, 1, UnitKind.Rails, 180, "AB"), Made(1, 0, UnitKind.Rails, 270, "AB"));
        Assert.Equal("A: 4 @ 4 1/2 x 2 1/2; B: 4 @ 4 1/2 x 2 1/2", InShort(CutList(block)));
        Assert.Equal("A: 140 @ 4 1/2 x 2 1/2; B: 140 @ 4 1/2 x 2 1/2", InShort(CutList(block, new() { BlocksPerKit = 35 })));
    }

    // Ozark Foothills guild, 2013: 400 squares of 3 in, 20 x 20, finish at 50 x 50.
    [Fact]
    public void GuildQuilt_OfFourHundredSquares_FinishesAtFifty()
    {
        var block = Of("Squares", Equal("2 1/2", 20), Equal("2 1/2", 20), "A", [.. Enumerable.Range(0, 400).Select(cell => Plain(cell / 20, cell % 20, "A"))]);
        var list = CutList(block);
        Assert.Equal("A: 400 @ 3 x 3", InShort(list));
        Assert.Equal(In("50 1/2"), list.UnfinishedWidth);
    }

    // Block Lotto, Sept 2009: 6 in sawtooth star, geese 3 x 1 1/2 four at a time: 4 1/4 and 2 3/8. The corners and centre follow.
    [Fact]
    public void SawtoothStar_SixInches_HasThePrintedGeese()
    {
        Unit Goose(int row, int column, int turn) => Made(row, column, UnitKind.FlyingGeese, turn, "ABB") with
        {
            RowSpan = turn % 180 == 0 ? 1 : 2,
            ColumnSpan = turn % 180 == 0 ? 2 : 1,
        };
        var block = Of(
            "Sawtooth Star",
            Equal("1 1/2", 4),
            Equal("1 1/2", 4),
            "AB",
            Plain(0, 0, "A"), Plain(0, 3, "A"), Plain(3, 0, "A"), Plain(3, 3, "A"), Plain(1, 1, "B", 2, 2),
            Goose(0, 1, 180), Goose(1, 3, 270), Goose(3, 1, 0), Goose(1, 0, 90));
        var list = CutList(block, new() { Methods = new() { FlyingGeese = GeeseMethod.FourAtATime } });
        Assert.Equal("A: 1 @ 4 1/4 x 4 1/4, 4 @ 2 x 2; B: 1 @ 3 1/2 x 3 1/2, 4 @ 2 3/8 x 2 3/8", InShort(list));
        Assert.Equal(0, list.Units[0].LeftOver);
    }
}
