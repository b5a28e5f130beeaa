using Google.OrTools.LinearSolver;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Where there are few sizes, an integer program over many good strips betters what search finds: strips of the relaxed
/// solution, of the search, and the best of every height at worths moved by chance. Branch and cut with a limit in nodes.
/// </summary>
internal static class PoolProgram
{
    /// <summary>More sizes make too large a program for the nodes allowed.</summary>
    private const int MostSizes = 8;

    private const int Moves = 60;
    private const double MostSpread = 0.25;
    private const int MostStrips = 300;
    private const int NodesPerSecond = 150;
    private const double Hair = 1e-6;

    /// <summary>The node of the best bound first and few cuts: half the time for as many nodes, and the plans are no worse.</summary>
    private const string BestFirst = "nodeselection/bfs/stdpriority = 500000\nseparating/maxroundsroot = 5\nseparating/maxrounds = 1\n";

    /// <summary>The better plan, or the known one.</summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Its bound, worths and tables.</param>
    /// <param name="seen">Layouts of plans and tries.</param>
    /// <param name="known">The best plan so far, of all pieces.</param>
    /// <param name="clock">The safety net.</param>
    public static IReadOnlyList<LayoutUse> Better(
        CuttingModel model, Relaxation relaxation, IEnumerable<Layout> seen, IReadOnlyList<LayoutUse> known, CancellationToken clock)
    {
        var cost = known.Sum(use => use.Layout.Cost * use.Times);
        if (model.Grounds.Count != 1 || !model.Grounds[0].IsBolt || model.Request.Stock.Bolt!.Available is not null || model.Sizes.Count > MostSizes)
        {
            return known;
        }

        var start = known.GroupBy(use => use.Layout.Key).ToDictionary(alike => alike.Key, alike => alike.Sum(use => use.Times));
        var pool = known.Select(use => use.Layout)
            .Concat(relaxation.Layouts.Concat(seen).Concat(Moved(relaxation, clock))
                .Select(layout => (Layout: layout, Waste: layout.Cost * (1 - BoundedLayouts.RatioOf(layout, relaxation.Worth))))
                .Where(pair => pair.Waste < cost - relaxation.Bound)
                .OrderBy(pair => pair.Waste)
                .Select(pair => pair.Layout))
            .DistinctBy(layout => layout.Key)
            .Take(MostStrips)
            .ToList();
        return Solve(model, pool, [.. pool.Select(layout => start.GetValueOrDefault(layout.Key))], WholePlan.Effort(model.Request), clock) is { } found
            && found.Sum(use => use.Layout.Cost * use.Times) < cost - Hair ? found : known;
    }

    private static IEnumerable<Layout> Moved(Relaxation relaxation, CancellationToken clock)
    {
        var ground = relaxation.Tables[0];
        var random = new Random(4_711);
        for (var move = 0; move < Moves && !clock.IsCancellationRequested; move++)
        {
            var spread = MostSpread * random.NextDouble();
            var worth = relaxation.Worth.Select(value => value * (1 + (spread * (random.NextDouble() - 0.5)))).ToArray();
            ground.Tables.Fill(worth);
            for (var height = 1; height < ground.Tables.Heights.Count && ground.Tables.Heights.Sums[height] <= ground.Longest; height++)
            {
                if (ground.Tables.BestRow(height, ground.Ground.Across) > 0)
                {
                    var strip = ground.ReadRecipe(height, ground.Ground.Across);
                    yield return Layout.OfStrip(0, strip, (double)strip.Height / Length.TicksPerInch);
                }
            }
        }
    }

    private static List<LayoutUse>? Solve(CuttingModel model, List<Layout> pool, int[] start, double seconds, CancellationToken clock)
    {
        using var solver = Solver.CreateSolver("SCIP") ?? throw new InvalidOperationException("The integer solver is not part of this build.");
        var uses = pool.ConvertAll(layout => solver.MakeIntVar(0, model.Sizes.Sum(size => (double)size.Demand), string.Empty));
        for (var size = 0; size < model.Sizes.Count; size++)
        {
            var row = solver.MakeConstraint(model.Sizes[size].Demand, double.PositiveInfinity);
            for (var index = 0; index < pool.Count; index++)
            {
                row.SetCoefficient(uses[index], pool[index].Yield[size]);
            }
        }

        for (var index = 0; index < pool.Count; index++)
        {
            solver.Objective().SetCoefficient(uses[index], pool[index].Cost);
        }

        solver.Objective().SetMinimization();
        solver.SetHint([.. uses], [.. start.Select(times => (double)times)]);
        solver.SetSolverSpecificParametersAsString(FormattableString.Invariant($"limits/totalnodes = {(int)Math.Ceiling(NodesPerSecond * seconds)}\n") + BestFirst);
        using var alarm = clock.Register(() => solver.InterruptSolve());
        return solver.Solve() is Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.FEASIBLE
            ? [.. pool.Select((layout, index) => new LayoutUse(layout, (int)Math.Round(uses[index].SolutionValue()))).Where(use => use.Times > 0)]
            : null;
    }
}
