using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>The one door to cutting plans: reads the request for problems, plans it, compares, and has the plan checked.</summary>
public static class CuttingPlanner
{
    /// <summary>Share of the time allowed that is kept, when the search is cut short, for writing the plan out and proving it; and the most that it is.</summary>
    private const double ShareToFinish = 0.1;
    private static readonly TimeSpan MostToFinish = TimeSpan.FromSeconds(0.15);

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

        var toFinish = request.TimeAllowance * ShareToFinish;
        using var clock = new CancellationTokenSource(request.TimeAllowance - (toFinish < MostToFinish ? toFinish : MostToFinish));
        return PlanUntil(request, clock.Token);
    }

    /// <summary>Plans a request without problems. A clock that never ends it leaves that to the limits of work.</summary>
    internal static CuttingResult PlanUntil(CuttingRequest request, CancellationToken clock)
    {
        var (plan, shortage) = Find(request, clock);
        if (plan is null)
        {
            return new CuttingResult(null, [shortage!]);
        }

        plan = clock.IsCancellationRequested ? plan with { Status = PlanStatus.CutShort } : plan;
        var faults = PlanChecker.Check(request, plan);
        return faults.Count == 0
            ? new CuttingResult(plan, [])
            : throw new InvalidOperationException("The planner made a plan that does not hold: " + string.Join(" ", faults));
    }

    /// <summary>The best plan found, or why there is none.</summary>
    private static (CuttingPlan? Plan, Problem? Shortage) Find(CuttingRequest request, CancellationToken clock)
    {
        var model = CuttingModel.From(request);
        var tables = model.Grounds.Select(ground => GroundTables.For(model, ground)).ToArray();
        var relaxation = Relaxation.Solve(model, tables, SheetCost.ByGround(model), clock);
        var leastBolt = MixedStock.LeastBolt(request, clock);
        var (layouts, floor) = Layouts(model, relaxation, leastBolt, clock);
        var fewest = SheetPacking.Applies(model) ? SheetPacking.Fewest(relaxation) : (int?)null;
        List<CuttingPlan> PlansOf(IEnumerable<(IReadOnlyList<Strip> Strips, IReadOnlyList<SheetRecipe> Sheets, IReadOnlyList<Surplus> Surplus)> cuts) =>
            [.. cuts.Select(cut => PlanOf(request, cut.Strips, cut.Sheets, cut.Surplus, (floor, fewest))).Where(plan => !(plan.Buy.Length > request.Stock.Bolt?.Available))];

        var plans = PlansOf([.. layouts.Select(one => PlanAssembly.Assemble(model, tables, one)), .. Handbooks(request)]);
        var (settled, isSettled) = SmallStock.Settle(model, relaxation, Best(request, plans)?.Buy, clock);
        if (settled is not null)
        {
            plans.AddRange(PlansOf(Eased(model, relaxation, settled, clock).Select(one => PlanAssembly.Assemble(model, tables, one))));
        }

        if (!isSettled && layouts.Count > 0)
        {
            var (strips, sheets, _) = PlanAssembly.Assemble(model, tables, layouts[0]);
            plans.AddRange(PlansOf(OtherMixes.Beside(request, strips, sheets, clock)));
        }

        var best = MixedStock.Judge(request, Best(request, plans), isSettled, leastBolt, clock);
        if (best?.Status != PlanStatus.ProvedBest && request.Stock is { Bolt: not null, Sheets.Count: > 0 }
            && !clock.IsCancellationRequested
            && Find(request with { Stock = request.Stock with { Sheets = [] } }, clock).Plan is { } fromBolt && !(fromBolt.Buy.Cost >= best?.Buy.Cost))
        {
            // Sheets beside a bolt make a harder problem: the answer is never to be dearer for having them.
            best = MixedStock.Judge(request, fromBolt, isSettled: false, leastBolt, clock);
        }

        return best is null ? (null, Shortage.Of(model, relaxation.Missing > 1e-6 || isSettled)) : (best, null);
    }

    /// <summary>Least cost, then least cloth bought, where cloth has no price; then what the objective says.</summary>
    private static CuttingPlan? Best(CuttingRequest request, IEnumerable<CuttingPlan> plans) => plans
        .OrderBy(plan => plan.Buy.Cost)
        .ThenBy(plan => plan.Buy.Length)
        .ThenBy(plan => request.Objective == CuttingObjective.LeastLength ? plan.Length : Length.Zero)
        .ThenBy(plan => plan.Strokes)
        .ThenBy(plan => plan.Strips.Count + plan.Sheets.Sum(sheet => sheet.Strips.Count))
        .ThenBy(plan => plan.Length) // The shorter plan leaves the longer end of the bolt, in one wide piece.
        .FirstOrDefault();

    /// <summary>A plan, and where the bolt is cut, those of the same purchase that are easier to cut.</summary>
    private static IEnumerable<IReadOnlyList<LayoutUse>> Eased(CuttingModel model, Relaxation relaxation, IReadOnlyList<LayoutUse> plan, CancellationToken clock)
    {
        var stock = model.Request.Stock;
        return !model.Request.CostOnly && !clock.IsCancellationRequested && LengthOn(model, plan) is { IsPositive: true } length
            ? EasyPlan.Find(model, relaxation, plan, Buying.Leaves(stock, Buying.BoltLength(stock, length)), clock).Prepend(plan)
            : [plan];
    }

    /// <summary>
    /// The plans to choose from, and the length of bolt that no plan can do without: the linear program's plan, settled where
    /// the case is small; those that are easier to cut; and where that may be bettered on sheets of one kind, the packed one.
    /// </summary>
    private static (List<IReadOnlyList<LayoutUse>> Layouts, Length Floor) Layouts(CuttingModel model, Relaxation relaxation, Length? leastBolt, CancellationToken clock)
    {
        var stock = model.Request.Stock;
        var layouts = new List<IReadOnlyList<LayoutUse>>();
        var floor = Floor.Of(model, relaxation);
        var cheapest = Buying.BoltLength(stock, leastBolt ?? floor);
        var measure = Length.FromTicks(Floor.Measure(relaxation));
        var room = Buying.Leaves(stock, cheapest);
        var whole = WholePlan.Find(model, relaxation, cost => (double)(room - LengthOfCost(cost).RoundDownTo(measure)).Ticks / Length.TicksPerInch, clock);
        if (whole is not null)
        {
            var settled = Settled(model, relaxation, whole, cheapest, clock);
            if (settled is { } proof)
            {
                floor = Length.Max(floor, proof.Floor);
            }

            layouts.AddRange(Eased(model, relaxation, settled?.Plan ?? whole, clock));
        }

        var mayBeBettered = SheetPacking.Applies(model)
            && (whole is null || whole.Sum(use => (long)use.Times) > SheetPacking.Fewest(relaxation));
        if (mayBeBettered && SheetPacking.Find(model, relaxation, clock) is { } packed)
        {
            layouts.Add(packed);
        }

        return (layouts, floor);
    }

    /// <summary>
    /// A small demand settled: where length counts, that nothing is shorter, which proves the cost too; else, where that is not
    /// known yet, that nothing less is to be bought.
    /// </summary>
    private static (IReadOnlyList<LayoutUse> Plan, Length Floor)? Settled(
        CuttingModel model, Relaxation relaxation, IReadOnlyList<LayoutUse> plan, Length cheapest, CancellationToken clock)
    {
        if (clock.IsCancellationRequested)
        {
            return null;
        }

        if (model.Request is { Objective: CuttingObjective.LeastLength, CostOnly: false }
            && SmallProof.Settle(model, relaxation, plan, CuttingObjective.LeastLength, clock) is { } shortest)
        {
            return shortest;
        }

        return Buying.BoltLength(model.Request.Stock, LengthOn(model, plan)) <= cheapest
            ? null
            : SmallProof.Settle(model, relaxation, plan, CuttingObjective.LeastWork, clock);
    }

    private static Length LengthOn(CuttingModel model, IReadOnlyList<LayoutUse> uses) =>
        Length.FromTicks(uses.Where(use => model.Grounds[use.Layout.Ground].IsBolt).Sum(use => use.Layout.Height * use.Times));

    private static Length LengthOfCost(double inches) => Length.FromTicks((long)Math.Round(inches * Length.TicksPerInch));

    /// <summary>No plan is to be worse than the handbooks', so theirs is always among them.</summary>
    private static IEnumerable<(IReadOnlyList<Strip> Strips, IReadOnlyList<SheetRecipe> Sheets, IReadOnlyList<Surplus> Surplus)> Handbooks(CuttingRequest request)
    {
        if (OneSizePerStrip.Strips(request) is { } strips)
        {
            yield return (strips, [], []);
        }
    }

    /// <summary>True where the length bought is the length that the floor asks for, so that no plan costs less.</summary>
    private static bool IsCheapest(CuttingRequest request, Length bought, Length floor) =>
        request.Objective == CuttingObjective.LeastWork && request.Stock.Sheets.Count == 0
        && bought == Buying.BoltLength(request.Stock, floor);

    private static CuttingPlan PlanOf(
        CuttingRequest request, IReadOnlyList<Strip> strips, IReadOnlyList<SheetRecipe> sheets, IReadOnlyList<Surplus> surplus, (Length Floor, int? Sheets) bounds)
    {
        (strips, sheets) = (CutOrder.Arrange(strips), CutOrder.Arrange(sheets));
        var length = OneSizePerStrip.LengthOf(strips);
        var floor = Length.Min(length, bounds.Floor);
        var buy = Buying.For(request.Stock, length, sheets);
        var used = sheets.Sum(recipe => recipe.Repeat);
        var cheapest = IsCheapest(request, buy.Length, floor);
        var (have, least) = bounds.Sheets is { } fewest ? (used, Math.Min(used, fewest)) : (length.Ticks, floor.Ticks);
        return new CuttingPlan
        {
            Length = length,
            Floor = floor,
            Buy = buy,
            OneSizePerStrip = OneSizePerStrip.Buy(request) ?? buy,
            Strips = strips,
            Sheets = sheets,
            Surplus = surplus,
            Strokes = Strokes.Count(request, strips, sheets),
            Status = cheapest || (least > 0 && have == least) ? PlanStatus.ProvedBest : PlanStatus.Good,
            Gap = least > 0 && !cheapest ? (decimal)(have - least) / least : 0m,
        };
    }
}
