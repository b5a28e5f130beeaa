using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Layouts of one size each, to begin with: they make the first program solvable and its worths sensible.</summary>
internal static class FirstLayouts
{
    public static IEnumerable<Layout> On(GroundTables tables, int ground, double sheetCost)
    {
        for (var facing = 0; facing < tables.Facings.Length; facing++)
        {
            var lie = tables.Facings[facing];
            var across = tables.Ground.Across / lie.Width;
            if (tables.Ground.IsBolt)
            {
                var row = tables.Make(Enumerable.Range(0, (int)across).Select(_ => new[] { facing }));
                yield return Layout.OfStrip(ground, row, (double)row.Height / Length.TicksPerInch);
                continue;
            }

            var strips = Math.Max(1, tables.Ground.Along / lie.Height);
            var strip = tables.Make(Enumerable.Range(0, (int)across).Select(_ => new[] { facing }));
            yield return Layout.OfSheet(ground, [.. Enumerable.Repeat(strip, (int)strips)], sheetCost);
        }
    }
}
