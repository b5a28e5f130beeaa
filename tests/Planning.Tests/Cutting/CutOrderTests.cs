using KittingBee.Planning.Cutting;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

public sealed class CutOrderTests
{
    private static readonly CuttingRequest Request = Cut(Bolt(40), Piece("square", 4.5m, 4.5m, 100), Piece("bar", 8.5m, 2.5m, 100));

    [Fact]
    public void Arrange_MixedStrips_PutsTallestFirstLongestFirstAndJoinsEqualRecipes()
    {
        var low = new Strip(In(2.5m), 1, [Bars(4)]);
        var one = new Strip(In(4.5m), 2, [Squares(3), Bars(2), Squares(1)]);
        var same = new Strip(In(4.5m), 3, [Bars(2), Squares(4)]);
        var strips = CutOrder.Arrange([low, one, same]);

        Assert.Equal([In(4.5m), In(2.5m)], strips.Select(strip => strip.Height));
        Assert.Equal([5, 1], strips.Select(strip => strip.Repeat));
        Assert.Equal([In(8.5m), In(4.5m)], strips[0].Columns.Select(column => column.Width));
        Assert.Equal([2, 4], strips[0].Columns.Select(column => column.Repeat));
    }

    [Fact]
    public void Lines_OfAPlan_SayLengthUsedLayersPilesAndSettings()
    {
        var plan = Plan(new Strip(In(4.5m), 5, [Squares(8)]), new Strip(In(4.5m), 1, [Squares(1), Bars(1)]), new Strip(In(2.5m), 2, [Bars(4)]));
        var lines = CutOrder.Lines(Request, plan);

        Assert.Equal([In(22.5m), In(27), In(32)], lines.Select(line => line.UsedSoFar));
        Assert.Equal([false, true, false], lines.Select(line => line.SameSetting));

        // Four layers: two folded strips to a pile, so five strips make three piles; a strip without a pair lies open.
        Assert.Equal([4, 1, 4], lines.Select(line => line.Layers));
        Assert.Equal([3L, 1L, 1L], lines.Select(line => line.Piles));
        Assert.Equal([5L, 1L, 2L], lines.Select(line => line.Ticks));
        Assert.Equal(40, lines[0].SubCuts[0].Pieces);
    }

    [Fact]
    public void Minutes_OfAPlan_AddUpStrokesSettingsPilesAndPressing()
    {
        var plan = Plan(new Strip(In(4.5m), 2, [Squares(8)]), new Strip(In(4.5m), 1, [Bars(2)]));

        // By hand: strips 3; squares 4 pairs, both strips at once, 4; bars one pair 1, cross-cut to 2½ in one pile 1: 9 strokes.
        // Settings: 4½ strip, 4½ sub-cut, 8½ sub-cut, 2½ cross-cut: 4. Piles: 2. Bolt: 13½ in = ⅜ yd.
        Assert.Equal(9, plan.Strokes);
        var rates = new CuttingRates(10, 20, 30, 80);
        Assert.Equal(decimal.Ceiling((90 + 80 + 60 + 30) / 6m) / 10m, CuttingTime.Minutes(Request, plan, rates));
    }

    [Fact]
    public void Strokes_OfRepeatedStrips_FallWithMoreLayers()
    {
        Strip[] strips = [new Strip(In(4.5m), 12, [Squares(8)])];
        var strokes = new[] { 1, 2, 4, 6 }.Select(layers => Strokes.Count(Request with { Layers = layers }, strips, []));

        // 12 strips and 8 columns: open 24 + 96; folded 12 + 4 × 12; two strips to a pile 12 + 4 × 6; three 12 + 4 × 4.
        Assert.Equal([120, 60, 36, 28], strokes);
    }

    private static CuttingPlan Plan(params Strip[] strips)
    {
        var length = OneSizePerStrip.LengthOf(strips);
        return new CuttingPlan
        {
            Length = length,
            Floor = length,
            Buy = Buying.For(Request.Stock, length, []),
            OneSizePerStrip = Buying.For(Request.Stock, length, []),
            Strips = strips,
            Sheets = [],
            Surplus = [],
            Strokes = Strokes.Count(Request, strips, []),
            Status = PlanStatus.Good,
            Gap = 0m,
        };
    }

    private static Column Squares(int repeat) => new(In(4.5m), repeat, [new StackedPiece(0, In(4.5m), In(4.5m), false, 1)]);

    private static Column Bars(int repeat) => new(In(8.5m), repeat, [new StackedPiece(1, In(8.5m), In(2.5m), false, 1)]);
}
