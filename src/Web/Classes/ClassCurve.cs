using KittingBee.Planning.Pricing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>Cost and profit of a class against enrolment; each point is a real plan for that number of students.</summary>
/// <param name="Points">From few students to many.</param>
/// <param name="BreakEven">Where the class begins to pay for itself, read off the points.</param>
/// <param name="Complete">False where time ran out before the last number was planned.</param>
public sealed record ClassCurve(IReadOnlyList<EnrolmentPoint> Points, BreakEven BreakEven, bool Complete)
{
    private const int MostPoints = 60;

    // A page should not keep anybody waiting longer; what is planned by then is remembered, so that asking again goes on from there.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(4);

    /// <summary>Plans the class for each enrolment around today's. Null where the class cannot be planned or priced.</summary>
    public static ClassCurve? Of(ClassPlanning planning, ClassMaterials materials, ClassPlan plan, TimeProvider clock)
    {
        var (record, price) = (materials.Record, ClassPricing.Of(materials.Record, plan));
        if (price.Cost is not { } cost || price.Price is not { } asked || plan.Colourways.Count == 0 || plan.Problems.Count > 0)
        {
            return null;
        }

        var extra = price.Request.Kits - price.Request.PaidKits;
        var money = new ClassMoney(Lines(record, price), record.Fee, asked.BeforeTax, extra);
        var most = Math.Min(MostPoints, Math.Max(record.Places ?? 0, price.Request.PaidKits + 6));
        var started = clock.GetTimestamp();
        var points = EnrolmentCurve.Points(money, 1, most, students => FabricFor(students + extra))
            .TakeWhile(_ => clock.GetElapsedTime(started) < Patience)
            .ToList();
        return points.Count == 0 ? null : new(points, BreakEven.Of(points), points.Count == most);

        decimal FabricFor(int kits) => planning
            .PlanFor(materials, plan.CutList, KitNumbers.Scaled(plan, kits))
            .Sum(fabric => fabric.Plan?.Buy.Cost ?? 0m);
    }

    // Cutting is counted by the kit, at today's minutes for each.
    private static IReadOnlyList<CostLine> Lines(ClassRecord record, ClassPrice price) =>
    [
        new(CostKind.Venue, "Room, teacher and the like", record.FixedCosts, CostBasis.PerClass),
        new(CostKind.Notions, "Notions", record.Notions, CostBasis.PerKit),
        new(CostKind.PackagingAndPrinting, "Packaging and printing", record.Packaging, CostBasis.PerKit),
        CostLine.Labour("Cutting", (decimal)price.CuttingMinutes / price.Request.Kits, record.LabourPerHour, CostBasis.PerKit),
        CostLine.Labour("Packing", record.PackingMinutes, record.LabourPerHour, CostBasis.PerKit),
    ];
}
