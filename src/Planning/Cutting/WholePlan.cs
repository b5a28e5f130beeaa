namespace KittingBee.Planning.Cutting;

/// <summary>
/// Whole numbers of layouts: the bulk as the relaxed solution has it, rounded down, and the remainder by search. The
/// remainder is at most about one layout for each size, however many kits there are, and so is the work.
/// </summary>
internal static class WholePlan
{
    /// <summary>Tries for each second that the request allows; a work limit, so that any machine finds the same plan.</summary>
    private const int RoundsPerSecond = 800;

    /// <summary>Steps of the tables for each second allowed; about a tenth of a second's work.</summary>
    private const long StepsPerSecond = 30_000_000;

    /// <summary>The second search gets so many times the work of the first; few plans need it.</summary>
    private const int MoreWork = 3;

    /// <summary>Work of the integer program for each second allowed, in its own measure.</summary>
    private const double ProgramWorkPerSecond = 0.02;

    /// <summary>Larger pools gain nothing in the work allowed.</summary>
    private const int MostInProgram = 400;

    /// <summary>A plan this share above the bound is left as it is: a quarter inch in a hundred yards and more.</summary>
    private const double NotWorthTheSearch = 5e-5;

    /// <summary>A plan of the least purchase is searched no further where no plan is shorter by more than two thousandths.</summary>
    private const double NearTheBound = 2e-3;

    /// <summary>
    /// Nor one for least work that leaves so many inches of the purchase: where cloth is sold by the eighth of a yard, a shorter
    /// one is hardly ever easier to cut.
    /// </summary>
    private const double EnoughToSpend = 1.5;

    /// <summary>With so few pieces all of them are searched, and nothing is taken for settled.</summary>
    private const int FewPieces = 60;

    private const double Hair = 1e-6;

    /// <summary>
    /// Seconds of work for a request. Past the first, only a tenth of what is allowed is planned for, so that a slow or busy
    /// machine still ends by its work and not by its clock.
    /// </summary>
    public static double Effort(CuttingRequest request)
    {
        var seconds = request.TimeAllowance.TotalSeconds;
        return seconds <= 1 ? seconds : 1 + ((seconds - 1) / 10);
    }

    /// <summary>A plan of least cost as far as found, or null where the cloth did not suffice.</summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Its relaxed solution.</param>
    /// <param name="toSpend">What the least purchase leaves beside a plan of so much cost, in inches of bolt; less than zero where it does not suffice or is not known, as from sheets alone.</param>
    /// <param name="clock">Ends the search early, once there is a plan.</param>
    public static IReadOnlyList<LayoutUse>? Find(CuttingModel model, Relaxation relaxation, Func<double, double> toSpend, CancellationToken clock)
    {
        var remainder = new Remainder(model);
        var bulk = remainder.Need.Sum(need => (long)need) > FewPieces ? TakeBulk(relaxation, remainder) : [];
        if (clock.IsCancellationRequested)
        {
            var hasty = new List<LayoutUse>(bulk);
            return HastyPlan.Finish(model, relaxation, remainder, hasty) ? hasty : null;
        }

        var bulkCost = CostOf(bulk);
        var search = new RemainderSearch(model, relaxation);
        if (search.Plan(remainder, Improvement.FirstWorths(relaxation), double.PositiveInfinity, clock) is not { } rest)
        {
            return null;
        }

        var allowed = Effort(model.Request);
        bool AtBound(double cost) => bulkCost + cost <= (relaxation.Bound * (1 + NotWorthTheSearch)) + Hair;
        bool IsNear(double cost) => bulkCost + cost <= relaxation.Bound * (1 + NearTheBound);
        bool LeavesEnough(double cost) => model.Request.Objective == CuttingObjective.LeastWork && toSpend(bulkCost + cost) >= EnoughToSpend;
        bool Enough(double cost) => AtBound(cost) || (toSpend(bulkCost + cost) >= 0 && (model.Request.CostOnly || IsNear(cost) || LeavesEnough(cost)));
        List<LayoutUse> Better(List<LayoutUse> plan, double work, Func<double, bool> enough) => new Improvement(model, relaxation, search)
            .Better(remainder, plan, (int)Math.Ceiling(RoundsPerSecond * work), (long)(StepsPerSecond * work), enough, clock);

        // A shorter plan is worth a little search even where it saves nothing at the shop, to have more cloth to spend on less work.
        rest = Better(rest, allowed / 2, model.Request.CostOnly ? Enough : AtBound);
        if (!Enough(CostOf(rest)))
        {
            // A layout of the bulk more on the table lets the search part with what the rounding down had settled.
            var released = bulk.ConvertAll(use => use with { Times = 1 });
            bulk = [.. bulk.Select(use => use with { Times = use.Times - 1 }).Where(use => use.Times > 0)];
            bulkCost = CostOf(bulk);
            released.ForEach(use => remainder.Take(use.Layout, -use.Times));
            rest = Better([.. rest, .. released], allowed * MoreWork, Enough);
        }

        if (!model.Grounds.All(ground => ground.IsBolt) && !Enough(CostOf(rest)) && !clock.IsCancellationRequested)
        {
            rest = Recombine(model, relaxation, search, remainder, rest, ProgramWorkPerSecond * allowed);
        }

        if (!Enough(CostOf(rest)) && !clock.IsCancellationRequested)
        {
            return PoolProgram.Better(model, relaxation, search.Seen.Values, [.. bulk, .. rest], clock);
        }

        return [.. bulk, .. rest];
    }

    private static double CostOf(IEnumerable<LayoutUse> uses) => uses.Sum(use => use.Layout.Cost * use.Times);

    private static List<LayoutUse> TakeBulk(Relaxation relaxation, Remainder remainder)
    {
        var bulk = new List<LayoutUse>();
        for (var index = 0; index < relaxation.Layouts.Count; index++)
        {
            var layout = relaxation.Layouts[index];
            var times = (int)Math.Min(Math.Floor(relaxation.Uses[index] + Hair), remainder.TimesWithin(layout));
            if (times > 0)
            {
                bulk.Add(new LayoutUse(layout, times));
                remainder.Take(layout, times);
            }
        }

        return bulk;
    }

    /// <summary>The best choice among all layouts seen on the way; of strips of the bolt alone the search has it already.</summary>
    private static List<LayoutUse> Recombine(CuttingModel model, Relaxation relaxation, RemainderSearch search, Remainder remainder, List<LayoutUse> rest, double work)
    {
        var pool = rest.Select(use => use.Layout)
            .Concat(relaxation.Layouts.Concat(search.Seen.Values)
                .Where(layout => layout.Yield.Where((count, size) => count > 0 && remainder.Need[size] > 0).Any())
                .OrderByDescending(layout => BoundedLayouts.RatioOf(layout, relaxation.Worth)))
            .DistinctBy(layout => layout.Key)
            .Take(MostInProgram)
            .ToList();
        var start = rest.ToDictionary(use => use.Layout.Key, use => use.Times);
        var found = WholeProgram.Solve(model, pool, remainder, [.. pool.Select(layout => start.GetValueOrDefault(layout.Key))], work);
        if (found is null)
        {
            return rest;
        }

        var uses = pool.Select((layout, index) => new LayoutUse(layout, found[index])).Where(use => use.Times > 0).ToList();
        return CostOf(uses) < CostOf(rest) - Hair ? uses : rest;
    }
}
