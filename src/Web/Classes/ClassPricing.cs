using KittingBee.Planning;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Pricing;
using KittingBee.Web.Documents;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>What a class's kits cost and what is asked for them.</summary>
/// <param name="Request">The figures that the cost was worked out from.</param>
/// <param name="Cost">The cost of a kit, or null where there is no kit or a figure is wrong.</param>
/// <param name="Price">The price of a kit, or null likewise.</param>
/// <param name="CuttingMinutes">Minutes at the cutting table for the whole class.</param>
/// <param name="BreakEven">Students whose payments cover the fixed costs at today's cost per kit; null where no number does.</param>
/// <param name="Problems">What is wrong with the figures.</param>
public sealed record ClassPrice(
    KitCostRequest Request, KitCost? Cost, KitPrice? Price, int CuttingMinutes, int? BreakEven, IReadOnlyList<Problem> Problems)
{
    /// <summary>What a student pays before tax: the fee and the kit.</summary>
    public decimal StudentPays(ClassRecord record) => record.Fee + (Price?.BeforeTax ?? 0m);
}

/// <summary>Prices a planned class from its own figures.</summary>
public static class ClassPricing
{
    /// <summary>Cost, price and break-even; only planned fabrics are counted.</summary>
    public static ClassPrice Of(ClassRecord record, ClassPlan plan)
    {
        var planned = plan.Fabrics.Where(fabric => fabric.Plan is not null).ToList();
        var minutes = planned.Where(fabric => fabric.HasTicket).Sum(fabric => Ticket.Of(fabric).Minutes(record.SecondsPerStroke));
        var request = new KitCostRequest(
            plan.Kits.Count,
            plan.Kits.Count(kit => kit.Role is KitRole.Student or KitRole.Open),
            planned.Sum(fabric => fabric.Plan!.Buy.Cost),
            planned.Sum(Used),
            Lines(record, minutes));
        if (plan.Kits.Count == 0)
        {
            return new(request, null, null, minutes, null, []);
        }

        var cost = KitCost.For(request);
        if (cost.Cost is null)
        {
            return new(request, null, null, minutes, null, cost.Problems);
        }

        var price = KitPrice.For(cost.Cost.PerKit, RuleOf(record));
        var breakEven = BreakEven.Students(record.FixedCosts, record.Fee + (price.Price?.BeforeTax ?? 0m), cost.Cost.PerKit);
        return new(request, cost.Cost, price.Price, minutes, breakEven, price.Problems);
    }

    /// <summary>How the class prices its kits.</summary>
    public static PriceRule RuleOf(ClassRecord record) => record.Pricing switch
    {
        "markup" => new(PriceBy.Markup, record.MarkupPercent / 100m, record.PriceStep, record.TaxPercent / 100m),
        "by-hand" => new(PriceBy.SetByHand, record.PriceByHand, record.PriceStep, record.TaxPercent / 100m),
        _ => new(PriceBy.Margin, record.MarginPercent / 100m, record.PriceStep, record.TaxPercent / 100m),
    };

    private static IReadOnlyList<CostLine> Lines(ClassRecord record, int minutes) =>
    [
        new(CostKind.Notions, "Notions", record.Notions, CostBasis.PerKit),
        new(CostKind.PackagingAndPrinting, "Packaging and printing", record.Packaging, CostBasis.PerKit),
        CostLine.Labour("Cutting", minutes, record.LabourPerHour, CostBasis.PerClass),
        CostLine.Labour("Packing", record.PackingMinutes, record.LabourPerHour, CostBasis.PerKit),
    ];

    // What the plan takes of the bolt at the price of the bolt, and precuts without the rest of their pack.
    private static decimal Used(PlannedFabric fabric)
    {
        if (fabric.IsBought)
        {
            return Cents.Nearest(fabric.Plan!.Sheets.Sum(sheet => sheet.Repeat * fabric.Request.Stock.Sheets[sheet.Sheet].Price));
        }

        var (stock, plan) = (fabric.Request.Stock, fabric.Plan!);
        var left = plan.Buy.Length - Buying.Unwashed(stock, plan.Length);
        return left.IsPositive ? Math.Max(0m, plan.Buy.Cost - Cents.Nearest(Buying.BoltPrice(stock, left))) : plan.Buy.Cost;
    }
}
