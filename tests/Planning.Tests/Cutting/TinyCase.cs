using KittingBee.Planning.Cutting;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Up to six pieces on a grid of whole inches.</summary>
internal sealed record TinyCase(int Across, int Longest, (int Width, int Height, bool Turns)[] Pieces)
{
    public ExactSearch Search => new(Pieces, Longest);

    public static TinyCase From(int seed)
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

        return new TinyCase(across, longest, [.. pieces]);
    }

    /// <summary>The bolt is sold by four inches and not under six at a dollar an inch; one sheet lies on the shelf, others come in packs of two at five.</summary>
    public CuttingStock MixedStock => new(Bolt(Across, 4m, 6m, price: 36), [Sheet("shelf", 6, 4, 1), Sheet("pack", 7, 6, null, 2.5m, pack: 2)]);

    /// <summary>What the cheapest plan from that stock costs.</summary>
    public decimal LeastOfMixedStock()
    {
        var bolt = Search.LeastLengths(Across, lengthwise: false);
        var (shelf, packed) = (Search.FewestSheets(6, 4), Search.FewestSheets(7, 6));
        var least = decimal.MaxValue;
        for (var fromShelf = 0; fromShelf <= Search.All; fromShelf++)
        {
            var rest = Search.All ^ fromShelf;
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

        return least;
    }

    public CuttingRequest Request(CuttingStock stock) => new(stock, [.. Pieces.Select((piece, index) =>
        new CutPiece($"piece {index + 1}", In(piece.Width), In(piece.Height), 1, piece.Turns))])
    {
        LongestStrip = In(Longest),

        // A busy machine must not cut the search short.
        TimeAllowance = TimeSpan.FromSeconds(30),
    };
}
