using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Spends the cloth up to the next shop increment on less work: among plans within the length that is bought anyway, fewest
/// strokes of the cutter, then fewest recipes. Strips of one size and strips of two sizes of equal height stand in the choice
/// beside the relaxed solution's and the least plan's.
/// </summary>
internal static class EasyPlan
{
    private const int MostOfRelaxation = 60;

    /// <summary>
    /// The least plan with its repeats put together, and one with as few strokes as found, which by luck is the shorter one; none
    /// where there is nothing to cut from the bolt. Sheets stay as they are in <paramref name="least"/>.
    /// </summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Layouts to choose from.</param>
    /// <param name="least">The plan of least cost.</param>
    /// <param name="room">Washed length that is bought anyway.</param>
    /// <param name="clock">The safety net.</param>
    public static IEnumerable<IReadOnlyList<LayoutUse>> Find(CuttingModel model, Relaxation relaxation, IReadOnlyList<LayoutUse> least, Length room, CancellationToken clock)
    {
        var remainder = new Remainder(model);
        var sheets = least.Where(use => !model.Grounds[use.Layout.Ground].IsBolt).ToList();
        foreach (var use in sheets)
        {
            remainder.Take(use.Layout, use.Times);
        }

        if (remainder.IsMet)
        {
            return [];
        }

        var ground = Enumerable.Range(0, model.Grounds.Count).First(index => model.Grounds[index].IsBolt);
        var start = least.Where(use => use.Layout.Ground == ground).ToList();
        var pool = start.Select(use => use.Layout)
            .Concat(SimpleLayouts.On(relaxation.Tables[ground], ground))
            .Concat(relaxation.Layouts
                .Where(layout => layout.Ground == ground)
                .OrderByDescending(layout => BoundedLayouts.RatioOf(layout, relaxation.Worth))
                .Take(MostOfRelaxation))
            .Where(layout => layout.Yield.Where((count, size) => count > 0 && remainder.Need[size] > 0).Any())
            .DistinctBy(layout => layout.Key)
            .ToList();
        var search = new WorkSearch(model, relaxation, ground, pool, remainder.Need, room);
        return [[.. sheets, .. search.Better(start, 0, clock)], [.. sheets, .. search.Better(start, WholePlan.Effort(model.Request), clock)]];
    }
}
