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
