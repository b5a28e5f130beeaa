using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Classes;

public sealed class ShoppingListTests
{
    private static readonly Length Square = Length.FromInches(4, 1, 2);
    private static readonly BoltStock Bolt = new(Length.FromInches(42), Length.FromInches(4, 1, 2), Length.FromInches(4, 1, 2), 12m);

    [Fact]
    public void For_ShelfAndShop_TakesTheShelfFirst()
    {
        // A fat quarter of 18 × 21 in on the shelf holds sixteen 4½ in squares; nine more are one strip of 42 in: ⅛ yd, 1.50.
        var request = new CuttingRequest(new CuttingStock(Bolt, [new("Remnant 21″ × 18″", Length.FromInches(21), Length.FromInches(18), 1, 0m)]), [new("A: 4½″ square", Square, Square, 25)]);
        var list = ShoppingList.For([new(7, "Dusk blue", "market stall", request, CuttingPlanner.Plan(request))]);
        var line = Assert.Single(list.Lines);
        Assert.Equal((Square, 1.50m, 1.50m, false), (line.Length, line.LengthCost, line.Cost, line.IsOnShelf));
        Assert.Equal([new SheetsToBuy("Remnant 21″ × 18″", 1, 0, 0, 0)], line.FromShelf);
        Assert.Empty(line.Sheets);
        Assert.Equal(1.50m, list.Total);
    }

    [Fact]
    public void For_Packs_BuysWholeOnes()
    {
        var request = new CuttingRequest(new CuttingStock(null, [new("5 in square", Length.FromInches(5), Length.FromInches(5), null, 0.25m, 42)]), [new("A", Square, Square, 50)]);
        var line = Assert.Single(ShoppingList.For([new(7, "Dusk blue", "", request, CuttingPlanner.Plan(request))]).Lines);
        Assert.Equal([new SheetsToBuy("5 in square", 50, 2, 84, 21m)], line.Sheets);
        Assert.Equal((Length.Zero, 0m, 21m), (line.Length, line.LengthCost, line.Cost));
    }

    [Fact]
    public void For_AFabricWithoutPlan_IsNamedAndNotInTheTotal()
    {
        var wide = new CuttingRequest(new CuttingStock(Bolt, []), [new("backing", Length.FromInches(50), Length.FromInches(50), 1)]);
        var list = ShoppingList.For([new(7, "Dusk blue", "", wide, CuttingPlanner.Plan(wide))]);
        Assert.Empty(list.Lines);
        Assert.Equal(0m, list.Total);
        var problem = Assert.Single(list.Problems);
        Assert.StartsWith("Dusk blue: “backing”", problem.Message, StringComparison.Ordinal);
        Assert.StartsWith("fabrics[7].", problem.Field, StringComparison.Ordinal);
    }

    [Fact]
    public void Together_TwoClasses_IsOneLineAFabric()
    {
        var request = new CuttingRequest(new CuttingStock(Bolt, []), [new("A", Square, Square, 9)]);
        var one = ShoppingList.For([new(7, "Dusk blue", "", request, CuttingPlanner.Plan(request)), new(8, "Dawn", "", request, CuttingPlanner.Plan(request))]);
        var other = ShoppingList.For([new(7, "Dusk blue", "market stall", request, CuttingPlanner.Plan(request))]);
        var season = ShoppingList.Together([one, other]);
        Assert.Equal([(7L, "market stall", Length.FromInches(9), 3m), (8L, "", Square, 1.5m)], season.Lines.Select(line => (line.Fabric, line.SupplierNote, line.Length, line.Cost)));
        Assert.Equal(one.Total + other.Total, season.Total);
    }
}
