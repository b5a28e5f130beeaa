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
        var (layouts, floor) = Layouts(model, relaxation, clock.Token);
        var fewest = SheetPacking.Applies(model) ? SheetPacking.Fewest(relaxation) : (int?)null;
        var cuts = layouts.Select(one => PlanAssembly.Assemble(model, tables, one)).ToList();
        var best = cuts
            .Concat(cuts.Take(1).SelectMany(first => OtherMixes.Beside(request, first.Strips, first.Sheets, clock.Token)))
            .Concat(Handbooks(request))
            .Select(cut => PlanOf(request, cut.Strips, cut.Sheets, cut.Surplus, (floor, fewest)))
            .Where(plan => !(plan.Buy.Length > request.Stock.Bolt?.Available))
            .OrderBy(plan => plan.Buy.Cost)
            .ThenBy(plan => request.Objective == CuttingObjective.LeastLength ? plan.Length : Length.Zero)
            .ThenBy(plan => plan.Strokes)
            .ThenBy(plan => plan.Strips.Count + plan.Sheets.Sum(sheet => sheet.Strips.Count))
            .ThenBy(plan => plan.Length) // The shorter plan leaves the longer end of the bolt, in one wide piece.
            .FirstOrDefault();
        if (best?.Status != PlanStatus.ProvedBest && request.Stock is { Bolt: not null, Sheets.Count: > 0 }
            && Plan(request with { Stock = request.Stock with { Sheets = [] } }).Plan is { } fromBolt && !(fromBolt.Buy.Cost >= best?.Buy.Cost))
        {
            // Sheets beside a bolt make a harder problem: the answer is never to be dearer for having them.
            best = fromBolt with { Status = PlanStatus.Good };
        }

        if (best is not { } found)
        {
            return new CuttingResult(null, [Shortage.Of(model, relaxation)]);
        }

        if (request.Stock is { Bolt: not null, Sheets.Count: > 0 } && found.Length.IsPositive)
        {
            found = WithFloor(request, found, Floor.BesideSheets(request, found.Sheets, clock.Token));
        }

        var plan = clock.IsCancellationRequested ? found with { Status = PlanStatus.CutShort } : found;
        var faults = PlanChecker.Check(request, plan);
        return faults.Count == 0
            ? new CuttingResult(plan, [])
            : throw new InvalidOperationException("The planner made a plan that does not hold: " + string.Join(" ", faults));
    }

    /// <summary>
    /// The plans to choose from, and the length of bolt that no plan can do without: the linear program's plan, settled where
    /// the case is small; the one that is easier to cut; and where that may be bettered on sheets of one kind, the packed one.
    /// </summary>
    private static (List<IReadOnlyList<LayoutUse>> Layouts, Length Floor) Layouts(CuttingModel model, Relaxation relaxation, CancellationToken clock)
    {
        var stock = model.Request.Stock;
        var layouts = new List<IReadOnlyList<LayoutUse>>();
        var floor = Floor.Of(model, relaxation);
        var easy = model.Request.Objective == CuttingObjective.LeastWork;
        var cheapest = easy && model.Grounds.All(ground => ground.IsBolt) ? Buying.BoltLength(stock, floor) : Length.Zero;
        var whole = WholePlan.Find(model, relaxation, cost => Buying.BoltLength(stock, LengthOfCost(cost)) <= cheapest, clock);
        if (whole is not null)
        {
            if (Buying.BoltLength(stock, LengthOn(model, whole)) > cheapest && SmallProof.Settle(model, relaxation, whole) is { } settled)
            {
                whole = settled;
                floor = LengthOn(model, settled);
            }

            layouts.Add(whole);
            var length = LengthOn(model, whole);
            var bought = Buying.BoltLength(stock, length);
            if (length.Ticks > floor.Ticks * (1 + WholePlan.NotWorthTheSearch) && (!easy || bought > cheapest) && !clock.IsCancellationRequested
                && EasyPlan.Find(model, relaxation, whole, length, leastLength: true) is { } shorter
                && LengthOn(model, shorter) < length)
            {
                whole = shorter;
                bought = Buying.BoltLength(stock, LengthOn(model, whole));
                layouts.Add(whole);
            }

            if (easy && length.IsPositive && !clock.IsCancellationRequested
                && EasyPlan.Find(model, relaxation, whole, Buying.Leaves(stock, bought), leastLength: false) is { } simple)
            {
                layouts.Add(simple);
            }
        }

        var mayBeBettered = SheetPacking.Applies(model)
            && (whole is null || whole.Sum(use => (long)use.Times) > SheetPacking.Fewest(relaxation));
        if (mayBeBettered && SheetPacking.Find(model, relaxation, clock) is { } packed)
        {
            layouts.Add(packed);
        }

        return (layouts, floor);
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

    /// <summary>A plan of bolt and sheets with its floor. Where all the sheets are the shelf's, it is a floor for every plan.</summary>
    private static CuttingPlan WithFloor(CuttingRequest request, CuttingPlan plan, Length least)
    {
        var floor = Length.Min(plan.Length, least);
        var fromShelf = request.Stock.Sheets.All(sheet => sheet is { Price: 0, Available: not null });
        var buysLeast = request.Objective == CuttingObjective.LeastWork && plan.Buy.Length == Buying.BoltLength(request.Stock, floor);
        var proved = fromShelf && (buysLeast || plan.Length == floor);
        return plan with
        {
            Floor = floor,
            Status = proved ? PlanStatus.ProvedBest : PlanStatus.Good,
            Gap = floor.IsPositive && !proved ? (decimal)(plan.Length - floor).Ticks / floor.Ticks : 0m,
        };
    }

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
