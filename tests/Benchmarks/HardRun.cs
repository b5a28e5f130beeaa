using System.Diagnostics;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Benchmarks;

/// <summary>Requests that are large or odd: how long they take of the second that they are allowed.</summary>
internal static class HardRun
{
    /// <summary>Prints clock and processor time of each.</summary>
    public static int Run()
    {
        var bolt = new BoltStock(Length.FromInches(42), Length.FromYards(0.125m), Length.Zero, 12m);
        CutPiece[] million = [Piece(20, 20, 900_000), Piece(20, 36, 100_000)];
        var sizes = Enumerable.Range(0, 500).Select(number => Piece(8 + (number % 25), 8 + (number / 25), 1 + (number % 7))).ToArray();
        CutPiece[] odd =
        [
            new("inches", Length.FromInches(4.125m), Length.FromInches(2.875m), 37),
            new("centimetres", Length.FromMillimetres(103), Length.FromMillimetres(61.7m), 41),
            new("points", Length.FromMillimetres(33.333m), Length.FromInches(3.01m), 53),
            new("ticks", Length.FromTicks(1_234_567), Length.FromTicks(2_345_679), 29),
        ];
        var random = new Random(1);
        var many = Enumerable.Range(0, 500).Select(_ => new CutPiece("odd", Length.FromTicks(random.Next(400_000, 4_000_000)), Length.FromTicks(random.Next(400_000, 4_000_000)), random.Next(1, 2_000))).ToArray();
        var sheets = Enumerable.Range(0, 8).Select(number => new SheetStock($"sheet {number}", Length.FromInches(18 + number), Length.FromInches(21 + (2 * number)), number, number % 3)).ToArray();
        foreach (var (name, pieces, stock) in new[]
        {
            ("warm", odd, new CuttingStock(bolt, [])),
            ("a million pieces", million, new CuttingStock(bolt, [])),
            ("500 sizes", sizes, new CuttingStock(bolt, [])),
            ("sizes without a common measure", odd, new CuttingStock(bolt, [])),
            ("500 sizes without a common measure", many, new CuttingStock(bolt, [])),
            ("500 sizes and eight kinds of sheets", sizes, new CuttingStock(bolt, sheets)),
        })
        {
            var clock = Stopwatch.StartNew();
            var work = Process.GetCurrentProcess().TotalProcessorTime;
            var result = CuttingPlanner.Plan(new CuttingRequest(stock, [.. pieces.Select((piece, index) => piece with { Name = $"{piece.Name} {index}" })]));
            work = Process.GetCurrentProcess().TotalProcessorTime - work;
            Console.WriteLine($"{name}: {result.Plan?.Buy} {clock.Elapsed.TotalSeconds:0.00} s by the clock, {work.TotalSeconds:0.00} s of work, {result.Plan?.Status.ToString() ?? result.Problems[0].Message}, gap {100 * result.Plan?.Gap:0.00} %");
        }

        return 0;
    }

    private static CutPiece Piece(int width, int height, int count) => new($"{width}/8 × {height}/8", Length.FromInches(0, width, 8), Length.FromInches(0, height, 8), count);
}
