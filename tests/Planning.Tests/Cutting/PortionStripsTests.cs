using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>The least length for every choice of a handful of pieces, against every way to cut them.</summary>
public sealed class PortionStripsTests
{
    [Fact]
    public void Lengths_EveryPortionOfDrawnPieces_AreTheLeastThereAre()
    {
        var failures = new List<string>();
        for (var seed = 1; seed <= 60; seed++)
        {
            var random = new Random(seed);
            var (across, longest) = (random.Next(8, 13), random.Next(3) == 0 ? random.Next(4, 7) : 24);
            var sizes = Enumerable.Range(1, random.Next(4, 8)).Select(_ => (Width: random.Next(1, 7), Height: random.Next(1, 7), Turns: random.Next(3) > 0, Count: random.Next(4) == 0 ? 2 : 1)).ToList();

            // A piece taller than the ruler either way would let the search below take one way's height for the strip and lie the other.
            var request = Cut(Bolt(across), [.. sizes.Select((size, index) => Piece($"piece {index}", size.Width, size.Height, size.Count, size.Turns && Math.Min(size.Width, size.Height) <= longest))]) with { LongestStrip = In(longest) };
            var model = CuttingModel.From(request);
            int[] need = [.. model.Sizes.Select(size => size.Demand)];
            if (need.Sum() > 8)
            {
                continue;
            }

            (int Width, int Height, bool Turns)[] pieces = [.. model.Sizes.SelectMany(size => Enumerable.Repeat(((int)size.Width.Inches, (int)size.Height.Inches, size.Turns), size.Demand))];
            var least = new ExactSearch(pieces, longest).LeastLengths(across, lengthwise: false);
            var portions = Portions.Of(need, 1_000_000, new PortionWork(long.MaxValue, CancellationToken.None))!;
            var strips = PortionStrips<short>.Of(
                GroundTables.For(model, model.Grounds[0]), portions, need, In(1).Ticks, In(100).Ticks, new StripNeeds(new double[need.Length], new double[portions.Count], null))!;
            foreach (var portion in portions.Within(portions.All))
            {
                var length = Length.FromTicks(strips.TicksOf(strips.Lengths[portion]));
                if (length != In(least[SetOf(portions.Read(portion), need)]))
                {
                    failures.Add($"Case {seed}, portion {string.Join(' ', portions.Read(portion))}: {length}, least {least[SetOf(portions.Read(portion), need)]} in.");
                }
            }
        }

        Assert.True(failures.Count == 0, string.Join("\n", failures.Take(5)));
    }

    /// <summary>The first so many pieces of each size.</summary>
    private static int SetOf(int[] counts, int[] need)
    {
        var (set, first) = (0, 0);
        for (var size = 0; size < need.Length; size++)
        {
            set |= ((1 << counts[size]) - 1) << first;
            first += need[size];
        }

        return set;
    }
}
