using System.Diagnostics;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Tests.Cutting;

namespace KittingBee.Benchmarks;

/// <summary>The 40 mixed classes of the tests, or more, planned for least length and for least work: gap, saving, strokes, recipes and time.</summary>
internal static class MixedRun
{
    private const int UsualCases = 40;

    /// <summary>Arguments: seconds allowed for each, 1 when left out; number of classes.</summary>
    public static int Run(string[] arguments)
    {
        var allowance = TimeSpan.FromSeconds(arguments.Length == 0 ? 1 : double.Parse(arguments[0], System.Globalization.CultureInfo.InvariantCulture));
        var cases = arguments.Length > 1 ? int.Parse(arguments[1], System.Globalization.CultureInfo.InvariantCulture) : UsualCases;
        var totals = new double[9];
        var (times, harder) = (new List<double>(), new List<int>());
        for (var seed = 0; seed < cases; seed++)
        {
            var request = ClassCases.Mixed(seed) with { TimeAllowance = allowance };
            var handbook = OneSizePerStrip.LengthOf(OneSizePerStrip.Strips(request)!);
            var (shortest, longTime) = Timed(request);
            var (easiest, workTime) = Timed(request with { Objective = CuttingObjective.LeastWork });
            var gap = ((double)shortest.Length.Ticks / shortest.Floor.Ticks) - 1;
            double[] row =
            [
                100 * gap, 100 * (1 - ((double)shortest.Length.Ticks / handbook.Ticks)), shortest.Strokes, easiest.Strokes,
                shortest.Strips.Count, easiest.Strips.Count, longTime, workTime, (double)(easiest.Buy.Length - shortest.Buy.Length).Inches,
            ];
            Console.WriteLine($"{seed,3}: {request.Pieces.Count,2} sizes {request.Pieces.Sum(piece => piece.Count),5} pieces, {shortest.Length.Inches,8} in, gap {row[0]:0.000} %, saved {row[1]:0.0} %, strokes {row[2]} and {row[3]}, recipes {row[4]} and {row[5]}, {row[6]:0} and {row[7]:0} ms of work, bought more {row[8]} {shortest.Status}/{easiest.Status}");
            times.Add(workTime);
            if (easiest.Strokes > shortest.Strokes)
            {
                harder.Add(seed);
            }

            for (var index = 0; index < row.Length; index++)
            {
                totals[index] += row[index] / cases;
            }
        }

        Console.WriteLine($"mean: gap {totals[0]:0.000} %, saved {totals[1]:0.00} %, strokes {totals[2]:0.0} and {totals[3]:0.0}, recipes {totals[4]:0.0} and {totals[5]:0.0}, {totals[6]:0} and {totals[7]:0} ms of work");
        times.Sort();
        Console.WriteLine($"least work: {times[cases / 2]:0} ms of work at the median, {times[cases * 9 / 10]:0} in nine of ten, {times[^1]:0} at most; more strokes than the shortest plan in {harder.Count}: {string.Join(' ', harder)}");
        return 0;
    }

    private static (CuttingPlan Plan, double Milliseconds) Timed(CuttingRequest request)
    {
        var start = Process.GetCurrentProcess().TotalProcessorTime;
        var plan = CuttingPlanner.Plan(request).Plan ?? throw new InvalidOperationException("A mixed class has no plan.");
        return (plan, (Process.GetCurrentProcess().TotalProcessorTime - start).TotalMilliseconds);
    }
}
