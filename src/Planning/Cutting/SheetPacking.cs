using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Plans from sheets of one kind alone, for as many pieces as a search over fillings can hold: where pieces are few and
/// large, rounding the linear program loses whole sheets that this finds.
/// </summary>
internal static class SheetPacking
{
    /// <summary>More pieces than this are the linear program's: its rounding loses little there.</summary>
    private const int MostPieces = 400;

    /// <summary>States rated: about half a second.</summary>
    private const long Work = 12_000_000;

    /// <summary>Layouts for all pieces, or null where this is no case for it or the sheets do not suffice.</summary>
    /// <param name="model">The request.</param>
    /// <param name="relaxation">Its bound, which ends the search when it is met, and its tables.</param>
    /// <param name="clock">The safety net.</param>
    public static IReadOnlyList<LayoutUse>? Find(CuttingModel model, Relaxation relaxation, CancellationToken clock)
    {
        if (!Applies(model) || model.Sizes.Sum(size => (long)size.Demand) > MostPieces)
        {
            return null;
        }

        var grounds = relaxation.Tables.Select(table => new SheetGround(table.Ground.Across, table.Ground.Along, table.Facings)).ToList();
        if (AreMirrored(relaxation.Tables[0], relaxation.Tables[1]))
        {
            grounds.RemoveAt(1);
        }

        var packer = new SheetPacker(
            [.. grounds],
            [.. model.Sizes.Select(size => (double)size.Width.Ticks * size.Height.Ticks)],
            [.. model.Sizes.Select(size => size.Demand)],
            model.Request.LongestStrip.Ticks,
            Fewest(relaxation));
        var sheets = packer.Pack(Work, clock);
        return model.Request.Stock.Sheets[model.Grounds[0].Sheet].Available is { } available && sheets.Count > available
            ? null
            : [.. sheets.Select(sheet => Layout(sheet, relaxation)).GroupBy(layout => layout.Key).Select(alike => new LayoutUse(alike.First(), alike.Count()))];
    }

    /// <summary>True where all cloth is sheets of one kind, so that fewest sheets is least cost.</summary>
    public static bool Applies(CuttingModel model) => model.Grounds.Select(ground => ground.Sheet).Distinct().ToList() is [>= 0];

    /// <summary>Sheets that no plan can do without, where all are of one kind.</summary>
    public static int Fewest(Relaxation relaxation) => (int)Math.Ceiling((relaxation.Bound / relaxation.SheetCosts[0]) - 1e-6);

    /// <summary>On a square sheet whose pieces all turn, strips along it are strips across it.</summary>
    public static bool AreMirrored(GroundTables one, GroundTables other) =>
        one.Ground.Across == other.Ground.Across && one.Ground.Along == other.Ground.Along
        && one.Facings.Select(facing => (facing.Size, facing.Width, facing.Height)).ToHashSet()
            .SetEquals(other.Facings.Select(facing => (facing.Size, facing.Width, facing.Height)));

    private static Layout Layout(FilledSheet sheet, Relaxation relaxation)
    {
        var table = relaxation.Tables[sheet.Ground];
        var strips = sheet.Strips.Select(strip => table.Make(strip.Select(column => column.ToArray())));
        return Cutting.Layout.OfSheet(sheet.Ground, [.. strips], relaxation.SheetCosts[sheet.Ground]);
    }
}
