using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The part of <see cref="PlanChecker"/> that cuts the plan again and counts, by the rules written at <see cref="Strokes"/>:
/// every cut is listed as (how many things need it, how many things one stroke takes), and the strokes are added up.
/// </summary>
internal static class StrokeCheck
{
    public static long Count(CuttingRequest request, CuttingPlan plan)
    {
        var cuts = new List<(long Things, long AtOnce)>();
        var layers = request.Layers;
        foreach (var strip in plan.Strips)
        {
            long passes = layers == 1 ? 2 : 1;
            cuts.Add((passes * strip.Repeat, 1));
            foreach (var column in strip.Columns)
            {
                for (var place = 1; place <= column.Repeat; place++)
                {
                    // Two equal columns lie on each other in the folded strip: the second of each pair comes with the first.
                    var paired = layers > 1 && (place < column.Repeat || column.Repeat % 2 == 0);
                    if (!paired || place % 2 == 1)
                    {
                        cuts.Add((strip.Repeat, paired ? layers / 2 : layers));
                    }
                }

                Stack(strip.Height, column, (long)strip.Repeat * column.Repeat, layers, cuts);
            }
        }

        foreach (var recipe in plan.Sheets)
        {
            var sheet = request.Stock.Sheets[recipe.Sheet];
            var (width, length) = PlanChecker.Washed.Sheet(request.Stock, sheet);
            var (across, along) = recipe.Lengthwise ? (length, width) : (width, length);
            foreach (var strip in recipe.Strips)
            {
                along -= strip.Height.Ticks * strip.Repeat;
                cuts.AddRange(Enumerable.Repeat(((long)recipe.Repeat, (long)layers), strip.Repeat));
                var strips = (long)strip.Repeat * recipe.Repeat;
                var rest = across;
                foreach (var column in strip.Columns)
                {
                    rest -= column.Width.Ticks * column.Repeat;
                    cuts.AddRange(Enumerable.Repeat((strips, (long)layers), column.Repeat));
                    Stack(strip.Height, column, strips * column.Repeat, layers, cuts);
                }

                DropOneWhere(rest == 0, strips, layers, cuts);
            }

            DropOneWhere(along == 0, recipe.Repeat, layers, cuts);
        }

        return cuts.Sum(cut => Piles(cut.Things, cut.AtOnce));
    }

    private static void Stack(Length height, Column column, long columns, int layers, List<(long Things, long AtOnce)> cuts)
    {
        var rest = height.Ticks;
        var narrow = new Dictionary<(Length, Length), long>();
        foreach (var piece in column.Pieces)
        {
            rest -= piece.Height.Ticks * piece.Count;
            cuts.AddRange(Enumerable.Repeat((columns, (long)layers), piece.Count));
            if (piece.Width != column.Width)
            {
                narrow[(piece.Width, piece.Height)] = narrow.GetValueOrDefault((piece.Width, piece.Height)) + (columns * piece.Count);
            }
        }

        DropOneWhere(rest == 0, columns, layers, cuts);
        cuts.AddRange(narrow.Values.Select(pieces => (pieces, (long)layers)));
    }

    /// <summary>The last cut falls on an edge that is there already.</summary>
    private static void DropOneWhere(bool edge, long things, long atOnce, List<(long Things, long AtOnce)> cuts)
    {
        if (edge)
        {
            cuts.Remove((things, atOnce));
        }
    }

    private static long Piles(long things, long atOnce) => (things / atOnce) + (things % atOnce == 0 ? 0 : 1);
}
