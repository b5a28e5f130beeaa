using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>The floor as a length.</summary>
internal static class Floor
{
    /// <summary>Doubles carry about 15 digits; this much is taken off a bound before it is trusted.</summary>
    private const double Doubt = 1e-7;

    /// <summary>A sheet's cost in inches of bolt where it is not to count; the program divides by costs, so it is not zero.</summary>
    private const double NextToNothing = 1e-6;

    /// <summary>
    /// Every strip's height is a sum of sizes, so no plan's length lies between two multiples of their common measure: the
    /// bound is rounded up to the next.
    /// </summary>
    public static Length Of(CuttingModel model, Relaxation relaxation) =>
        model.Grounds.Any(ground => !ground.IsBolt) ? Length.Zero : Length.Max(InMeasure(relaxation, relaxation.Bound), AreaBeside(model));

    /// <summary>
    /// The least bolt beside sheets: of the shelf's sheets all that there are may be used, of those that cost money as many
    /// as the plan does; each counts for nothing, so that the program uses them as well as it can.
    /// </summary>
    /// <param name="request">What to cut, from a bolt and sheets.</param>
    /// <param name="sheets">The plan's sheets.</param>
    /// <param name="clock">Ends the program early; what it has then is a bound too.</param>
    public static Length BesideSheets(CuttingRequest request, IReadOnlyList<SheetRecipe> sheets, CancellationToken clock)
    {
        var used = sheets.ToLookup(recipe => recipe.Sheet, recipe => recipe.Repeat);
        var stock = request.Stock with
        {
            Bolt = request.Stock.Bolt! with { Available = null },
            Sheets = [.. request.Stock.Sheets.Select((sheet, index) =>
                sheet with { Available = sheet is { Price: 0, Available: { } all } ? all : used[index].Sum() })],
        };
        var model = CuttingModel.From(request with { Stock = stock });
        if (clock.IsCancellationRequested)
        {
            return AreaBeside(model);
        }

        var tables = model.Grounds.Select(ground => GroundTables.For(model, ground)).ToArray();
        var relaxation = Relaxation.Solve(model, tables, [.. model.Grounds.Select(ground => ground.IsBolt ? 0 : NextToNothing)], clock);
        return Length.Max(InMeasure(relaxation, relaxation.Bound - (NextToNothing * stock.Sheets.Sum(sheet => sheet.Available ?? 0))), AreaBeside(model));
    }

    /// <summary>
    /// The bolt that the pieces take by their area alone, less what the sheets to be had can hold, rounded up to the tick: a
    /// floor also where the clock ended the program.
    /// </summary>
    private static Length AreaBeside(CuttingModel model)
    {
        Int128 area = 0;
        foreach (var size in model.Sizes)
        {
            area += (Int128)size.Width.Ticks * size.Height.Ticks * size.Demand;
        }

        foreach (var ground in model.Grounds.Where(ground => !ground.IsBolt && !ground.Lengthwise))
        {
            area -= (Int128)ground.Across * ground.Along * (model.Request.Stock.Sheets[ground.Sheet].Available ?? 0);
        }

        var width = (Int128)Buying.BoltWidth(model.Request.Stock).Ticks;
        return area <= 0 ? Length.Zero : Length.FromTicks((long)((area + width - 1) / width));
    }

    private static Length InMeasure(Relaxation relaxation, double inches)
    {
        var ticks = (long)Math.Ceiling(inches * (1 - Doubt) * Length.TicksPerInch);
        return Length.FromTicks(Math.Max(0, ticks)).RoundUpTo(Length.FromTicks(Measure(relaxation)));
    }

    /// <summary>The common measure of all heights, in ticks.</summary>
    public static long Measure(Relaxation relaxation) =>
        relaxation.Tables.SelectMany(table => table.Facings).Select(facing => facing.Height).Aggregate(0L, GreatestCommonDivisor);

    public static long GreatestCommonDivisor(long one, long other)
    {
        while (other != 0)
        {
            (one, other) = (other, one % other);
        }

        return one;
    }
}
