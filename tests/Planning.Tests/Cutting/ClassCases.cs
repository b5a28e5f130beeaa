using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Made-up class-size cases from a seed: 4 to 15 sizes, 8 to 40 kits, 40 to 44 in wide, sizes on halves and on ⅞ as blocks have them.</summary>
internal static class ClassCases
{
    public static CuttingRequest Mixed(int seed, int? sizes = null, int? kits = null)
    {
        var random = new Random(seed);
        var count = sizes ?? random.Next(4, 16);
        var students = kits ?? random.Next(8, 41);
        var width = random.Next(40, 45);
        var pieces = new List<CutPiece>();
        var seen = new HashSet<(int, int)>();
        while (pieces.Count < count)
        {
            var one = random.Next(10) < 6 ? 4 * random.Next(3, 18) : (8 * random.Next(1, 9)) + 7;
            var other = random.Next(10) < 5 ? one : 4 * random.Next(3, 26);
            if (seen.Add((Math.Min(one, other), Math.Max(one, other))))
            {
                pieces.Add(new CutPiece($"{one}/8 × {other}/8", Length.FromInches(0, one, 8), Length.FromInches(0, other, 8), students * random.Next(1, 9)));
            }
        }

        return new CuttingRequest(new CuttingStock(new BoltStock(Length.FromInches(width), Length.FromYards(0.125m), Length.Zero, 12m), []), pieces)
        {
            Objective = CuttingObjective.LeastLength,

            // Work limits end the search long before; a busy machine needs the room.
            TimeAllowance = TimeSpan.FromSeconds(10),
        };
    }
}
