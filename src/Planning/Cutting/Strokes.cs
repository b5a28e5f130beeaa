using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Counts strokes of the cutter. A stroke is one pass along one straight line, through at most <c>n</c> layers. The count is
/// ours, made of six rules:
/// <list type="number">
/// <item>A strip from the bolt is cut on the fold, two layers at once: one stroke a strip. With one layer allowed, two.</item>
/// <item>Strips of one recipe are stacked. Equal columns of a folded strip are cut in pairs from its open ends, so a stroke
/// takes two layers of each strip in the stack and ⌊n ÷ 2⌋ strips; an odd column is cut open, n strips at once.</item>
/// <item>Sheets of one recipe are stacked n high; strips cut from them, and columns cut from those, are not folded. Equal
/// strips are stacked n high.</item>
/// <item>Equal columns are stacked n high and cross-cut once above each piece.</item>
/// <item>Pieces narrower than their column are stacked n high, size by size, and trimmed with one stroke.</item>
/// <item>A cut that would fall on an edge already there (the top of the stack, the far end of a sheet or of a strip from one)
/// is no stroke. The selvage is no such edge: the bolt's last column is always cut.</item>
/// </list>
/// Truing the cloth is not counted: it is the same for every plan.
/// </summary>
public static class Strokes
{
    /// <summary>Strokes for a whole plan.</summary>
    /// <exception cref="OverflowException">More than two thousand million strokes.</exception>
    public static int Count(CuttingRequest request, IReadOnlyList<Strip> strips, IReadOnlyList<SheetRecipe> sheets)
    {
        var strokes = strips.Sum(strip => OfBoltStrip(strip, request.Layers));
        foreach (var recipe in sheets)
        {
            var sheet = request.Stock.Sheets[recipe.Sheet];
            strokes += OfSheet(recipe, Buying.SheetWidth(request.Stock, sheet), Buying.SheetLength(request.Stock, sheet), request.Layers);
        }

        return checked((int)strokes);
    }

    /// <summary>Strokes for all repeats of one strip recipe of the bolt.</summary>
    public static long OfBoltStrip(Strip strip, int layers)
    {
        var strokes = layers >= 2 ? strip.Repeat : 2L * strip.Repeat;
        foreach (var column in strip.Columns)
        {
            strokes += layers >= 2
                ? (column.Repeat / 2 * Piles(strip.Repeat, layers / 2)) + (column.Repeat % 2 * Piles(strip.Repeat, layers))
                : (long)column.Repeat * strip.Repeat;
            strokes += InColumn(strip.Height, column, (long)column.Repeat * strip.Repeat, layers);
        }

        return strokes;
    }

    /// <summary>Strokes for all repeats of one sheet recipe; the sizes are those of the washed and trued sheet.</summary>
    public static long OfSheet(SheetRecipe recipe, Length width, Length length, int layers)
    {
        var across = recipe.Lengthwise ? length : width;
        var along = recipe.Lengthwise ? width : length;
        var filled = recipe.Strips.Aggregate(Length.Zero, (sum, strip) => sum + (strip.Height * strip.Repeat)) == along;
        var strokes = (recipe.Strips.Sum(strip => (long)strip.Repeat) - (filled ? 1 : 0)) * Piles(recipe.Repeat, layers);
        foreach (var strip in recipe.Strips)
        {
            var equal = (long)strip.Repeat * recipe.Repeat;
            var full = strip.Columns.Aggregate(Length.Zero, (sum, column) => sum + (column.Width * column.Repeat)) == across;
            strokes += (strip.Columns.Sum(column => (long)column.Repeat) - (full ? 1 : 0)) * Piles(equal, layers);
            strokes += strip.Columns.Sum(column => InColumn(strip.Height, column, equal * column.Repeat, layers));
        }

        return strokes;
    }

    private static long InColumn(Length height, Column column, long columns, int layers)
    {
        long cross = column.Pieces.Sum(piece => (long)piece.Count);
        var filled = column.Pieces.Aggregate(Length.Zero, (sum, piece) => sum + (piece.Height * piece.Count)) == height;
        var strokes = (filled ? cross - 1 : cross) * Piles(columns, layers);

        // Trimming is by cut size: two names for one size lie in one pile.
        foreach (var narrow in column.Pieces.Where(piece => piece.Width < column.Width).GroupBy(piece => (piece.Width, piece.Height)))
        {
            strokes += Piles(narrow.Sum(piece => piece.Count * columns), layers);
        }

        return strokes;
    }

    private static long Piles(long things, int layers) => (things + layers - 1) / layers;
}
