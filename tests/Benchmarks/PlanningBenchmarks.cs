using BenchmarkDotNet.Attributes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Benchmarks;

/// <summary>
/// The speed that a teacher feels. Sizes are drawn once, in eighths of an inch, from a fixed seed.
/// </summary>
[MemoryDiagnoser]
public class PlanningBenchmarks
{
    private readonly CuttingRequest usual = DrawnClass.Of(sizes: 12, kits: 30);
    private readonly CuttingRequest big = DrawnClass.Of(sizes: 40, kits: 1_000);

    /// <summary>Aim: under 100 ms, warm.</summary>
    [Benchmark]
    public CuttingResult TwelveSizesThirtyKits() => CuttingPlanner.Plan(usual);

    /// <summary>Aim: under 2 s.</summary>
    [Benchmark]
    public CuttingResult FortySizesThousandKits() => CuttingPlanner.Plan(big);
}

/// <summary>The same class grown from 10 kits to 100,000, where only repeat counts should differ: at most 1.5 times the time.</summary>
[MemoryDiagnoser]
public class GrowthBenchmarks
{
    private CuttingRequest request = DrawnClass.Of(sizes: 12, kits: 10);

    /// <summary>Kits in the class.</summary>
    [Params(10, 1_000, 100_000)]
    public int Kits { get; set; }

    /// <summary>Draws the class before the clock runs.</summary>
    [GlobalSetup]
    public void Draw() => request = DrawnClass.Of(sizes: 12, Kits);

    /// <summary>Plans it.</summary>
    [Benchmark]
    public CuttingResult GrowingClass() => CuttingPlanner.Plan(request);
}

internal static class DrawnClass
{
    public static CuttingRequest Of(int sizes, int kits)
    {
        var random = new Random(7);
        var pieces = Enumerable.Range(1, sizes).Select(number => new CutPiece(
            $"piece {number}",
            Length.FromInches(0, random.Next(12, 84), 8),
            Length.FromInches(0, random.Next(12, 84), 8),
            kits * random.Next(1, 5)));
        var bolt = new BoltStock(Length.FromInches(42), Length.FromYards(0.125m), Length.Zero, 12m);
        return new CuttingRequest(new CuttingStock(bolt, []), [.. pieces]) { TimeAllowance = TimeSpan.FromSeconds(5) };
    }
}
