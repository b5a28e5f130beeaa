using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Settles small demands purchase by purchase: a plan is cheapest where nothing that costs less holds the pieces. For each
/// purchase a linear program of its own says how much cloth may be wasted, and the tables of portions whether the pieces fit.
/// </summary>
internal static class PurchaseSearch
{
    /// <summary>A sheet's cost where it is there anyway; the program divides by costs, so it is not zero.</summary>
    private const double NextToNothing = 1e-6;

    private const double Doubt = 1e-6;

    /// <summary>The cheapest plan for less than a sum; none and settled where there is none; not settled where that takes too much work.</summary>
    public static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Cheapest(CuttingModel model, Relaxation relaxation, Portions? portions, decimal below, CancellationToken clock)
    {
        IReadOnlyList<LayoutUse>? best = null;
        while (Purchases.Largest(model, below) is { } purchases)
        {
            IReadOnlyList<LayoutUse>? found = null;
            foreach (var purchase in purchases)
            {
                var (plan, isSettled) = Fill(model, relaxation, portions, purchase, clock);
                if (!isSettled)
                {
                    return (best, false);
                }

                if (plan is not null && CostOf(model, plan) is var cost && cost < below)
                {
                    (found, below) = (plan, cost);
                    break;
                }
            }

            if (found is null)
            {
                return (best, true);
            }

            best = found;
        }

        return (best, false);
    }

    /// <summary>A plan from a purchase, none and settled where it does not hold the pieces.</summary>
    private static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Fill(CuttingModel whole, Relaxation relaxation, Portions? portions, ClothBought purchase, CancellationToken clock)
    {
        var stock = whole.Request.Stock;
        var model = CuttingModel.From(whole.Request with
        {
            Stock = stock with
            {
                Bolt = purchase.Bolt.IsPositive ? stock.Bolt! with { Available = null } : null,
                Sheets = [.. stock.Sheets.Select((sheet, kind) => sheet with { Available = purchase.Sheets[kind] })],
            },
        });
        if (AreaOf(model, Buying.Leaves(stock, purchase.Bolt)) < model.Sizes.Aggregate(Int128.Zero, (sum, size) => sum + ((Int128)size.Width.Ticks * size.Height.Ticks * size.Demand)))
        {
            return (null, true);
        }

        // How much of one cloth do the pieces need, where the others are there anyway?
        var places = model.Grounds.Select(ground => whole.Grounds.ToList().IndexOf(ground)).ToArray();
        var measured = model.Grounds.MaxBy(ground => ground.IsBolt ? Int128.MaxValue : (Int128)ground.Across * ground.Along)!.Sheet;
        var (room, own) = measured < 0
            ? ((double)Buying.Leaves(stock, purchase.Bolt).Ticks / Length.TicksPerInch, model)
            : (purchase.Sheets[measured], WithoutLimit(model, measured));
        var needed = Relaxation.Solve(own, [.. places.Select(place => relaxation.Tables[place])], [.. model.Grounds.Select(ground => ground.IsBolt ? 0 : ground.Sheet == measured ? 1 : NextToNothing)], clock);
        var waste = needed.IsSolved && needed.Missing < Doubt ? room + (NextToNothing * purchase.Sheets.Sum()) + Doubt - needed.Bound : double.PositiveInfinity;
        if (waste < 0)
        {
            return (null, true);
        }

        if (portions is null)
        {
            return (null, false);
        }

        var (plan, isSettled) = PortionPlan.Cheapest(model, needed, portions, waste, Buying.Leaves(stock, purchase.Bolt).Ticks, kind => purchase.Sheets[kind]);
        return (plan?.Select(use => new LayoutUse(On(places[use.Layout.Ground], use.Layout, relaxation), use.Times)).ToList(), isSettled);
    }

    /// <summary>The same with no end to one kind of sheets.</summary>
    private static CuttingModel WithoutLimit(CuttingModel model, int kind) => CuttingModel.From(model.Request with
    {
        Stock = model.Request.Stock with { Sheets = [.. model.Request.Stock.Sheets.Select((sheet, index) => index == kind ? sheet with { Available = null } : sheet)] },
    });

    private static Int128 AreaOf(CuttingModel model, Length bolt) => model.Grounds
        .Where(ground => !ground.Lengthwise)
        .Aggregate(Int128.Zero, (sum, ground) => sum + ((Int128)ground.Across * (ground.IsBolt ? bolt.Ticks : ground.Along * (Int128)model.Request.Stock.Sheets[ground.Sheet].Available!.Value)));

    private static Layout On(int ground, Layout layout, Relaxation relaxation) => relaxation.Tables[ground].Ground.IsBolt
        ? Layout.OfStrip(ground, layout.Strips[0], layout.Cost)
        : Layout.OfSheet(ground, layout.Strips, relaxation.SheetCosts[ground]);

    private static decimal CostOf(CuttingModel model, IReadOnlyList<LayoutUse> plan)
    {
        var stock = model.Request.Stock;
        var onBolt = plan.Where(use => model.Grounds[use.Layout.Ground].IsBolt).Sum(use => use.Layout.Height * use.Times);
        var cost = Buying.BoltPrice(stock, Buying.BoltLength(stock, Length.FromTicks(onBolt))) + plan
            .Where(use => !model.Grounds[use.Layout.Ground].IsBolt)
            .GroupBy(use => model.Grounds[use.Layout.Ground].Sheet)
            .Sum(kind => Buying.SheetPrice(stock.Sheets[kind.Key], kind.Sum(use => use.Times)));
        return decimal.Round(cost, 2, MidpointRounding.AwayFromZero);
    }
}
