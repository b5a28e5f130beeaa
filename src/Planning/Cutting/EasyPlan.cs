using Google.OrTools.Sat;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Spends the cloth up to the next shop increment on less work: among plans within the length that is bought anyway, fewest
/// strokes of the cutter, then fewest recipes. Strips of one size and strips of two sizes of equal height stand in the choice
/// beside the relaxed solution's and the least plan's. Among the same strips an integer program looks for least length first,
/// where less cloth may yet be bought.
/// </summary>
internal static class EasyPlan
{
    private const double WorkPerSecond = 0.015;
    private const int MostOfRelaxation = 60;

    /// <summary>A plan with as few strokes as found, or null where there is nothing to cut from the bolt. Sheets stay as they are in <paramref name="least"/>.</summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Layouts to choose from.</param>
    /// <param name="least">The plan of least cost.</param>
    /// <param name="room">Washed length that is bought anyway.</param>
    /// <param name="clock">The safety net.</param>
    public static IReadOnlyList<LayoutUse>? Find(CuttingModel model, Relaxation relaxation, IReadOnlyList<LayoutUse> least, Length room, CancellationToken clock)
    {
        if (PartOnBolt(model, relaxation, least) is not { } part)
        {
            return null;
        }

        var search = new WorkSearch(model, relaxation, part.Ground, part.Pool, part.Need, room);
        return [.. part.Sheets, .. search.Better(part.Start, WholePlan.Effort(model.Request), clock)];
    }

    /// <summary>A plan of the same strips with as little length as found, or null. Sheets stay as they are in <paramref name="least"/>.</summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Layouts to choose from.</param>
    /// <param name="least">The plan of least cost.</param>
    /// <param name="length">The length that it takes.</param>
    public static IReadOnlyList<LayoutUse>? Shorter(CuttingModel model, Relaxation relaxation, IReadOnlyList<LayoutUse> least, Length length) =>
        PartOnBolt(model, relaxation, least) is { } part && Shortest(model, part, length) is { } found ? [.. part.Sheets, .. found] : null;

    private static Part? PartOnBolt(CuttingModel model, Relaxation relaxation, IReadOnlyList<LayoutUse> least)
    {
        var remainder = new Remainder(model);
        var sheets = least.Where(use => !model.Grounds[use.Layout.Ground].IsBolt).ToList();
        foreach (var use in sheets)
        {
            remainder.Take(use.Layout, use.Times);
        }

        if (remainder.IsMet)
        {
            return null;
        }

        var ground = Enumerable.Range(0, model.Grounds.Count).First(index => model.Grounds[index].IsBolt);
        var start = least.Where(use => use.Layout.Ground == ground).ToList();
        var pool = start.Select(use => use.Layout)
            .Concat(SimpleLayouts.On(relaxation.Tables[ground], ground))
            .Concat(relaxation.Layouts
                .Where(layout => layout.Ground == ground)
                .OrderByDescending(layout => BoundedLayouts.RatioOf(layout, relaxation.Worth))
                .Take(MostOfRelaxation))
            .Where(layout => layout.Yield.Where((count, size) => count > 0 && remainder.Need[size] > 0).Any())
            .DistinctBy(layout => layout.Key)
            .ToList();
        return new Part(ground, sheets, start, pool, remainder.Need);
    }

    private static List<LayoutUse>? Shortest(CuttingModel model, Part part, Length length)
    {
        var program = new CpModel();
        var (pool, need) = (part.Pool, part.Need);
        var start = part.Start.GroupBy(use => use.Layout.Key).ToDictionary(group => group.Key, group => group.Sum(use => use.Times));
        var uses = new List<IntVar>();
        foreach (var layout in pool)
        {
            var most = Enumerable.Range(0, need.Length).Where(size => layout.Yield[size] > 0).Max(size => (Math.Max(0, need[size]) + layout.Yield[size] - 1) / layout.Yield[size]);
            var use = program.NewIntVar(0, most, string.Empty);
            program.AddHint(use, start.GetValueOrDefault(layout.Key));
            uses.Add(use);
        }

        for (var size = 0; size < need.Length; size++)
        {
            if (need[size] > 0)
            {
                var which = Enumerable.Range(0, pool.Count).Where(index => pool[index].Yield[size] > 0).ToList();
                program.Add(LinearExpr.WeightedSum(which.Select(index => uses[index]), which.Select(index => (long)pool[index].Yield[size])) >= need[size]);
            }
        }

        var total = LinearExpr.WeightedSum(uses, pool.Select(layout => layout.Height));
        program.Add(total <= length.Ticks);
        program.Minimize(total);
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant($"num_workers:1,random_seed:1,max_deterministic_time:{WorkPerSecond * WholePlan.Effort(model.Request)}"),
        };
        return solver.Solve(program) is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? [.. pool.Select((layout, index) => new LayoutUse(layout, (int)solver.Value(uses[index]))).Where(use => use.Times > 0)]
            : null;
    }

    /// <summary>What is cut from the bolt: the plan to begin with, the strips to choose from and the pieces that the bolt must give, by size.</summary>
    private sealed record Part(int Ground, List<LayoutUse> Sheets, List<LayoutUse> Start, List<Layout> Pool, int[] Need);
}
