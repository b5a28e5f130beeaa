using System.Diagnostics;
using System.Globalization;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Benchmarks;

/// <summary>Drawn cases of twenty pieces on many kinds of cloth: how many plans are proved best, and with how much work.</summary>
internal static class SmallRun
{
    private static readonly SheetStock[] Shelf = [Sheet("fat quarter", 21, 18, 2, 0)];
    private static readonly SheetStock[] Beside = [Sheet("fat quarter", 21, 18, null, 3.5m), Sheet("remnant", 15, 12, 1, 0), Sheet("square", 10, 10, null, 0.9m, 4)];
    private static readonly SheetStock[] Alone = [Sheet("fat quarter", 21, 18, null, 3.5m), Sheet("square", 10, 10, null, 0.9m), Sheet("half yard", 42, 18, null, 6.3m)];

    /// <summary>Plans so many cases of each class, 12 unless told, with so many seconds allowed, 10 unless told.</summary>
    public static int Run(string[] arguments)
    {
        var cases = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 12;
        var seconds = arguments.Length > 1 ? double.Parse(arguments[1], CultureInfo.InvariantCulture) : 10;
        var classes = from sizes in new[] { 5, 10, 20 }
                      from cloth in new (string Name, bool Bolt, SheetStock[] Sheets)[]
                      {
                          ("bolt", true, []),
                          ("bolt and shelf", true, Shelf),
                          ("bolt and bought sheets", true, Beside),
                          ("bought sheets of three kinds", false, Alone),
                          ("fat quarters", false, [Alone[0]]),
                      }
                      select (sizes, cloth);
        foreach (var (sizes, cloth) in classes)
        {
            var (proved, cut) = (0, 0);
            var (times, costs) = (new List<double>(), 0m);
            var open = new List<int>();
            for (var seed = 1; seed <= cases; seed++)
            {
                var request = Request(seed, sizes, new CuttingStock(cloth.Bolt ? Bolt() : null, cloth.Sheets)) with { TimeAllowance = TimeSpan.FromSeconds(seconds) };
                var before = Process.GetCurrentProcess().TotalProcessorTime;
                var plan = CuttingPlanner.Plan(request).Plan!;
                times.Add((Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds);
                proved += plan.Status == PlanStatus.ProvedBest ? 1 : 0;
                cut += plan.Status == PlanStatus.CutShort ? 1 : 0;
                costs += plan.Buy.Cost;
                if (plan.Status != PlanStatus.ProvedBest)
                {
                    open.Add(seed);
                }
            }

            times.Sort();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{sizes} sizes × {20 / sizes}, {cloth.Name}: {proved} of {cases} proved, {cut} cut short, cost {costs}, work median {times[cases / 2]:0.000} s, most {times[^1]:0.000} s; open {string.Join(' ', open)}"));
        }

        return 0;
    }

    /// <summary>Twenty pieces with sides of 2 to 10 in: five sizes on halves, more on eighths.</summary>
    private static CuttingRequest Request(int seed, int sizes, CuttingStock stock)
    {
        var random = new Random(seed);
        var grain = sizes == 5 ? 4 : 1;
        CutPiece[] pieces = [.. Enumerable.Range(1, sizes).Select(number => new CutPiece($"piece {number}", Side(), Side(), 20 / sizes))];
        return new CuttingRequest(stock, pieces);

        Length Side() => Length.FromInches(0, grain * random.Next(16 / grain, (80 / grain) + 1), 8);
    }

    private static BoltStock Bolt() => new(Length.FromInches(42), Length.FromInches(4.5m), Length.FromInches(4.5m), 12m);

    private static SheetStock Sheet(string name, decimal width, decimal length, int? available, decimal price, int pack = 1) =>
        new(name, Length.FromInches(width), Length.FromInches(length), available, price, pack);
}
