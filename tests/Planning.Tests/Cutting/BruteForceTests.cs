using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Hundreds of tiny random cases against every plan there is.</summary>
public sealed class BruteForceTests
{
    private readonly List<string> failures = [];

    [Fact]
    public void Plan_TinyBoltCases_TakesTheLeastLengthThereIs()
    {
        for (var seed = 1; seed <= 300; seed++)
        {
            var tiny = Tiny.From(seed);
            var request = tiny.Request(new CuttingStock(Bolt(tiny.Across, 1m), [])) with { Objective = CuttingObjective.LeastLength };
            var least = tiny.Search.LeastLengths(tiny.Across, lengthwise: false)[tiny.Search.All];
            var plan = Proved(request);

            Expect(plan.Floor <= In(least), $"Case {seed}: floor {plan.Floor}, least {least} in.");
            Expect(plan.Length == In(least), $"Case {seed}: planned {plan.Length}, least {least} in.");
        }

        Assert.Empty(failures);
    }

    [Fact]
    public void Plan_TinyBoltCases_LeastWorkCostsNoMore()
    {
        for (var seed = 301; seed <= 500; seed++)
        {
            var tiny = Tiny.From(seed);
            var request = tiny.Request(new CuttingStock(Bolt(tiny.Across, 4m, 4m), []));
            var least = tiny.Search.LeastLengths(tiny.Across, lengthwise: false)[tiny.Search.All];
            Expect(Proved(request).Buy.Length == In(least).RoundUpTo(In(4)), $"Case {seed}: bought {Proved(request).Buy.Length}, least {least} in.");
        }

        Assert.Empty(failures);
    }

    [Fact]
    public void Plan_TinySheetCases_TakeTheFewestSheetsThereAre()
    {
        for (var seed = 501; seed <= 700; seed++)
        {
            var tiny = Tiny.From(seed);
            var (width, length) = (tiny.Across, tiny.Across - 2);
            var request = tiny.Request(new CuttingStock(null, [Sheet("sheet", width, length, null, 1m)]));
            var fewest = tiny.Search.FewestSheets(width, length)[tiny.Search.All];
            var plan = Proved(request);
            Expect(plan.Sheets.Sum(recipe => recipe.Repeat) == fewest, $"Case {seed}: {plan.Sheets.Sum(recipe => recipe.Repeat)} sheets, fewest {fewest}.");
        }

        Assert.Empty(failures);
    }

    [Fact]
    public void Plan_TinyMixedStock_CostsTheLeastThereIs()
    {
        for (var seed = 701; seed <= 850; seed++)
        {
            // Two sheets at 3 each beside a bolt at 1 an inch.
            var tiny = Tiny.From(seed);
            var (width, length) = (7, 6);
            var request = tiny.Request(new CuttingStock(Bolt(tiny.Across, 1m, price: 36), [Sheet("remnant", width, length, 2, 3m)]));
            var bolt = tiny.Search.LeastLengths(tiny.Across, lengthwise: false);
            var sheets = tiny.Search.FewestSheets(width, length);
            var least = Enumerable.Range(0, tiny.Search.All + 1).Where(set => sheets[set] <= 2)
                .Min(set => (3 * sheets[set]) + bolt[tiny.Search.All ^ set]);
            ExpectProved(request, least, seed);
        }

        Assert.Empty(failures);
    }

    /// <summary>The shop sells by four inches and not under six, sheets come in packs of two, and one lies on the shelf.</summary>
    [Fact]
    public void Plan_TinyStockWithIncrementsPacksAndAShelf_CostsTheLeastThereIs()
    {
        for (var seed = 851; seed <= 1000; seed++)
        {
            var tiny = Tiny.From(seed);
            var stock = new CuttingStock(Bolt(tiny.Across, 4m, 6m, price: 36), [Sheet("shelf", 6, 4, 1), Sheet("pack", 7, 6, null, 2.5m, pack: 2)]);
            var bolt = tiny.Search.LeastLengths(tiny.Across, lengthwise: false);
            var (shelf, packed) = (tiny.Search.FewestSheets(6, 4), tiny.Search.FewestSheets(7, 6));
            var least = decimal.MaxValue;
            for (var fromShelf = 0; fromShelf <= tiny.Search.All; fromShelf++)
            {
                var rest = tiny.Search.All ^ fromShelf;
                for (var fromBolt = rest; shelf[fromShelf] <= 1; fromBolt = (fromBolt - 1) & rest)
                {
                    var length = bolt[fromBolt];
                    var sheets = packed[rest ^ fromBolt];
                    if (length < 1000 && sheets < 1000)
                    {
                        least = Math.Min(least, (length == 0 ? 0 : In(Math.Max(6, length)).RoundUpTo(In(4)).Inches) + (5 * ((sheets + 1) / 2)));
                    }

                    if (fromBolt == 0)
                    {
                        break;
                    }
                }
            }

            ExpectProved(tiny.Request(stock), least, seed);
        }

        Assert.Empty(failures);
    }

    private void ExpectProved(CuttingRequest request, decimal least, int seed)
    {
        var plan = Proved(request);
        Expect(plan.Buy.Cost == least, $"Case {seed}: costs {plan.Buy.Cost}, least {least}.");
        Expect(plan.Status == PlanStatus.ProvedBest, $"Case {seed}: {plan.Status}.");
    }

    /// <summary>Collects, so that one run tells of every case that is not met.</summary>
    private void Expect(bool met, string failure)
    {
        if (!met)
        {
            failures.Add(failure);
        }
    }

    /// <summary>Up to six pieces on a grid of whole inches.</summary>
    private sealed record Tiny(int Across, int Longest, (int Width, int Height, bool Turns)[] Pieces)
    {
        public ExactSearch Search => new(Pieces, Longest);

        public static Tiny From(int seed)
        {
            var random = new Random(seed);
            var across = random.Next(8, 13);
            var longest = random.Next(3) == 0 ? random.Next(4, 7) : 24;
            var pieces = new List<(int, int, bool)>();
            for (var wanted = random.Next(3, 7); pieces.Count < wanted;)
            {
                // The smaller side fits every cloth here, whichever way the piece lies.
                var piece = (random.Next(1, 7), random.Next(1, 7), random.Next(4) > 0);
                pieces.AddRange(Enumerable.Repeat(piece, Math.Min(random.Next(1, 4), wanted - pieces.Count)));
            }

            return new Tiny(across, longest, [.. pieces]);
        }

        public CuttingRequest Request(CuttingStock stock) => new(stock, [.. Pieces.Select((piece, index) =>
            new CutPiece($"piece {index + 1}", In(piece.Width), In(piece.Height), 1, piece.Turns))])
        {
            LongestStrip = In(Longest),

            // A busy machine must not cut the search short.
            TimeAllowance = TimeSpan.FromSeconds(30),
        };
    }
}
