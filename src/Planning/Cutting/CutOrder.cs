using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>One ruler setting within a line of the ticket: columns of one width, cut side by side.</summary>
/// <param name="Column">The column as planned; its repeat counts columns in one strip.</param>
/// <param name="Columns">Columns of it in all repeats of the line.</param>
/// <param name="Pieces">Pieces that come of them in all.</param>
/// <param name="SameSetting">True when the ruler stands as it did for the sub-cut before.</param>
public sealed record TicketSubCut(Column Column, long Columns, long Pieces, bool SameSetting);

/// <summary>One line of the ticket: a strip recipe, cut as often as it is ticked.</summary>
/// <param name="Number">From 1, in the order of cutting.</param>
/// <param name="Sheet">Index of the sheet recipe in the plan that the strip belongs to, or null for the bolt.</param>
/// <param name="Strip">The recipe, its sub-cuts longest first.</param>
/// <param name="Ticks">How many strips are cut, each with a box to tick.</param>
/// <param name="Layers">The most layers that one stroke of the sub-cutting goes through.</param>
/// <param name="Piles">How many piles the strips are stacked into for sub-cutting.</param>
/// <param name="SameSetting">True when the ruler stands as it did for the line before.</param>
/// <param name="UsedSoFar">Length of washed and trued bolt used when this line is done; for a sheet, the length of each sheet used so far, along the direction its strips are stacked.</param>
/// <param name="SubCuts">Longest first.</param>
public sealed record TicketLine(
    int Number, int? Sheet, Strip Strip, long Ticks, int Layers, long Piles, bool SameSetting, Length UsedSoFar, IReadOnlyList<TicketSubCut> SubCuts);

/// <summary>
/// The order of work at the table: tallest strips first, so that a slip can still be cut into something smaller; strips of one
/// height together, so that the ruler is set once; within a strip the longest sub-cuts first, for the same two reasons.
/// </summary>
public static class CutOrder
{
    /// <summary>Puts strips and their columns in cutting order and joins equal recipes, so that they are stacked together.</summary>
    public static IReadOnlyList<Strip> Arrange(IEnumerable<Strip> strips) =>
        [.. strips.Select(Arrange)
            .GroupBy(Signature)
            .Select(alike => alike.First() with { Repeat = checked(alike.Sum(strip => strip.Repeat)) })
            .OrderByDescending(strip => strip.Height)
            .ThenByDescending(strip => strip.Columns.Count > 0 ? strip.Columns[0].Width : Length.Zero)
            .ThenByDescending(strip => strip.Repeat)
            .ThenBy(Signature, StringComparer.Ordinal)];

    /// <summary>Puts sheet recipes in cutting order (sheet by sheet, most repeated first) and joins equal ones.</summary>
    public static IReadOnlyList<SheetRecipe> Arrange(IEnumerable<SheetRecipe> recipes) =>
        [.. recipes.Select(recipe => recipe with { Strips = Arrange(recipe.Strips) })
            .GroupBy(Signature)
            .Select(alike => alike.First() with { Repeat = checked(alike.Sum(recipe => recipe.Repeat)) })
            .OrderBy(recipe => recipe.Sheet)
            .ThenByDescending(recipe => recipe.Repeat)
            .ThenBy(Signature, StringComparer.Ordinal)];

    /// <summary>The lines of the ticket for a plan: sheets first, for they are on the shelf, then the bolt.</summary>
    public static IReadOnlyList<TicketLine> Lines(CuttingRequest request, CuttingPlan plan)
    {
        var lines = new List<TicketLine>();
        for (var index = 0; index < plan.Sheets.Count; index++)
        {
            var recipe = plan.Sheets[index];
            Add(recipe.Strips, index, recipe.Repeat, request.Layers, lines);
        }

        Add(plan.Strips, null, 1, request.Layers, lines);
        return lines;
    }

    private static void Add(IEnumerable<Strip> strips, int? sheet, int sheets, int layers, List<TicketLine> lines)
    {
        var used = Length.Zero;
        Length? setting = null;
        foreach (var strip in strips)
        {
            used += strip.Height * strip.Repeat;
            var ticks = (long)strip.Repeat * sheets;
            var subCuts = new List<TicketSubCut>();
            Length? before = null;
            foreach (var column in strip.Columns)
            {
                var columns = ticks * column.Repeat;
                subCuts.Add(new TicketSubCut(column, columns, columns * column.Pieces.Sum(piece => piece.Count), before == column.Width));
                before = column.Width;
            }

            // A strip of the bolt lies folded while it has a pair of equal columns to give.
            var folded = sheet is null && layers >= 2 && strip.Columns.Any(column => column.Repeat >= 2) ? 2 : 1;
            var together = (int)Math.Min(layers / folded, ticks);
            lines.Add(new TicketLine(
                lines.Count + 1, sheet, strip, ticks, together * folded, (ticks + together - 1) / together, setting == strip.Height, used, subCuts));
            setting = strip.Height;
        }
    }

    private static Strip Arrange(Strip strip) => strip with
    {
        Columns =
        [
            .. strip.Columns
                .Select(column => column with { Pieces = Arrange(column.Pieces) })
                .GroupBy(Signature)
                .Select(alike => alike.First() with { Repeat = checked(alike.Sum(column => column.Repeat)) })
                .OrderByDescending(column => column.Width)
                .ThenBy(Signature, StringComparer.Ordinal),
        ],
    };

    private static IReadOnlyList<StackedPiece> Arrange(IEnumerable<StackedPiece> pieces) =>
        [.. pieces.GroupBy(piece => (piece.Piece, piece.Turned))
            .Select(alike => alike.First() with { Count = checked(alike.Sum(piece => piece.Count)) })
            .OrderByDescending(piece => piece.Width)
            .ThenByDescending(piece => piece.Height)
            .ThenBy(piece => piece.Piece)];

    private static string Signature(SheetRecipe recipe) =>
        $"{recipe.Sheet}{(recipe.Lengthwise ? 'l' : 'c')}{string.Join('|', recipe.Strips.Select(strip => Signature(strip) + '×' + strip.Repeat))}";

    private static string Signature(Strip strip) =>
        $"{strip.Height.Ticks}:{string.Join(';', strip.Columns.Select(column => Signature(column) + '×' + column.Repeat))}";

    private static string Signature(Column column) =>
        $"{column.Width.Ticks}={string.Join(',', column.Pieces.Select(piece => $"{piece.Piece}{(piece.Turned ? 't' : 's')}{piece.Count}"))}";
}
