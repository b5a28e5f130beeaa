using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Short ways to say a cutting request in tests; all sizes are inches.</summary>
internal static class Cloth
{
    public static Length In(decimal inches) => Length.FromInches(inches);

    public static BoltStock Bolt(decimal width, decimal increment = 4.5m, decimal minimum = 0, decimal price = 12, decimal? available = null) =>
        new(In(width), In(increment), In(minimum), price, available is { } end ? In(end) : null);

    public static SheetStock Sheet(string name, decimal width, decimal length, int? available = null, decimal price = 0, int pack = 1) =>
        new(name, In(width), In(length), available, price, pack);

    public static CutPiece Piece(string name, decimal width, decimal height, int count, bool mayTurn = true) =>
        new(name, In(width), In(height), count, mayTurn);

    public static CuttingRequest Cut(BoltStock? bolt, params CutPiece[] pieces) => new(new CuttingStock(bolt, []), pieces);

    public static CuttingRequest CutSheets(SheetStock[] sheets, params CutPiece[] pieces) => new(new CuttingStock(null, sheets), pieces);

    /// <summary>Plans, fails on problems and on anything the checker finds.</summary>
    public static CuttingPlan Proved(CuttingRequest request) => Proved(request, CuttingPlanner.Plan(request));

    /// <summary>The same by the limits of work alone: the clock of a busy machine cannot cut the plan short.</summary>
    public static CuttingPlan ProvedByWork(CuttingRequest request) => Proved(request, CuttingPlanner.PlanUntil(request, CancellationToken.None));

    /// <summary>Layouts as a plan: they hold the pieces, and each strip lies on its cloth, or the checker finds something.</summary>
    public static CuttingPlan Checked(CuttingModel model, GroundTables[] tables, IReadOnlyList<LayoutUse> layouts)
    {
        var (request, (strips, sheets, surplus)) = (model.Request, PlanAssembly.Assemble(model, tables, layouts));
        (strips, sheets) = (CutOrder.Arrange(strips), CutOrder.Arrange(sheets));
        var length = OneSizePerStrip.LengthOf(strips);
        var buy = Buying.For(request.Stock, length, sheets);
        var plan = new CuttingPlan
        {
            Length = length,
            Floor = Length.Zero,
            Buy = buy,
            OneSizePerStrip = OneSizePerStrip.Buy(request) ?? buy,
            Strips = strips,
            Sheets = sheets,
            Surplus = surplus,
            Strokes = Strokes.Count(request, strips, sheets),
            Status = PlanStatus.Good,
            Gap = 0m,
        };
        Assert.Empty(PlanChecker.Check(request, plan));
        return plan;
    }

    private static CuttingPlan Proved(CuttingRequest request, CuttingResult result)
    {
        Assert.Empty(result.Problems);
        var plan = Assert.IsType<CuttingPlan>(result.Plan);
        Assert.Empty(PlanChecker.Check(request, plan));
        return plan;
    }
}
