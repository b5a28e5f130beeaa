using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Cutting;

public sealed class UselessSheetTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(0.01)]
    public void Plan_ASheetThatHoldsNoPiece_IsLeftAlone(decimal price)
    {
        // A 3 in scrap on the shelf holds no 4½ in square: two side by side from the bolt take one 4½ in strip.
        var size = Length.FromInches(4, 1, 2);
        var stock = new CuttingStock(
            new BoltStock(Length.FromInches(42), size, size, 12m),
            [new SheetStock("Scrap", Length.FromInches(3), Length.FromInches(3), 1, price)]);
        var plan = CuttingPlanner.Plan(new CuttingRequest(stock, [new CutPiece("square", size, size, 2)])).Plan!;
        Assert.Empty(plan.Sheets);
        Assert.Equal(size, plan.Length);
    }
}
