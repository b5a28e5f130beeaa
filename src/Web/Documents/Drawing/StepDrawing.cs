using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>Draws one sewing step: the parts that are joined, a little apart.</summary>
public static class StepDrawing
{
    private const decimal Gap = 12m;

    /// <summary>
    /// The drawing of a step of this block's cut list. A unit is drawn alone; of a join its parts are drawn apart, as they
    /// lie before they are sewn. Empty for a step of a whole project, which has no place on the block's grid.
    /// </summary>
    public static string Svg(Block block, SewingStep step, DrawingOptions? options = null)
    {
        if (step.ColumnSpan == 0)
        {
            return "";
        }

        options ??= new();
        var patches = BlockPatches.Of(block);
        if (BlockChecks.Check(block).Count > 0)
        {
            return BlockDrawing.Svg(block, options);
        }

        var id = options.Id ?? SvgText.NextId();
        var join = Assembly.For(block).PartsFirst().First(piece =>
            (piece.Column, piece.Row, piece.ColumnSpan, piece.RowSpan) == (step.Column, step.Row, step.ColumnSpan, step.RowSpan));
        var parts = join.Parts.Count == 0 ? [join] : join.Parts;
        var left = patches.ColumnEdges[join.Column];
        var top = patches.RowEdges[join.Row];
        var whole = patches.ColumnEdges[join.Column + join.ColumnSpan] - left;
        var tall = patches.RowEdges[join.Row + join.RowSpan] - top;

        // One scale for all steps of a block would make small units unreadable: each drawing fills its width, tall ones its height.
        var columns = Starts(parts.Select(part => part.Column));
        var rows = Starts(parts.Select(part => part.Row));
        var room = options.Width - (Gap * (columns.Count - 1));
        var width = tall > whole ? room * whole.Ticks / tall.Ticks : room;
        var frame = new DrawingFrame(whole, Math.Max(width, 1));
        var drawnWidth = frame.Width + (Gap * (columns.Count - 1));
        var drawnHeight = frame.Of(tall) + (Gap * (rows.Count - 1));
        var svg = new SvgText();
        BlockDrawing.OpenDrawing(svg, id, drawnWidth, drawnHeight, null, options.Title ?? Say($"Step {step.Number}"), Say(step.Said));
        BlockDrawing.Define(svg, id, patches.Patches.Where(patch => IsOn(block.Units[patch.Unit - 1], join)).Select(patch => patch.Letter), options);
        foreach (var part in parts)
        {
            var shiftX = (Gap * columns.IndexOf(part.Column)) - frame.Of(left);
            var shiftY = (Gap * rows.IndexOf(part.Row)) - frame.Of(top);
            svg.Open(
                "g",
                ("transform", $"translate({SvgText.Number(shiftX)} {SvgText.Number(shiftY)})"),
                ("stroke", BlockDrawing.Ink),
                ("stroke-width", "0.9"),
                ("stroke-linejoin", "round"));
            foreach (var patch in patches.Patches.Where(patch => IsOn(block.Units[patch.Unit - 1], part)))
            {
                BlockDrawing.DrawPatch(svg, id, patch, frame);
            }

            svg.Close("g");
            svg.Open("g", ("transform", $"translate({SvgText.Number(shiftX)} {SvgText.Number(shiftY)})"));
            PatchLetters.Draw(svg, patches.Patches.Where(patch => IsOn(block.Units[patch.Unit - 1], part)), frame);
            svg.Close("g");
        }

        return svg.Close("svg").ToString();
    }

    private static List<int> Starts(IEnumerable<int> starts) => [.. starts.Distinct().Order()];

    private static bool IsOn(Unit unit, AssemblyPiece part) =>
        unit.Column >= part.Column && unit.Column < part.Column + part.ColumnSpan
        && unit.Row >= part.Row && unit.Row < part.Row + part.RowSpan;
}
