using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Strips that are easy to cut: one size alone, in one or several rows, and two sizes of one height side by side.</summary>
internal static class SimpleLayouts
{
    private const int MostRows = 6;
    private const int MostPairs = 300;

    public static IEnumerable<Layout> On(GroundTables tables, int ground)
    {
        var facings = tables.Facings;
        for (var facing = 0; facing < facings.Length; facing++)
        {
            var across = (int)(tables.Ground.Across / facings[facing].Width);
            for (var rows = 1; rows <= MostRows && (rows == 1 || rows * facings[facing].Height <= tables.Longest); rows++)
            {
                yield return Strip(Enumerable.Repeat(Enumerable.Repeat(facing, rows).ToArray(), across));
            }
        }

        var pairs = from one in Enumerable.Range(0, facings.Length)
                    from other in Enumerable.Range(0, facings.Length)
                    where facings[one].Height == facings[other].Height && facings[one].Size != facings[other].Size
                    from times in Enumerable.Range(1, (int)Math.Min(100, (tables.Ground.Across - 1) / facings[one].Width))
                    let rest = (int)((tables.Ground.Across - (times * facings[one].Width)) / facings[other].Width)
                    where rest > 0
                    select Enumerable.Repeat(new[] { one }, times).Concat(Enumerable.Repeat(new[] { other }, rest));
        foreach (var pair in pairs.Take(MostPairs))
        {
            yield return Strip(pair);
        }

        Layout Strip(IEnumerable<int[]> stacks)
        {
            var recipe = tables.Make(stacks.Select(stack => stack.ToArray()));
            return Layout.OfStrip(ground, recipe, (double)recipe.Height / Length.TicksPerInch);
        }
    }

    /// <summary>A recipe as a strip, each size under its first name: enough to count its strokes.</summary>
    public static Strip Write(Recipe recipe, GroundTables tables, CuttingModel model) => new(
        Length.FromTicks(recipe.Height),
        1,
        [.. recipe.Stacks.Select(stack => new Column(
            Length.FromTicks(stack.Width),
            stack.Repeat,
            [.. stack.Facings.GroupBy(facing => facing).Select(facing => new StackedPiece(
                model.Sizes[tables.Facings[facing.Key].Size].Pieces[0],
                Length.FromTicks(tables.Facings[facing.Key].Width),
                Length.FromTicks(tables.Facings[facing.Key].Height),
                tables.Facings[facing.Key].Turned,
                facing.Count()))]))]);
}
