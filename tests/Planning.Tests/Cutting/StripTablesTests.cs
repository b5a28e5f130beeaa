using KittingBee.Planning.Cutting;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>The tables against the plain recursion over every choice of columns and of pieces in them.</summary>
public sealed class StripTablesTests
{
    /// <summary>Measures: of one tick and of eight, where places lie one distance apart, and none, where the sums are the places.</summary>
    [Theory]
    [InlineData(1, 1, 12, 30)]
    [InlineData(2, 8, 12, 30)]
    [InlineData(3, 1, 2, 9)]
    [InlineData(4, 1, 3, 40)]
    [InlineData(5, 1, 700_001, 1_900_003)]
    public void BestRow_OfAnyHeightAndWidth_IsWorthWhatThePlainRecursionFinds(int seed, long measure, int least, int most)
    {
        var random = new Random(seed);
        var facings = Enumerable.Range(0, 6).Select(size => new Facing(size, false, measure * random.Next(least, most), measure * random.Next(least, most))).ToArray();
        var (across, along) = (measure * most * 5, measure * most * 2);
        var tables = new StripTables(
            facings,
            ReachableSums.Of(facings.Select(facing => facing.Height), along, int.MaxValue)!,
            ReachableSums.Of(facings.Select(facing => facing.Width), across, int.MaxValue)!);
        for (var round = 0; round < 3; round++)
        {
            // Whole numbers, so that every order of adding them gives the same; one piece in six is worth nothing.
            var worth = facings.Select(_ => (double)random.Next(0, 6) * 7).ToArray();
            var upTo = round == 0 ? int.MaxValue : tables.Heights.Count / 2;
            tables.Fill(worth, upTo);
            var plain = new PlainTables(facings, worth);
            for (var height = 1; height < Math.Min(upTo, tables.Heights.Count); height++)
            {
                foreach (var width in new[] { across, across / 2, across / 3 })
                {
                    var best = tables.BestRow(height, width);
                    Assert.Equal(plain.Row(tables.Heights.Sums[height], width), best);

                    // What is read from the tables is worth as much, and lies within height and width.
                    var columns = tables.ReadRow(width);
                    Assert.True(columns.Sum(column => tables.ColumnWidths[column]) <= width);
                    var stacks = columns.ConvertAll(column => tables.ReadStack(column, height));
                    Assert.Equal(best, stacks.Sum(stack => stack.Sum(facing => worth[facings[facing].Size])));
                    Assert.All(stacks, stack => Assert.True(stack.Sum(facing => facings[facing].Height) <= tables.Heights.Sums[height]));
                    Assert.All(columns.Zip(stacks), pair => Assert.All(pair.Second, facing => Assert.True(facings[facing].Width <= tables.ColumnWidths[pair.First])));
                }
            }
        }
    }

    private sealed class PlainTables(Facing[] facings, double[] worth)
    {
        private readonly Dictionary<(long Width, long Height), double> _stacks = [];
        private readonly Dictionary<(long Height, long Width), double> _rows = [];

        public double Row(long height, long width)
        {
            if (!_rows.TryGetValue((height, width), out var best))
            {
                best = facings.Where(facing => facing.Width <= width)
                    .Select(column => Stack(column.Width, height) + Row(height, width - column.Width)).DefaultIfEmpty(0).Max();
                _rows.Add((height, width), best);
            }

            return best;
        }

        private double Stack(long width, long height)
        {
            if (!_stacks.TryGetValue((width, height), out var best))
            {
                best = facings.Where(facing => facing.Width <= width && facing.Height <= height)
                    .Select(facing => worth[facing.Size] + Stack(width, height - facing.Height)).DefaultIfEmpty(0).Max();
                _stacks.Add((width, height), best);
            }

            return best;
        }
    }
}
