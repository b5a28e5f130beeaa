using Google.OrTools.Sat;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The integer program over a pool of layouts: how often each is cut so that the need is met at least cost. One worker, a
/// fixed seed and a limit in the solver's own measure of work make it give the same answer every time.
/// </summary>
internal static class WholeProgram
{
    /// <summary>Costs are whole numbers of these parts of an inch of bolt.</summary>
    private const double Parts = 10_000;

    /// <summary>Uses of the pool's layouts, or null when nothing was found in the work allowed.</summary>
    /// <param name="model">For the stock's limits.</param>
    /// <param name="pool">Layouts to choose from.</param>
    /// <param name="remainder">Pieces wanted and cloth left.</param>
    /// <param name="start">Uses to begin with, by pool index.</param>
    /// <param name="work">Deterministic seconds.</param>
    public static int[]? Solve(CuttingModel model, IReadOnlyList<Layout> pool, Remainder remainder, int[] start, double work)
    {
        var program = new CpModel();
        var need = remainder.Need;
        var uses = new IntVar[pool.Count];
        for (var index = 0; index < pool.Count; index++)
        {
            var yield = pool[index].Yield;
            var most = Enumerable.Range(0, need.Length).Where(size => yield[size] > 0).Max(size => (Math.Max(0, need[size]) + yield[size] - 1) / yield[size]);
            uses[index] = program.NewIntVar(0, most, string.Empty);
            program.AddHint(uses[index], start[index]);
        }

        for (var size = 0; size < need.Length; size++)
        {
            if (need[size] > 0)
            {
                var which = Enumerable.Range(0, pool.Count).Where(index => pool[index].Yield[size] > 0).ToList();
                program.Add(LinearExpr.WeightedSum(which.Select(index => uses[index]), which.Select(index => (long)pool[index].Yield[size])) >= need[size]);
            }
        }

        foreach (var kind in Enumerable.Range(0, model.Grounds.Count).GroupBy(ground => model.Grounds[ground].Sheet))
        {
            var limit = remainder.Stock[kind.First()];
            var which = Enumerable.Range(0, pool.Count).Where(index => kind.Contains(pool[index].Ground)).ToList();
            if (limit != long.MaxValue && which.Count > 0)
            {
                program.Add(LinearExpr.WeightedSum(which.Select(index => uses[index]), which.Select(index => kind.Key < 0 ? pool[index].Height : 1)) <= limit);
            }
        }

        program.Minimize(LinearExpr.WeightedSum(uses, pool.Select(layout => (long)Math.Round(layout.Cost * Parts))));
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant($"num_workers:1,random_seed:1,max_deterministic_time:{work},linearization_level:2"),
        };
        var status = solver.Solve(program);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? [.. uses.Select(use => (int)solver.Value(use))] : null;
    }
}
