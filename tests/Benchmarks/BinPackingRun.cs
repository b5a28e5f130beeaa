using System.Diagnostics;
using System.Globalization;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Benchmarks;

/// <summary>
/// Plans the 500 published bin-packing problems, pieces turned, one second each, has every plan checked, and adds up the
/// sheets: at most 7,020 is the aim, 6,980 the best known (one valid solution each; not proved least).
/// </summary>
internal static class BinPackingRun
{
    private const int Aim = 7_020;

    /// <summary>Arguments: the folder with the .2bp files and best-known-turned.csv, and optionally the classes to run.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length == 0 || !Directory.Exists(arguments[0]))
        {
            Console.WriteLine($"Skipped: there is no folder {(arguments.Length == 0 ? "named" : arguments[0])} with the published problems.");
            return 0;
        }

        var folder = arguments[0];
        var wanted = arguments.Skip(1).Select(text => int.Parse(text, CultureInfo.InvariantCulture)).ToHashSet();
        var best = BestKnown(Path.Combine(folder, "best-known-turned.csv"));
        var (total, known, problems, faults) = (0, 0, 0, 0);
        var slowest = TimeSpan.Zero;
        foreach (var kind in PublishedBins.In(folder).Where(problem => wanted.Count == 0 || wanted.Contains(problem.Class)).GroupBy(problem => (problem.Class, problem.Pieces.Count)))
        {
            var (sheets, aim, clock) = (0, 0, Stopwatch.StartNew());
            var over = new List<string>();
            foreach (var problem in kind)
            {
                var start = clock.Elapsed;
                var used = Sheets(problem, ref faults);
                slowest = clock.Elapsed - start > slowest ? clock.Elapsed - start : slowest;
                sheets += used;
                var goal = best.GetValueOrDefault($"{problem.Class:00}.2bp_{problem.Pieces.Count}_{problem.Number}");
                aim += goal;
                problems++;
                if (used > goal)
                {
                    over.Add($"{problem.Number}:{used}>{goal}");
                }
            }

            total += sheets;
            known += aim;
            Console.WriteLine($"class {kind.Key.Class,2}, {kind.Key.Count,3} pieces: {sheets,5} sheets, best known {aim,5}, {clock.Elapsed.TotalSeconds,6:0.0} s  {string.Join(' ', over)}");
        }

        Console.WriteLine($"{problems} problems: {total} sheets, best known {known}, {faults} refused by the checker, slowest {slowest.TotalSeconds:0.00} s; the aim for all 500 is {Aim}.");
        return faults == 0 ? 0 : 1;
    }

    private static int Sheets(BinProblem problem, ref int faults)
    {
        var sheet = new SheetStock("sheet", Length.FromInches(problem.Width), Length.FromInches(problem.Height), null, 1m);
        var request = new CuttingRequest(
            new CuttingStock(null, [sheet]),
            [.. problem.Pieces.Select((piece, index) => new CutPiece($"{index + 1}", Length.FromInches(piece.Width), Length.FromInches(piece.Height), 1))])
        {
            LongestStrip = Length.FromInches(Math.Max(problem.Width, problem.Height)),
            Objective = CuttingObjective.LeastLength,
        };
        if (CuttingPlanner.Plan(request).Plan is not { } plan || PlanChecker.Check(request, plan).Count > 0)
        {
            faults++;
            return problem.Pieces.Count;
        }

        return plan.Sheets.Sum(recipe => recipe.Repeat);
    }

    /// <summary>By "class.2bp_pieces_number", as the file's paths end.</summary>
    private static Dictionary<string, int> BestKnown(string file) => File.Exists(file)
        ? File.ReadLines(file).Skip(1).Select(line => line.Split(',')).ToDictionary(
            row => row[0][(row[0].LastIndexOf("Class_", StringComparison.Ordinal) + "Class_".Length)..],
            row => int.Parse(row[1], CultureInfo.InvariantCulture))
        : [];
}
