using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>What is known of a plan where there are sheets, beside a bolt or alone: its floor, and whether it is proved best.</summary>
internal static class MixedStock
{
    /// <summary>The plan with floor, status and gap; plans from the bolt alone and null stay as they are.</summary>
    /// <param name="request">What was asked.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="isSettled">True where no plan is cheaper, and none as cheap shorter where that was asked.</param>
    /// <param name="leastBolt">The bolt that no plan can do without, where <see cref="LeastBolt"/> told it.</param>
    /// <param name="clock">The safety net.</param>
    public static CuttingPlan? Judge(CuttingRequest request, CuttingPlan? plan, bool isSettled, Length? leastBolt, CancellationToken clock)
    {
        if (plan is null || request.Stock.Sheets.Count == 0)
        {
            return plan;
        }

        if (request.Stock.Bolt is not null && plan.Length.IsPositive)
        {
            plan = WithFloor(request, plan, leastBolt ?? Floor.BesideSheets(request, plan.Sheets, clock));
        }

        return isSettled || (plan.Buy.Cost == 0 && !plan.Length.IsPositive && request.Stock.Bolt is not null)
            ? plan with { Status = PlanStatus.ProvedBest, Gap = 0m }
            : plan;
    }

    /// <summary>
    /// The bolt that no plan can do without, where sheets cost nothing and only the cost is asked for: a plan that buys no
    /// more needs no bettering. Null where that is not so; less of the shelf, and less work, are left to a plan that is cut.
    /// </summary>
    public static Length? LeastBolt(CuttingRequest request, CancellationToken clock) =>
        request is { CostOnly: true, Stock.Bolt: not null } && request.Stock.Sheets.Count > 0 && IsOfShelf(request.Stock) ? Floor.BesideSheets(request, [], clock) : null;

    private static bool IsOfShelf(CuttingStock stock) => stock.Sheets.All(sheet => sheet is { Price: 0, Available: not null });

    /// <summary>Where all the sheets are the shelf's, it is a floor for every plan.</summary>
    private static CuttingPlan WithFloor(CuttingRequest request, CuttingPlan plan, Length least)
    {
        var floor = Length.Min(plan.Length, least);
        var buysLeast = request.Objective == CuttingObjective.LeastWork && plan.Buy.Length == Buying.BoltLength(request.Stock, floor);
        var proved = IsOfShelf(request.Stock) && (buysLeast || plan.Length == floor);
        return plan with
        {
            Floor = floor,
            Status = proved ? PlanStatus.ProvedBest : PlanStatus.Good,
            Gap = floor.IsPositive && !proved ? (decimal)(plan.Length - floor).Ticks / floor.Ticks : 0m,
        };
    }
}
