using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;

namespace KittingBee.Web.Classes;

/// <summary>What a class buys.</summary>
public static class ClassShopping
{
    /// <summary>The shopping list of a planned class: the shelf first, then the shop.</summary>
    public static ShoppingList Shopping(this ClassPlan plan) => ShoppingList.For([.. plan.Fabrics.Select(fabric =>
        new FabricToBuy(fabric.FabricId, fabric.Name, fabric.SupplierNote, fabric.Request, new CuttingResult(fabric.Plan, fabric.Problems)))]);
}
