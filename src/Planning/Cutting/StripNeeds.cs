namespace KittingBee.Planning.Cutting;

/// <summary>
/// What strips of one cloth, and the stacks in them, must be worth at least to be part of a plan that is looked for: with
/// the relaxed solution's worths, none can waste more than lies between that plan and the bound.
/// </summary>
/// <param name="worth">Worth of a piece by size.</param>
/// <param name="worths">Worth by portion.</param>
/// <param name="ofStrip">What a strip of so many ticks must be worth, or null where nothing is known.</param>
internal sealed class StripNeeds(double[] worth, double[] worths, Func<long, double>? ofStrip)
{
    public double WorthOf(int portion) => worths[portion];

    public double OfStrip(long ticks) => ofStrip?.Invoke(ticks) ?? double.NegativeInfinity;

    /// <summary>
    /// By column width and height (an index into the ground's heights), what a stack of that height or less than the next must
    /// be worth, whatever the strip that it stands in: what the strip needs, less the best row beside the stack. Null where
    /// nothing is known.
    /// </summary>
    public double[][]? OfStacks(GroundTables ground, long[] columnWidths)
    {
        if (ofStrip is null || !ground.IsExact)
        {
            return null;
        }

        var tables = ground.Tables.Twin();
        tables.Fill(worth);
        var least = columnWidths.Select(_ => new double[tables.Heights.Count]).ToArray();
        foreach (var column in least)
        {
            Array.Fill(column, double.PositiveInfinity);
        }

        for (var height = tables.Heights.Count - 1; height > 0; height--)
        {
            var ticks = tables.Heights.Sums[height];
            var isStrip = ticks <= ground.Longest || ground.Facings.Any(facing => facing.Height == ticks);
            var needed = isStrip ? OfStrip(ticks) : double.PositiveInfinity;
            if (isStrip)
            {
                tables.BestRow(height, ground.Ground.Across);
            }

            for (var column = 0; column < columnWidths.Length; column++)
            {
                var own = isStrip ? needed - tables.RowWorth(ground.Ground.Across - columnWidths[column]) : double.PositiveInfinity;
                least[column][height] = height + 1 < tables.Heights.Count ? Math.Min(own, least[column][height + 1]) : own;
            }
        }

        return least;
    }
}
