namespace KittingBee.Planning.Cutting;

/// <summary>
/// Finishes a plan at once when the clock has run out: layouts of the relaxed solution, the most used first, for as long as
/// they give something that is wanted, whole or not.
/// </summary>
internal static class HastyPlan
{
    /// <summary>Takes layouts until all is met; false where the cloth does not suffice.</summary>
    public static bool Finish(CuttingModel model, Relaxation relaxation, Remainder left, List<LayoutUse> uses)
    {
        var byUse = Enumerable.Range(0, relaxation.Layouts.Count)
            .OrderByDescending(index => relaxation.Uses[index] - Math.Floor(relaxation.Uses[index]))
            .Select(index => relaxation.Layouts[index])
            .ToList();
        foreach (var layout in byUse)
        {
            if (left.TimesWithin(layout) is > 0 and var times)
            {
                uses.Add(new LayoutUse(layout, times));
                left.Take(layout, times);
            }
        }

        foreach (var sheet in LeveledSheets.Fill(model, relaxation.Tables, relaxation.SheetCosts, left))
        {
            uses.Add(new LayoutUse(sheet, 1));
        }

        Level(model, relaxation, left, uses);

        // What is left is cut by strips of its own, or by anything that gives it.
        var ofOneSize = relaxation.Tables.SelectMany((table, ground) => FirstLayouts.On(table, ground, relaxation.SheetCosts[ground]));
        foreach (var layout in ofOneSize.Concat(byUse))
        {
            while (!left.IsMet && Helps(layout, left) && Suffices(model, layout, left))
            {
                var times = Math.Max(1, left.TimesWithin(layout));
                uses.Add(new LayoutUse(layout, times));
                left.Take(layout, times);
            }
        }

        return left.IsMet;
    }

    /// <summary>
    /// Pieces of the bolt side by side, the highest first, a strip as long as they fit: quick, and far better than a strip for
    /// each size where there are many sizes of few pieces.
    /// </summary>
    private static void Level(CuttingModel model, Relaxation relaxation, Remainder left, List<LayoutUse> uses)
    {
        var ground = Enumerable.Range(0, model.Grounds.Count).FirstOrDefault(index => model.Grounds[index].IsBolt, -1);
        if (ground < 0)
        {
            return;
        }

        var tables = relaxation.Tables[ground];
        var lowest = Enumerable.Range(0, tables.Facings.Length)
            .GroupBy(facing => tables.Facings[facing].Size)
            .Select(ways => ways.MinBy(facing => tables.Facings[facing].Height))
            .OrderByDescending(facing => tables.Facings[facing].Height);
        var strip = new List<int[]>();
        var room = tables.Ground.Across;
        foreach (var facing in lowest)
        {
            var (width, size) = (tables.Facings[facing].Width, tables.Facings[facing].Size);
            for (var still = left.Need[size]; still > 0;)
            {
                if (width > room)
                {
                    Cut();
                }

                var count = (int)Math.Min(still, room / width);
                strip.AddRange(Enumerable.Repeat(new[] { facing }, count));
                room -= count * width;
                still -= count;
            }
        }

        Cut();

        void Cut()
        {
            if (strip.Count > 0 && tables.Make(strip.Select(stack => stack.ToArray())) is var recipe && left.Stock[ground] >= recipe.Height)
            {
                var layout = Layout.OfStrip(ground, recipe, (double)recipe.Height / Measures.Length.TicksPerInch);
                uses.Add(new LayoutUse(layout, 1));
                left.Take(layout, 1);
            }

            strip.Clear();
            room = tables.Ground.Across;
        }
    }

    private static bool Helps(Layout layout, Remainder left)
    {
        for (var size = 0; size < left.Need.Length; size++)
        {
            if (layout.Yield[size] > 0 && left.Need[size] > 0)
            {
                return true;
            }
        }

        return false;
    }

    private static bool Suffices(CuttingModel model, Layout layout, Remainder left) =>
        left.Stock[layout.Ground] >= (model.Grounds[layout.Ground].IsBolt ? layout.Height : 1);
}
