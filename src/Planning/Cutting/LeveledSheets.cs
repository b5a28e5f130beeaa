using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Fills sheets at once, row by row with the highest pieces first, those that cost least for their area before the others
/// and none that costs more than the bolt it saves: where there are hundreds of sizes and little time, a plan to begin with.
/// </summary>
internal static class LeveledSheets
{
    /// <summary>Filled sheets, one by one, taken off what is wanted.</summary>
    public static IEnumerable<Layout> Fill(CuttingModel model, GroundTables[] tables, double[] sheetCosts, Remainder left)
    {
        var perArea = model.Grounds.Where(ground => ground.IsBolt).Select(ground => 1.0 / Length.TicksPerInch / ground.Across).FirstOrDefault(double.PositiveInfinity);
        var kinds = Enumerable.Range(0, model.Grounds.Count)
            .Where(ground => model.Grounds[ground] is { IsBolt: false, Lengthwise: false })
            .OrderBy(ground => sheetCosts[ground] / ((double)model.Grounds[ground].Across * model.Grounds[ground].Along));
        foreach (var ground in kinds)
        {
            while (left.Stock[ground] > 0 && Rows(tables[ground], left.Need) is { Count: > 0 } rows)
            {
                var sheet = Layout.OfSheet(ground, rows, sheetCosts[ground]);
                if (sheetCosts[ground] > perArea * AreaOf(model, sheet))
                {
                    break;
                }

                left.Take(sheet, 1);
                yield return sheet;
            }
        }
    }

    private static List<Recipe> Rows(GroundTables tables, int[] need)
    {
        var still = need.ToArray();
        var lowest = Enumerable.Range(0, tables.Facings.Length)
            .GroupBy(facing => tables.Facings[facing].Size)
            .Select(ways => ways.MinBy(facing => tables.Facings[facing].Height))
            .OrderByDescending(facing => tables.Facings[facing].Height)
            .ToList();
        var rows = new List<Recipe>();
        var along = tables.Ground.Along;
        while (true)
        {
            var row = new List<int[]>();
            var (across, high) = (tables.Ground.Across, along);
            foreach (var facing in lowest.Where(facing => tables.Facings[facing].Height <= high))
            {
                var lie = tables.Facings[facing];
                for (; still[lie.Size] > 0 && lie.Width <= across; still[lie.Size]--)
                {
                    row.Add([facing]);
                    across -= lie.Width;
                }
            }

            if (row.Count == 0)
            {
                return rows;
            }

            rows.Add(tables.Make(row));
            along -= rows[^1].Height;
        }
    }

    private static double AreaOf(CuttingModel model, Layout sheet) =>
        sheet.Yield.Select((count, size) => (double)count * model.Sizes[size].Width.Ticks * model.Sizes[size].Height.Ticks).Sum();
}
