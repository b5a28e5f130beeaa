using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>The one door to cutting plans: reads the request for problems, plans it, compares, and has the plan checked.</summary>
public static class CuttingPlanner
{
    /// <summary>
    /// Plans one fabric. Bad input comes back as problems, never as an exception. The same request gives the same plan on
    /// any machine unless the clock had to cut the search short, which the plan's status then says.
    /// </summary>
    /// <exception cref="InvalidOperationException">The planner made a plan that does not hold: a fault in the program.</exception>
    public static CuttingResult Plan(CuttingRequest request)
    {
        var problems = RequestProblems.In(request);
        if (problems.Count > 0)
        {
            return new CuttingResult(null, problems);
        }

        var model = CuttingModel.From(request);
        var tables = model.Grounds.Select(ground => GroundTables.For(model, ground)).ToArray();
        using var clock = new CancellationTokenSource(request.TimeAllowance);
        var relaxation = Relaxation.Solve(model, tables, SheetCost.ByGround(model), clock.Token);
        var whole = WholePlan.Find(model, relaxation, clock.Token);
        if (whole is null)
        {
            return new CuttingResult(null, [Shortage.Of(model, relaxation)]);
        }

        var (strips, sheets, surplus) = PlanAssembly.Assemble(model, tables, whole);
        var length = OneSizePerStrip.LengthOf(strips);
        var floor = Length.Min(length, Floor.Of(model, relaxation));
        var plan = new CuttingPlan
        {
            Length = length,
            Floor = floor,
            Buy = Buying.For(request.Stock, length, sheets),
            OneSizePerStrip = OneSizePerStrip.Buy(request) ?? Buying.For(request.Stock, length, sheets),
            Strips = strips,
            Sheets = sheets,
            Surplus = surplus,
            Strokes = Strokes.Count(request, strips, sheets),
            Status = clock.IsCancellationRequested ? PlanStatus.CutShort : length == floor ? PlanStatus.ProvedBest : PlanStatus.Good,
            Gap = floor.IsPositive ? (decimal)(length - floor).Ticks / floor.Ticks : 0m,
        };

        var faults = PlanChecker.Check(request, plan);
        return faults.Count == 0
            ? new CuttingResult(plan, [])
            : throw new InvalidOperationException("The planner made a plan that does not hold: " + string.Join(" ", faults));
    }
}
