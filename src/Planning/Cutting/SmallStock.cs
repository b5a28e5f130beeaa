using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Settles small demands where there are sheets: finds the cheapest plan, or proves that the plan known costs the least.</summary>
internal static class SmallStock
{
    /// <summary>Pieces in all; for larger demands a linear program for each purchase takes too long.</summary>
    private const int MostPieces = 40;

    private const double Doubt = 1e-6;

    /// <summary>The cheapest plan, of those the one with the least bolt; none and true where the known cost is the least; false where it is not settled.</summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Its bound and worths.</param>
    /// <param name="best">The purchase of the best plan known, or null where none is.</param>
    /// <param name="clock">The safety net.</param>
    public static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Settle(CuttingModel model, Relaxation relaxation, Purchase? best, CancellationToken clock)
    {
        if (model.Grounds.All(ground => ground.IsBolt))
        {
            return (null, false);
        }

        // The worths prove something only where the cloth suffices, too.
        var isPriced = relaxation.Missing < Doubt && relaxation.IsSolved;
        var known = best?.Cost;
        if (known is { } cost && model.Request.Objective == CuttingObjective.LeastWork)
        {
            // A plan as cheap is known: only one for less money is looked for.
            if (PurchaseSteps.NextBelow(model.Request.Stock, cost) is not { } less)
            {
                return (null, true);
            }

            known = less;
        }

        var waste = isPriced && known is { } most ? WasteOf(model, relaxation, most) : double.PositiveInfinity;
        if (waste < 0)
        {
            return (null, true);
        }

        var portions = PortionPlan.PortionsOf(model, clock);
        IReadOnlyList<LayoutUse>? cheaper = null;
        if (best is not null && model.Request.Objective == CuttingObjective.LeastWork && model.Sizes.Sum(size => (long)size.Demand) <= MostPieces)
        {
            (cheaper, var isSettled) = PurchaseSearch.Cheapest(model, relaxation, portions, best.Cost, clock);
            if (isSettled)
            {
                return (cheaper, true);
            }
        }

        var (plan, isCheapest) = portions is null
            ? (null, false)
            : PortionPlan.Cheapest(model, relaxation, portions, waste, known is { } sum ? MostBolt(model, sum) : null, kind => MostSheets(model, kind, known ?? decimal.MaxValue));
        return (plan ?? cheaper, isCheapest);
    }

    /// <summary>What a plan of a cost can be above the bound: in inches of bolt, the shelf's cloth at the little it counts for.</summary>
    private static double WasteOf(CuttingModel model, Relaxation relaxation, decimal known)
    {
        var stock = model.Request.Stock;
        var shelf = model.Grounds.Select((ground, index) => (ground, index))
            .Where(one => one.ground is { IsBolt: false, Lengthwise: false } && stock.Sheets[one.ground.Sheet].Price == 0)
            .Sum(one => relaxation.SheetCosts[one.index] * MostSheets(model, one.ground.Sheet, known));
        return ((double)(known + 0.005m) / SheetCost.PerInch(stock)) + shelf - relaxation.Bound + Doubt;
    }

    /// <summary>Sheets of a kind that a plan of the cost can have: as many as there are, as the money buys, and as there are pieces.</summary>
    private static int MostSheets(CuttingModel model, int kind, decimal known)
    {
        var sheet = model.Request.Stock.Sheets[kind];
        var most = (int)Math.Min(model.Sizes.Sum(size => (long)size.Demand), sheet.Available ?? int.MaxValue);
        return sheet.Price == 0 || known == decimal.MaxValue ? most : (int)Math.Min(most, decimal.Floor((known + 0.005m) / (sheet.Price * sheet.PackSize)) * sheet.PackSize);
    }

    /// <summary>Ticks of bolt that the money buys; null where that is not known.</summary>
    private static long? MostBolt(CuttingModel model, decimal known) => model.Request.Stock is { Bolt: not null } stock && PurchaseSteps.Lengths(stock, known) is { } lengths
        ? lengths.Count == 0 ? 0 : Buying.Leaves(stock, lengths[^1]).Ticks
        : null;
}
