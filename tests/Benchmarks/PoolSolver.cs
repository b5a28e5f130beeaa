using Google.OrTools.LinearSolver;
using KittingBee.Planning.Cutting;

namespace KittingBee.Benchmarks;

/// <summary>Branch and cut over a pool of strips.</summary>
internal static class PoolSolver
{
    /// <summary>The least total height found, in eighths, or the greatest number where nothing was.</summary>
    /// <param name="strips">The pool.</param>
    /// <param name="request">What to cut.</param>
    /// <param name="start">A plan to better, by the strips' keys.</param>
    /// <param name="seconds">Time allowed.</param>
    /// <param name="nodes">Nodes allowed; −1 for any number.</param>
    public static int Solve(List<PooledStrip> strips, CuttingRequest request, Dictionary<string, int> start, double seconds, int nodes = -1)
    {
        using var solver = Solver.CreateSolver("SCIP");
        var uses = strips.Select(strip => solver.MakeIntVar(0, Most(strip, request), string.Empty)).ToArray();
        for (var size = 0; size < request.Pieces.Count; size++)
        {
            var row = solver.MakeConstraint(request.Pieces[size].Count, double.PositiveInfinity);
            for (var index = 0; index < uses.Length; index++)
            {
                row.SetCoefficient(uses[index], strips[index].Yield[size]);
            }
        }

        for (var index = 0; index < uses.Length; index++)
        {
            solver.Objective().SetCoefficient(uses[index], strips[index].Height);
        }

        solver.Objective().SetMinimization();
        solver.SetHint(uses, [.. strips.Select(strip => (double)start.GetValueOrDefault(strip.Key))]);
        solver.SetTimeLimit((long)(1000 * seconds));
        solver.SetSolverSpecificParametersAsString(FormattableString.Invariant($"limits/totalnodes = {nodes}\n"));
        return solver.Solve() is Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.FEASIBLE ? (int)Math.Round(solver.Objective().Value()) : int.MaxValue;
    }

    /// <summary>How often a strip can be of use.</summary>
    public static int Most(PooledStrip strip, CuttingRequest request) => Enumerable.Range(0, strip.Yield.Length)
        .Where(size => strip.Yield[size] > 0).Max(size => (request.Pieces[size].Count + strip.Yield[size] - 1) / strip.Yield[size]);
}
