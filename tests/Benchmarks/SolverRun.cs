using System.Diagnostics;
using System.Globalization;
using Google.OrTools.Sat;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Tests.Cutting;

namespace KittingBee.Benchmarks;

/// <summary>
/// The engine against general-purpose solvers on the 40 mixed classes: the same strips problem as an integer program over a
/// large pool, with the engine's plan to begin with and a long time to better it.
/// </summary>
internal static class SolverRun
{
    private const int Cases = 40;
    private const int Moves = 300;
    private const int MostStrips = 6_000;

    /// <summary>Arguments: seconds for each solver, 30 when left out; then the seeds, all 40 when left out.</summary>
    public static int Run(string[] arguments)
    {
        var seconds = arguments.Length == 0 ? 30 : double.Parse(arguments[0], CultureInfo.InvariantCulture);
        var seeds = arguments.Length < 2 ? Enumerable.Range(0, Cases) : arguments.Skip(1).Select(text => int.Parse(text, CultureInfo.InvariantCulture));
        var (cases, above, worst, sum) = (0, 0, 0.0, 0.0);
        foreach (var seed in seeds)
        {
            var request = ClassCases.Mixed(seed);
            var plan = CuttingPlanner.Plan(request).Plan ?? throw new InvalidOperationException("A mixed class has no plan.");
            var clock = Stopwatch.StartNew();
            var ours = plan.Strips.GroupBy(strip => StripPool.From(strip, request.Pieces.Count).Key)
                .Select(alike => (Strip: StripPool.From(alike.First(), request.Pieces.Count), Times: alike.Sum(strip => strip.Repeat))).ToList();
            var length = ours.Sum(one => one.Strip.Height * one.Times);
            var pool = StripPool.Of(request, ours.Select(one => one.Strip), Moves);
            var start = ours.ToDictionary(one => one.Strip.Key, one => one.Times);
            var strips = pool.Strips.Where(strip => pool.WasteOf(strip) <= length - pool.Floor)
                .OrderByDescending(strip => start.ContainsKey(strip.Key)).ThenBy(pool.WasteOf).Take(MostStrips).ToList();
            var made = clock.Elapsed.TotalSeconds;
            var sat = BySat(strips, request, start, seconds);
            var scip = PoolSolver.Solve(strips, request, start, seconds);
            var best = Math.Min(length, Math.Min(sat, scip));
            var loss = ((double)length / best) - 1;
            Console.WriteLine($"{seed,3}: floor {pool.Floor / 8:0.000}, ours {length / 8.0:0.000}, CP-SAT {sat / 8.0:0.000}, SCIP {scip / 8.0:0.000}, {strips.Count} of {pool.Strips.Count} strips in {made:0.0} s: ours is {100 * loss:0.000} % above the best, the best {100 * ((best / pool.Floor) - 1):0.000} % above the floor");
            cases++;
            above += loss > 0.002 ? 1 : 0;
            worst = Math.Max(worst, loss);
            sum += loss;
        }

        Console.WriteLine($"{cases} classes: {100 * sum / cases:0.000} % above the best known on average, {100 * worst:0.000} % at worst, {above} by more than 0.2 %.");
        return 0;
    }

    private static int BySat(List<PooledStrip> strips, CuttingRequest request, Dictionary<string, int> start, double seconds)
    {
        var program = new CpModel();
        var uses = strips.Select(strip => program.NewIntVar(0, PoolSolver.Most(strip, request), string.Empty)).ToArray();
        for (var size = 0; size < request.Pieces.Count; size++)
        {
            program.Add(LinearExpr.WeightedSum(uses, strips.Select(strip => (long)strip.Yield[size])) >= request.Pieces[size].Count);
        }

        for (var index = 0; index < uses.Length; index++)
        {
            program.AddHint(uses[index], start.GetValueOrDefault(strips[index].Key));
        }

        program.Minimize(LinearExpr.WeightedSum(uses, strips.Select(strip => (long)strip.Height)));
        var solver = new CpSolver { StringParameters = FormattableString.Invariant($"num_workers:2,random_seed:1,max_time_in_seconds:{seconds}") };
        return solver.Solve(program) is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? (int)solver.ObjectiveValue : int.MaxValue;
    }
}
