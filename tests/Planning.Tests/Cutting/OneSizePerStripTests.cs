using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

public sealed class OneSizePerStripTests
{
    [Fact]
    public void Strips_PieceThatMayTurn_LiesTheWayThatTakesLess()
    {
        // 40 in: eight 5 in wide make strips of 9 in; four 9 in wide make strips of 5 in. Four pieces: 9 in against 5 in.
        var strip = Assert.Single(OneSizePerStrip.Strips(Cut(Bolt(40), Piece("bar", 5, 9, 4)))!);
        Assert.Equal(In(5), strip.Height);
        Assert.True(strip.Columns[0].Pieces[0].Turned);
    }

    [Theory]
    [InlineData(true, true)]
    [InlineData(false, false)]
    public void Strips_PieceThatKeepsItsDirection_IsNotTurned(bool directional, bool mayTurn)
    {
        var request = Cut(Bolt(40), Piece("bar", 5, 9, 4, mayTurn)) with { Directional = directional };
        Assert.Equal(In(9), Assert.Single(OneSizePerStrip.Strips(request)!).Height);
    }

    [Fact]
    public void Strips_TwoLinesOfOneSize_ShareAStrip()
    {
        // 40 in holds eight 4½ in squares: 11 + 9 fill two strips and half of a third, where lines of their own would need four.
        var strips = OneSizePerStrip.Strips(Cut(Bolt(40), Piece("one", 4.5m, 4.5m, 11), Piece("two", 4.5m, 4.5m, 9)))!;
        Assert.Equal(In(13.5m), OneSizePerStrip.LengthOf(strips));
        foreach (var (index, count) in new[] { (0, 11), (1, 9) })
        {
            Assert.Equal(count, strips.Sum(strip => strip.Repeat * strip.Columns.Where(column => column.Pieces[0].Piece == index).Sum(column => column.Repeat)));
        }
    }

    [Fact]
    public void Strips_PieceWiderThanTheBoltBothWays_HasNone() =>
        Assert.Null(OneSizePerStrip.Strips(Cut(Bolt(40), Piece("panel", 41, 41, 1))));

    [Fact]
    public void Buy_LessThanTheMinimumCut_BuysTheMinimum()
    {
        var buy = OneSizePerStrip.Buy(Cut(Bolt(40, increment: 4.5m, minimum: 9m, price: 11.99m), Piece("square", 2, 2, 3)))!;
        Assert.Equal(In(9), buy.Length);
        Assert.Equal(3.00m, buy.Cost); // 11.99 ÷ 4 = 2.9975
    }

    [Fact]
    public void Buying_EndOfABolt_IsSoldAsItIs()
    {
        var stock = new CuttingStock(Bolt(40, available: 10), []);
        Assert.Equal(In(10), Buying.BoltLength(stock, In(9.5m)));
        Assert.Equal(In(13.5m), Buying.BoltLength(stock, In(10.5m)));
        Assert.Equal(In(9), Buying.BoltLength(stock, In(9)));
    }

    [Fact]
    public void Buying_ShrunkAndTrued_LeavesWhatIsNeededAndNotATickLessWouldDo()
    {
        foreach (var (share, need) in new[] { (0.03m, 12.375m), (0.06m, 33.333m), (0m, 7m), (0.0277m, 101.128m), (1m / 3m, 10m) })
        {
            var stock = new CuttingStock(Bolt(40), [], ShrinkageAlong: share, SquaringUp: In(0.5m));
            var bought = Buying.Unwashed(stock, In(need));
            Assert.True(Buying.Leaves(stock, bought) >= In(need));
            Assert.True(Buying.Leaves(stock, bought - Length.FromTicks(1)) < In(need));
        }
    }

    [Fact]
    public void Buying_Packs_AreBoughtWhole() => Assert.Equal(42m * 0.25m * 2, Buying.SheetPrice(Sheet("5 in square", 5, 5, null, 0.25m, 42), 43));
}
