using KittingBee.Planning.Pricing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>Cost and profit of a class against enrolment; each point is a real plan for that number of students.</summary>
/// <param name="Points">From few students to many; those that are not planned yet are missing.</param>
/// <param name="BreakEven">Where the class begins to pay for itself, read off the points.</param>
/// <param name="Complete">False where time ran out before every number was planned.</param>
public sealed record ClassCurve(IReadOnlyList<EnrolmentPoint> Points, BreakEven BreakEven, bool Complete)
{
    private const int MostPoints = 60;

    /// <summary>How long a page may wait for all points. What is planned by then is remembered, so that asking again goes on from there.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(4);

    /// <summary>How long one part of a curve may take that is shown as it arrives.</summary>
    public static readonly TimeSpan Part = TimeSpan.FromMilliseconds(300);

    /// <summary>Plans the class for each enrolment around today's. Null where the class cannot be planned or priced.</summary>
    public static ClassCurve? Of(ClassPlanning planning, PlanBook plans, ClassMaterials materials, ClassPlan plan, TimeProvider clock, TimeSpan patience)
    {
        var (record, price) = (materials.Record, ClassPricing.Of(materials.Record, plan));
        if (price.Cost is not { } cost || price.Price is not { } asked || plan.Colourways.Count == 0 || plan.Problems.Count > 0)
        {
            return null;
        }

        var extra = price.Request.Kits - price.Request.PaidKits;
        var money = new ClassMoney(Lines(record, price), record.Fee, asked.BeforeTax, extra);
        var most = Math.Min(MostPoints, Math.Max(record.Places ?? 0, price.Request.PaidKits + 6));
        var today = Math.Clamp(price.Request.PaidKits, 1, most);
        var kits = Enumerable.Range(1, most).Select(students => students == price.Request.PaidKits ? KitNumbers.Of(plan) : KitNumbers.Scaled(plan, students + extra));
        var requests = planning.RequestsFor(materials, plan.CutList, kits).Select(one => one.ToDictionary(request => request.FabricId)).ToList();
        var fabrics = requests.SelectMany(one => one.Keys).Distinct().Select(fabric => new FabricSteps(plans, [.. requests.Select(one => one.GetValueOrDefault(fabric))])).ToList();
        var started = clock.GetTimestamp();
        fabrics.AsParallel().ForAll(fabric => fabric.Plan(today - 1, () => clock.GetElapsedTime(started) < patience));
        var points = Enumerable.Range(1, most)
            .Where(students => fabrics.TrueForAll(fabric => fabric.Costs[students - 1] is not null))
            .Select(students => EnrolmentCurve.At(money, students, fabrics.Sum(fabric => fabric.Costs[students - 1]!.Value)))
            .ToList();
        return points.Count == 0 ? null : new(points, BreakEven.Of(points), points.Count == most);
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
